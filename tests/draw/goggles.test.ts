import { wcagContrast } from "culori";
import { expect, test } from "vitest";
import { rowPath } from "../../shared/draw/glyphs.ts";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { BLANK_OPACITY, palettes } from "../../shared/draw/palette.ts";
import type { SceneNode } from "../../shared/draw/scene.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { elementInWords, figureInWords } from "../../shared/draw/words.ts";
import type { FigureReading, PanelElement } from "../../shared/protocol/panel.ts";
import { all, numbers } from "./find.ts";
import { changes, inkOf } from "./ink.ts";
import { element, fullPicture, picture } from "./samples.ts";

test("the picture has its own aspect ratio and no margin", () => {
  for (const aspect of [4 / 3, 16 / 9]) {
    const scene = drawGoggles(picture([], { aspect }));
    const [left, top, width, height] = numbers(scene.attributes.viewBox);
    expect([left, top]).toEqual([0, 0]);
    expect(width! / height!).toBeCloseTo(aspect, 2);
    expect(all(scene, "sky")[0]!.attributes).toMatchObject({ width, height });
  }
});

/** Both ends of a path that begins with a straight line: x and y of each. */
const endsOf = (path: SceneNode) =>
  [...String(path.attributes.d).matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(
    ([, x, y]) => [Number(x), Number(y)] as const,
  );

test.each([
  { pitchDeg: -12, rollDeg: 8 },
  { pitchDeg: 6, rollDeg: -20 },
])("the scenery leans with the craft (%j), and the line of the display lies on its horizon", (attitude) => {
  const figure = { kind: "horizon", ...attitude } as const;
  const line = element("horizon-line", 8, 4, "", { width: 14, height: 7, drawn: "horizon", figure });
  const scene = drawGoggles(picture([line], { attitude }));
  const [[x1, y1], [x2, y2]] = endsOf(all(scene, "ground")[0]!) as [[number, number], [number, number]];
  // Banked to the right, the world leans to the left: its right end is the higher one.
  expect(Math.sign(y1 - y2)).toBe(Math.sign(attitude.rollDeg));
  expect(Math.atan2(y1 - y2, x2 - x1)).toBeCloseTo((attitude.rollDeg * Math.PI) / 180, 2);
  const ends = endsOf(all(scene, "line")[0]!);
  expect(ends).toHaveLength(4);
  for (const [x, y] of ends) expect(y1 + ((x - x1) * (y2 - y1)) / (x2 - x1)).toBeCloseTo(y, 0);
});

test("every letter stands in its own cell, scaled to it", () => {
  // 30 columns over 720 units: 24 each, twice a letter's 12. 16 rows over 540: 33.75 each, 1.875 times 18.
  const [row] = all(drawGoggles(picture([element("pack-volts", 2, 13, "22.2V")])), "glyphs");
  expect(row!.attributes).toMatchObject({ "data-text": "22.2V", transform: "translate(48 438.75) scale(2 1.875)" });
  expect(row!.attributes.d).toBe(rowPath("22.2V"));
});

test("a row is one path, and a blank row none", () => {
  const scene = drawGoggles(picture([element("link-quality", 0, 0, " L 9"), element("message", 0, 1, "    ")]));
  expect(all(scene, "glyphs").map(({ attributes }) => attributes["data-text"])).toEqual([" L 9"]);
});

test("an element that flashes has a class for it", () => {
  const scene = drawGoggles(
    picture([element("pack-volts", 2, 13, "13.1V", { flashes: true }), element("amps", 2, 12, "9A")]),
  );
  expect(all(scene, "flashes").map(({ attributes }) => attributes["data-element"])).toEqual(["pack-volts"]);
});

test("an element that shows nothing differs from one that shows its name, in the drawing and in words", () => {
  const elements = [element("alerts", 9, 10, "ALERTS", { blank: true }), element("craft", 9, 12, "ALERTS")];
  const scene = drawGoggles(picture(elements));
  expect(all(scene, "blank").map(({ attributes }) => attributes["data-element"])).toEqual(["alerts"]);
  expect(elements.map(elementInWords)).toEqual([
    "alerts shows nothing now, at 9, 10 (column 9, row 10)",
    "craft shows ALERTS, at 9, 12 (column 9, row 12)",
  ]);
});

test("a name that only marks a place is dimmer than a reading, and still legible on sky and ground", () => {
  const ink = (one: PanelElement) =>
    inkOf(toSvg(drawGoggles(picture([one])), "light", { title: "x", letters: "outlines" }));
  const bare = inkOf(toSvg(drawGoggles(picture([])), "light", { title: "x", letters: "outlines" }));
  const brightest = (one: PanelElement) => Math.max(...changes(bare, ink(one)).map(({ colour }) => colour >> 8));
  expect(brightest(element("alerts", 9, 10, "ALERTS"))).toBe(0xffff);
  expect(brightest(element("alerts", 9, 10, "ALERTS", { blank: true }))).toBeLessThan(0xf000);
  for (const theme of ["light", "dark"] as const) {
    for (const ground of [palettes[theme].sky, palettes[theme].ground]) {
      const parts = ground.match(/[0-9a-f]{2}/g)!.map((part) => Number.parseInt(part, 16));
      const dim = parts.map((part) =>
        Math.round(part + (255 - part) * BLANK_OPACITY)
          .toString(16)
          .padStart(2, "0"),
      );
      // WCAG 2.2, 1.4.11 (read): three to one.
      expect(wcagContrast(`#${dim.join("")}`, ground), `${theme} ${ground}`).toBeGreaterThanOrEqual(3);
    }
  }
});

test("each clashing cell is hatched, also outside the grid, and the drawing extends to it", () => {
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

test("a text far outside the grid shrinks the picture only to a limit", () => {
  const [, , width] = numbers(drawGoggles(picture([element("craft", 400, 2, "MUG")])).attributes.viewBox);
  expect(width).toBeLessThan(720 + 7 * 24);
});

test("the safe area encloses whole cells, ends included", () => {
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

const figures = fullPicture.elements.filter(({ drawn }) => drawn !== "text");
/** Readings at which a figure reaches furthest, or shows least. */
const extremes: readonly FigureReading[] = [
  { kind: "bar", share: 0 },
  { kind: "bar", share: 1 },
  { kind: "arrow", turnDeg: 180 },
  { kind: "arrow", turnDeg: -451 },
  { kind: "horizon", pitchDeg: 90, rollDeg: 180 },
  { kind: "horizon", pitchDeg: -90, rollDeg: -90 },
  { kind: "horizon", pitchDeg: -20, rollDeg: 45 },
  { kind: "compass", headingDeg: 0 },
  { kind: "compass", headingDeg: 359.9 },
  { kind: "scale", value: -999.9, step: 5, unit: "m" },
  { kind: "scale", value: 120_000, step: 10, unit: "km/h" },
  { kind: "stick", across: 1, up: 1 },
  { kind: "stick", across: -1.2, up: -1.2 },
];
const cases = figures.flatMap((element) => [
  [element.name, element.figure, element] as const,
  [element.name, undefined, { ...element, figure: undefined }] as const,
  ...extremes
    .filter(({ kind }) => kind === element.figure?.kind)
    .map((figure) => [element.name, figure, { ...element, figure }] as const),
]);

test.each(cases)("%s is drawn within its cells, showing %j, by an independent renderer", (_, __, shown) => {
  const draw = (elements: readonly PanelElement[]) =>
    inkOf(toSvg(drawGoggles(picture(elements)), "light", { title: "x", letters: "outlines" }));
  const changed = changes(draw([]), draw([shown]));
  // 24 by 33.75 units a cell. A line may reach past its cells by half of its shade.
  const [left, top] = [shown.column * 24 - 3, shown.row * 33.75 - 3];
  const [right, bottom] = [left + shown.width * 24 + 6, top + shown.height * 33.75 + 6];
  const stray = changed.filter(({ x, y }) => x + 1 < left || x > right || y + 1 < top || y > bottom);
  expect(stray).toEqual([]);
  const inks = new Set(changed.map(({ colour }) => colour));
  expect([inks.has(0xffffff), inks.has(0x000000)]).toEqual([true, true]);
});

test("figures show their readings", () => {
  const only = (name: string, figure: FigureReading) => {
    const element = figures.find((one) => one.name === name)!;
    return drawGoggles(picture([{ ...element, figure }]));
  };
  const filled = (share: number) => Number(all(only("pack-bar", { kind: "bar", share }), "solid")[0]!.attributes.width);
  expect(filled(0.25) / filled(1)).toBeCloseTo(0.25);
  expect(all(only("pack-bar", { kind: "bar", share: 0 }), "solid")).toEqual([]);

  const tip = (turnDeg: number) =>
    numbers(/^M([\d. ]+)/.exec(pathOf(only("home-arrow", { kind: "arrow", turnDeg }), "solid"))![1]);
  const [ahead, right, behind] = [tip(0), tip(90), tip(180)];
  expect(ahead[1]!).toBeLessThan(right[1]!);
  expect(right[0]!).toBeGreaterThan(ahead[0]!);
  expect(behind[1]!).toBeGreaterThan(right[1]!);

  // Banked to the right, the world leans to the left: the horizon's right end is the higher one.
  const ends = /M([\d.]+) ([\d.]+)L.*L([\d.]+) ([\d.]+)$/;
  const halves = pathOf(only("horizon-line", { kind: "horizon", pitchDeg: 0, rollDeg: 20 }), "line")
    .split("M")
    .slice(1);
  const outer = halves.map((half) => numbers(half.split("L")[1]));
  expect(ends.test(`M${halves.join("M")}`)).toBe(true);
  expect(outer[1]![0]!).toBeGreaterThan(outer[0]![0]!);
  expect(outer[1]![1]!).toBeLessThan(outer[0]![1]!);
  // With the nose down the horizon is above the middle.
  const level = (pitchDeg: number) =>
    numbers(
      pathOf(only("horizon-line", { kind: "horizon", pitchDeg, rollDeg: 0 }), "line")
        .split("L")[1]!
        .split("M")[0],
    )[1]!;
  expect(level(-10)).toBeLessThan(level(0));

  const dot = (across: number, up: number) => all(only("stick-trace-left", { kind: "stick", across, up }), "solid")[0]!;
  expect(Number(dot(1, 0).attributes.cx)).toBeGreaterThan(Number(dot(0, 0).attributes.cx));
  expect(Number(dot(0, 1).attributes.cy)).toBeLessThan(Number(dot(0, 0).attributes.cy));

  const letters = (scene: SceneNode) => all(scene, "glyphs").map(({ attributes }) => attributes["data-text"]);
  expect(letters(only("heading-tape", { kind: "compass", headingDeg: 20 }))).toEqual(["N", "NE"]);
  expect(letters(only("heading-tape", { kind: "compass", headingDeg: 350 }))).toEqual(["NW", "N", "NE"]);
  expect(letters(only("height-tape", { kind: "scale", value: 24.5, step: 5, unit: "m" }))).toEqual(["25"]);
});

function pathOf(scene: SceneNode, className: string): string {
  return String(all(scene, className)[0]!.attributes.d);
}

test("figures in words", () => {
  expect(figureInWords({ kind: "bar", share: 0.604 })).toBe("60 %");
  expect(figureInWords({ kind: "arrow", turnDeg: 47 })).toBe("47 deg to the right");
  expect(figureInWords({ kind: "arrow", turnDeg: 350 })).toBe("10 deg to the left");
  expect(figureInWords({ kind: "arrow", turnDeg: 0 })).toBe("straight ahead");
  expect(figureInWords({ kind: "horizon", pitchDeg: -12, rollDeg: 8 })).toBe(
    "the nose 12 deg down, banked 8 deg to the right",
  );
  expect(figureInWords({ kind: "horizon", pitchDeg: 0.2, rollDeg: 0 })).toBe("a level nose, banked not at all");
  expect(figureInWords({ kind: "stick", across: -0.03, up: 0.44 })).toBe("3 % left, 44 % up");
  const bar = figures.find(({ name }) => name === "pack-bar")!;
  expect(elementInWords(bar)).toContain("pack-bar shows 60 %, at ");
});

test("an element in words: its reading, its place and its clashes", () => {
  expect(elementInWords(element("pack-volts", 2, 13, "22.2V", { placed: "left+2, bottom-2" }))).toBe(
    "pack-volts shows 22.2V, at left+2, bottom-2 (column 2, row 13)",
  );
  expect(elementInWords(element("sight", 14, 7, "", { drawn: "sight", clashing: [[14, 7]] }))).toBe(
    "sight, at 14, 7 (column 14, row 7); 1 cell shared or off the grid",
  );
});
