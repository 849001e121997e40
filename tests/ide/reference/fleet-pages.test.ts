/** The pages about several craft: found by their words, and what they say holds. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fleetPages } from "../../../shared/ide/reference/fleet/pages.ts";
import { languageWords, ownPageOf } from "../../../shared/ide/reference/language-words.ts";
import { pageOfNamed } from "../../../shared/ide/reference/page.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { thirdOrder, thirdOrderCount } from "../../../shared/numbers/radio.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const catalogue = makeCatalogue();
const textOf = (name: string) => pageOfNamed(catalogue, { name, kind: "word" });
const channels = () => textOf("channels-together");

test("each page has a word, and each word its page", () => {
  const words = languageWords.filter(({ word }) => ownPageOf(word) === "fleet").map(({ word }) => word);
  expect(fleetPages.map(({ name }) => name)).toEqual(words);
  for (const { name, title } of fleetPages) expect(textOf(name)).toContain(`# ${title}\n`);
});

test("its scripts have no finding but what a craft of two lines lacks", () => {
  const scripts = fleetPages.flatMap(({ name }) => [...textOf(name).matchAll(/```fettle\n([^`]*)```/g)]);
  expect(scripts.length).toBeGreaterThan(0);
  for (const [, script = ""] of scripts) {
    const found = findingsOf(makeCore(catalogue).at(memoryFiles({ "jug.fettle": script })), "jug.fettle");
    expect(found.map(({ message }) => message)).toEqual([]);
  }
});

test("the mixtures that it tells are those that are computed", () => {
  const third = thirdOrder([200, 195, 187]).map(({ mhz }) => mhz);
  const told = /187 MHz give ([\d, and]+) MHz/.exec(channels())?.[1]?.match(/\d+/g)?.map(Number);
  expect(told?.toSorted()).toEqual(third.toSorted());
  const counts = [...channels().matchAll(/(\d+) for (two|three|four|five|six)/g)].map(([, count]) => Number(count));
  expect(counts).toEqual([2, 3, 4, 5, 6].map(thirdOrderCount));
});
