/** What is typed finds the page that is meant: names in any spelling, beginnings, slips, plain words and a pilot's own. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { everyName, pageAddress } from "../../../shared/ide/reference/page-names.ts";
import { searchNames } from "../../../shared/ide/reference/search.ts";
import { glow } from "../own-words/glow.ts";
import {
  emptyQueries,
  exactQueries,
  foreignQueries,
  misspeltQueries,
  ownAliases,
  ownWordQueries,
  partialQueries,
  plainQueries,
  unitQueries,
  wordQueries,
} from "./queries.ts";

const catalogue = makeCatalogue([glow], ownAliases);
const found = (typed: string) => searchNames(catalogue, typed, 5).map(({ page }) => pageAddress(page));

test.each([
  ...exactQueries,
  ...unitQueries,
  ...wordQueries,
  ...ownWordQueries,
  ...partialQueries,
  ...misspeltQueries,
  ...plainQueries,
  ...foreignQueries,
])("“$typed” finds $means", ({ typed, means, first }) => {
  const pages = first === false ? found(typed) : found(typed).slice(0, 1);
  expect(
    [means].flat().some((page) => pages.includes(page)),
    `${pages}`,
  ).toBe(true);
});

test.each(emptyQueries)("“%s” finds nothing", (typed) => {
  expect(found(typed)).toEqual([]);
});

test("every name finds itself, by its name and by its address", () => {
  const lost = everyName(catalogue).flatMap((page) => {
    const byName = found(page.name);
    const [byAddress] = found(pageAddress(page));
    return byName.includes(pageAddress(page)) && byAddress === pageAddress(page) ? [] : [pageAddress(page)];
  });
  expect(lost).toEqual([]);
});

test("every name is found with one letter wrong, where it is long enough to be known again", () => {
  const names = everyName(catalogue).filter(({ name, kind }) => kind !== "unit" && name.length > 6);
  const wrong = fc.tuple(fc.constantFrom(...names), fc.nat(), fc.constantFrom("drop", "swap", "double"));
  fc.assert(
    fc.property(wrong, ([page, at, how]) => {
      const letters = [...page.name];
      const i = 1 + (at % (letters.length - 2));
      if (how === "drop") letters.splice(i, 1);
      else if (how === "double") letters.splice(i, 0, letters[i]!);
      else [letters[i], letters[i + 1]] = [letters[i + 1]!, letters[i]!];
      const hits = searchNames(catalogue, letters.join(""), 12).map((each) => pageAddress(each.page));
      expect(hits, letters.join("")).toContain(pageAddress(page));
    }),
    { numRuns: 150 },
  );
});

test("whatever is typed, no more than asked for comes, the best first", () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 40 }), (typed) => {
      const all = searchNames(catalogue, typed, 7);
      expect(all.length).toBeLessThanOrEqual(7);
      expect(all.map(({ cost }) => cost)).toEqual(all.map(({ cost }) => cost).sort((a, b) => a - b));
    }),
  );
});
