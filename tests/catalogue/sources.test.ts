/** Where figures come from, and names that must be plain without their section. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";

const { sections } = makeCatalogue();

/** Every `source` anywhere below a value. */
function sourcesIn(value: unknown): string[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === "source" && typeof inner === "string" ? [inner] : sourcesIn(inner),
  );
}

const admitted = /^(common practice, no source|from memory: |by definition)/;
/** Publications that the catalogue takes limits from. */
const published = /(datasheet|cell makers' summaries|Regulation \(EU\)|ETSI|WCAG|CFR)/;

test("every limit names a publication, or says that there is none", () => {
  const sources = sections.flatMap(sourcesIn);
  expect(sources.length).toBeGreaterThan(300);
  expect(sources.filter((source) => !admitted.test(source) && !published.test(source))).toEqual([]);
});

// A dial names the quantity it changes without its section; these two cannot be flown on a dial anyway.
test("a quantity that a dial may change is the only one of its name", () => {
  const names = sections.flatMap(({ settings }) =>
    settings.filter(({ types }) => types.some(({ is }) => is === "quantity")).map(({ name }) => name),
  );
  const twice = names.filter((name, i) => names.indexOf(name) !== i);
  expect(twice.sort()).toEqual(["band", "power"]);
});
