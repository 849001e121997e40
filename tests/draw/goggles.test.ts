import { expect, test } from "vitest";
import { rowPath } from "../../shared/draw/glyphs.ts";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { elementInWords } from "../../shared/draw/words.ts";
import type { PanelElement } from "../../shared/protocol/panel.ts";
import { all, numbers } from "./find.ts";
import { changes, inkOf } from "./ink.ts";
import { element, fullPicture, picture } from "./samples.ts";

test("the picture has its own aspect, and nothing round it", () => {
  for (const aspect of [4 / 3, 16 / 9]) {
    const scene = drawGoggles(picture([], { aspect }));
    const [left, top, width, height] = numbers(scene.attributes.viewBox);
    expect([left, top]).toEqual([0, 0]);
    expect(width! / height!).toBeCloseTo(aspect, 2);
    expect(all(scene, "sky")[0]!.attributes).toMatchObject({ width, height });
  }
});

test("every letter stands in its own cell, scaled to it", () => {
  // 30 columns over 720 units: 24 each, twice a letter's 12. 16 rows over 540: 33.75 each, 1.875 times 18.
  const [row] = all(drawGoggles(picture([element("pack-volts", 2, 13, "22.2V")])), "glyphs");
  expect(row!.attributes).toMatchObject({ "data-text": "22.2V", transform: "translate(48 438.75) scale(2 1.875)" });
  expect(row!.attributes.d).toBe(rowPath("22.2V"));
});

test("a row is one path, and a blank one none", () => {
  const scene = drawGoggles(picture([element("link-quality", 0, 0, " L 9"), element("message", 0, 1, "    ")]));
  expect(all(scene, "glyphs").map(({ attributes }) => attributes["data-text"])).toEqual([" L 9"]);
});

test("an element that flashes says so in its class", () => {
  const scene = drawGoggles(
    picture([element("pack-volts", 2, 13, "13.1V", { flashes: true }), element("amps", 2, 12, "9A")]),
  );
  expect(all(scene, "flashes").map(({ attributes }) => attributes["data-element"])).toEqual(["pack-volts"]);
});

test("each cell that is amiss is hatched, also off the grid, which the drawing then reaches", () => {
  const clashing = [
    [30, 14],
    [31, 14],
  ] as const;
  const scene = drawGoggles(picture([element("craft", 28, 14, "MUGS", { clashing })]));
  expect(all(scene, "hatched").map(({ attributes }) => attributes.x)).toEqual([720, 744]);
  const [left, , width] = numbers(scene.attributes.viewBox);
  expect(left! + width!).toBeGreaterThanOrEqual(768);
  expect(all(drawGoggles(picture([element("craft", 26, 14, "MUGS")])), "hatched")).toEqual([]);
});

test("a text far off the grid does not shrink the picture without end", () => {
  const [, , width] = numbers(drawGoggles(picture([element("craft", 400, 2, "MUG")])).attributes.viewBox);
  expect(width).toBeLessThan(720 + 7 * 24);
});

test("the safe area runs round whole cells, ends included", () => {
  const [safe] = all(drawGoggles(picture([], { safe: { left: 1, top: 1, right: 28, bottom: 14 } })), "safe");
  expect(safe!.attributes).toMatchObject({ x: 24, y: 33.75, width: 672, height: 472.5 });
  expect(all(drawGoggles(picture([])), "safe")).toEqual([]);
});

test("the element written on the cursor's line is marked, and only in its own file", () => {
  const volts = element("pack-volts", 2, 13, "22.2V");
  const marked = (at: { file: string; line: number }) => all(drawGoggles(picture([volts]), { marked: at }), "marked");
  expect(marked(volts.at)).toHaveLength(1);
  expect(marked({ ...volts.at, file: "file:///other.fettle" })).toEqual([]);
});

test.each(fullPicture.elements.filter(({ drawn }) => drawn !== "text").map((figure) => [figure.name, figure] as const))(
  "%s is drawn within its cells, and with a dark edge, as another program draws it",
  (_, figure) => {
    const draw = (elements: readonly PanelElement[]) =>
      inkOf(toSvg(drawGoggles(picture(elements)), "light", { title: "x", letters: "outlines" }));
    const changed = changes(draw([]), draw([figure]));
    // 24 by 33.75 units a cell. A line may reach past its cells by half of its shade.
    const [left, top] = [figure.column * 24 - 3, figure.row * 33.75 - 3];
    const [right, bottom] = [left + figure.width * 24 + 6, top + figure.height * 33.75 + 6];
    const stray = changed.filter(({ x, y }) => x + 1 < left || x > right || y + 1 < top || y > bottom);
    expect(stray).toEqual([]);
    const inks = new Set(changed.map(({ colour }) => colour));
    expect([inks.has(0xffffff), inks.has(0x000000)]).toEqual([true, true]);
  },
);

test("an element in words: what it shows, where it stands, what is amiss", () => {
  expect(elementInWords(element("pack-volts", 2, 13, "22.2V", { placed: "left+2, bottom-2" }))).toBe(
    "pack-volts shows 22.2V, at left+2, bottom-2 (column 2, row 13)",
  );
  expect(elementInWords(element("sight", 14, 7, "", { drawn: "sight", clashing: [[14, 7]] }))).toBe(
    "sight, at 14, 7 (column 14, row 7); 1 cell shared or off the grid",
  );
});
