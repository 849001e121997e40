/** What a hover leads with, of every kind of word; and that it stays short enough to be read without scrolling. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { hoverText } from "../cursor.ts";
import { habits, hoverCases } from "./corpus.ts";
import { firstLines } from "./corpus-expected.ts";

const hoverOf = ({ text, more }: Pick<(typeof hoverCases)[number], "text" | "more">) =>
  hoverText(text, { "habits.fettle": habits, ...more });
const linesOf = (markdown: string | null) =>
  (markdown ?? "")
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line) => line.trimEnd());

test("the corpus is as long as its answers", () => {
  expect(hoverCases.length).toBeGreaterThanOrEqual(60);
  expect(hoverCases.map(({ title }) => title).sort()).toEqual(Object.keys(firstLines).sort());
});

test.each(hoverCases)("$title", ({ title, ...at }) => {
  expect(linesOf(hoverOf(at)).slice(0, 3)).toEqual(firstLines[title]);
});

/** The lines of a hover in its usual box, some 500 px wide and 250 px high, with 70 letters a line. */
function heightOf(markdown: string): number {
  const shown = markdown.replace(/\]\([^)]*\)/g, "]");
  return shown.split("\n\n").reduce((sum, part) => {
    const lines = part.split("\n").reduce((count, line) => count + Math.max(1, Math.ceil(line.length / 70)), 0);
    return sum + lines + 0.4;
  }, 0);
}

test("no hover of the corpus has to be scrolled", () => {
  const tall = hoverCases.flatMap((each) => {
    const height = heightOf(hoverOf(each) ?? "");
    return height > 15 ? [`${each.title}: ${height.toFixed(1)}`] : [];
  });
  expect(tall).toEqual([]);
});

test("nor has that of any setting, mode or element, as its example writes it", () => {
  const { sections, modes, elements } = makeCatalogue();
  const texts = [
    ...sections.flatMap(({ name, settings }) =>
      settings.flatMap((setting) =>
        setting.example === undefined ? [] : [`${name}\n  |${setting.name}  ${setting.example}\n`],
      ),
    ),
    ...modes.map(({ name }) => `modes\n  |${name}  when TL is down\n`),
    ...elements.map(({ name }) => `osd\n  grid 53 x 20\n  |${name}  at left+1, top+1\n`),
  ];
  expect(texts.length).toBeGreaterThan(400);
  const tall = texts.flatMap((text) => {
    const hover = hoverText(`craft "Jug"\nuse "wheel.fettle"\n\npack\n  cells 6\n\n${text}`) ?? "";
    return heightOf(hover) > 15 ? [`${text}${heightOf(hover)}`] : [];
  });
  expect(tall).toEqual([]);
});

test("to a client that follows no link the hover itself tells the rest", () => {
  const noLinks = { line: () => null, page: () => null };
  const hover = hoverText('craft "Jug"\n\npack\n  warn-a|t 3.6 V/cell\n', {}, noLinks);
  expect(hover).toMatch(/^\*\*`3\.6 V\/cell`\*\* on Jug, jug\.fettle:4\n/);
  expect(hover).toContain("- Takes a quantity in V/cell, ");
  expect(hover).not.toContain("](");
});
