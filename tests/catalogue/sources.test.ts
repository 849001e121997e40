/** Where figures come from, and names that must be plain without their section. */
import { expect, test } from "vitest";
import { ADJUSTABLE } from "../../shared/catalogue/adjustable.ts";
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

// A dial names the quantity it changes without its section.
test("a setting that a dial may move is a quantity, no matter of safety, and the only quantity of its name", () => {
  const settings = makeCatalogue().sections.flatMap((section) => section.settings);
  const movable = settings.filter(({ adjustable }) => adjustable);
  expect(movable).toHaveLength(ADJUSTABLE.size);
  for (const { name, kind, types } of movable) {
    expect(kind, name).not.toBe("safety");
    expect(
      types.map(({ is }) => is),
      name,
    ).toContain("quantity");
    const same = settings.filter((each) => each.name === name && each.types.some(({ is }) => is === "quantity"));
    expect(same, name).toHaveLength(1);
  }
});
