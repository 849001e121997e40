/** What differs on the other side of a comparison, in the drawings: told by shapes and words, never by colour alone. */
import { expect, test } from "vitest";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { labelPlace } from "../../shared/draw/labels.ts";
import type { SceneNode } from "../../shared/draw/scene.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import type { ControlAgainst, GogglesAgainst, SwitchesAgainst } from "../../shared/protocol/against.ts";
import type { GogglesPicture } from "../../shared/protocol/panel.ts";
import { all, numbers, texts } from "./find.ts";
import { element, fullSwitches, picture, rocker } from "./samples.ts";

const volts = element("pack-volts", 2, 13, "22.2V");
const here = picture([volts, element("flight-time", 2, 14, "03:12"), element("signal", 20, 1, "-71")]);

/** The page there, with the marks of what is not in the same place. */
function against(there: GogglesPicture): GogglesAgainst {
  const has = (one: GogglesPicture, name: string) =>
    one.elements.some((each) => each.name === name) ? "drawn" : "nothing";
  const names = [...new Set([...here.elements, ...there.elements].map(({ name }) => name))];
  const cellOf = (one: GogglesPicture, name: string) => {
    const found = one.elements.find((each) => each.name === name);
    return found && [found.column, found.row];
  };
  const marks = names
    .filter((name) => String(cellOf(here, name)) !== String(cellOf(there, name)))
    .map((name) => ({ name, here: has(here, name), there: has(there, name) }) as const);
  return { picture: there, marks, notes: [] };
}

const boxOf = ({ attributes }: SceneNode) => {
  const { x, y, width, height } = attributes as Record<string, number>;
  return { x: x!, y: y!, width: width!, height: height! };
};
const thereNamed = (scene: SceneNode) => all(scene, "there").map(({ attributes }) => attributes["data-there"]);

test("of an element that is in the same place nothing is drawn, and without another side nothing at all", () => {
  const same = drawGoggles(here, { against: against(here) });
  for (const name of ["there", "there-label", "joins", "here-only"]) expect(all(same, name), name).toEqual([]);
  expect(drawGoggles(here, { against: null })).toEqual(drawGoggles(here));
});

test("one that has moved: a broken, striped outline of its cells with its name, and an arrow from here to there", () => {
  const scene = drawGoggles(here, {
    against: against(picture([{ ...volts, column: 12, row: 8 }, ...here.elements.slice(1)])),
  });
  expect(thereNamed(scene)).toEqual(["pack-volts"]);
  const [edge] = all(scene, "there-edge");
  expect(boxOf(edge!)).toEqual({ x: 12 * 24, y: 8 * 33.75, width: 5 * 24, height: 33.75 });
  expect(all(scene, "there-fill")).toHaveLength(1);
  expect(texts(all(scene, "there-label")[0]!)).toEqual(["pack-volts"]);
  const [x, y] = numbers(String(all(scene, "join")[0]!.attributes.d).replaceAll(/[ML]/g, " ").trim());
  // It begins at an edge of the cells here.
  expect(x).toBeGreaterThanOrEqual(2 * 24);
  expect(y).toBeCloseTo(13 * 33.75, 0);
  // The stripes slope the other way than the hatching of a cell that is amiss.
  const slopes = all(scene, "goggles")[0]!.children.flatMap((child) =>
    typeof child === "string"
      ? []
      : child.children.map((each) => typeof each !== "string" && each.attributes.patternTransform),
  );
  expect(slopes.filter((each) => typeof each === "string")).toEqual(["rotate(45)", "rotate(-45)"]);
});

test("one that moved by a cell has no arrow, as there is no room for one", () => {
  const scene = drawGoggles(here, { against: against(picture([{ ...volts, column: 3 }, ...here.elements.slice(1)])) });
  expect(thereNamed(scene)).toEqual(["pack-volts"]);
  expect(all(scene, "joins")).toEqual([]);
});

test("one that is only here has a dotted frame, one that is only there an outline, and each says so", () => {
  const altitude = element("height", 20, 12, "12.5m");
  const scene = drawGoggles(here, { against: against(picture([...here.elements.slice(0, 2), altitude])) });
  expect(all(scene, "here-edge")).toHaveLength(1);
  expect(thereNamed(scene)).toEqual(["height"]);
  expect(all(scene, "there-label").map((label) => texts(label)[0])).toEqual(["only here", "height, only there"]);
});

test("another grid is stretched to the picture", () => {
  const there = picture([{ ...volts, column: 20, row: 15 }], { columns: 60, rows: 20 });
  const scene = drawGoggles(picture([volts]), {
    against: { ...against(there), marks: [{ name: "pack-volts", here: "drawn", there: "drawn" }] },
  });
  expect(boxOf(all(scene, "there-edge")[0]!)).toEqual({ x: 240, y: 15 * 27, width: 60, height: 27 });
});

test("cells off the grid there are in the picture", () => {
  const there = picture([{ ...volts, column: 28 }, ...here.elements.slice(1)]);
  const [, , width] = numbers(drawGoggles(here, { against: against(there) }).attributes.viewBox);
  expect(width).toBe(720 + 3 * 24);
});

test("a label hides no element where there is room beside it, and stays in the picture", () => {
  const screen = { x: 0, y: 0, width: 720, height: 540 };
  const size = { width: 120, height: 25 };
  const low = { x: 690, y: 520, width: 60, height: 30 };
  const of = { x: 100, y: 100, width: 60, height: 30 };
  expect(labelPlace(of, size, [], screen, "inside")).toMatchObject({ x: 101, y: 101 });
  expect(labelPlace(of, size, [of], screen, "inside")).toMatchObject({ x: 100, y: 132 });
  expect(labelPlace(of, size, [of, { ...of, y: 130 }], screen, "inside")).toMatchObject({ x: 100, y: 73 });
  expect(labelPlace(low, size, [low], screen, "beside")).toMatchObject({ x: 600, y: 493 });
  for (const x of [-50, 0, 700, 900]) {
    const { x: left, y: top } = labelPlace({ ...of, x, y: 530 }, size, [of], screen, "inside");
    expect(left >= 0 && left + size.width <= 720 && top >= 0 && top + size.height <= 540).toBe(true);
  }
});

const control = (name: string, some: Partial<ControlAgainst>): ControlAgainst => ({
  name,
  has: "both",
  there: null,
  positions: [],
  spans: [],
  notes: [],
  ...some,
});
const change = { added: [], gone: [], otherwise: [] };

function switchesAgainst(controls: readonly ControlAgainst[]): SwitchesAgainst {
  const loss = { receiver: null, armed: null, modes: [] };
  return { state: { ...fullSwitches.state, armed: "yes" }, loss, controls, modes: [], notes: [] };
}

const positionNamed = (scene: SceneNode, name: string) =>
  all(scene, "way").find(({ attributes }) => attributes["data-set"] === name)!;

test("a changed position has a diamond with words, and a sign before each mode", () => {
  const changed = { ...change, name: "down", added: ["outputs.horn"], gone: ["arm"], otherwise: ["recorder"] };
  const scene = drawSwitches(fullSwitches, { against: switchesAgainst([control("TL", { positions: [changed] })]) });
  const down = positionNamed(scene, "down");
  expect(all(down, "change-mark")).toHaveLength(1);
  expect(texts(all(down, "change")[0]!)).toEqual(["differs there", "→ horn", "arm", "recorder"]);
  expect(all(down, "change-sign").map(({ attributes }) => attributes.class)).toEqual([
    "change-sign added",
    "change-sign gone",
    "change-sign otherwise",
  ]);
  const strokes = all(down, "sign-stroke").map(({ attributes }) => attributes.d);
  expect(new Set(strokes).size).toBe(3);
  expect(all(positionNamed(scene, "up"), "change")).toEqual([]);
  expect(texts(scene)[0]).toMatch(/^Not armed here, armed there\. Level and altitude-hold on, on both/);
});

test("what differs makes a card as tall and as wide as it needs, and no more", () => {
  const sizeOf = (controls: readonly ControlAgainst[]) =>
    numbers(
      drawSwitches(fullSwitches, { width: 300, words: "none", against: switchesAgainst(controls) }).attributes.viewBox,
    );
  const plain = numbers(drawSwitches(fullSwitches, { width: 300, words: "none" }).attributes.viewBox);
  expect(sizeOf([])).toEqual(plain);
  const long = { ...change, name: "down", added: ["outputs.a-lamp-with-a-very-long-name-indeed"] };
  const [, , width, height] = sizeOf([
    control("TL", { positions: [long], notes: ["there on channel 7, here on channel 5"] }),
  ]);
  expect(width).toBeGreaterThan(300);
  expect(height).toBeGreaterThan(plain[3]!);
});

test("a dial's changed ranges, and notes, stand below it", () => {
  const span = { ...change, fromUs: 1500, toUs: 1700, added: ["level"] };
  const notes = ["there it rests at mid, here at up"];
  const scene = drawSwitches(fullSwitches, { against: switchesAgainst([control("KN", { spans: [span], notes })]) });
  const words = all(scene, "change").map((each) => texts(each).join(" "));
  expect(words[0]).toBe("1500–1700 us level");
  expect(words[1]).toBe(notes[0]);
});

test("a control that is only there is drawn with a broken frame, and cannot be moved; one that is only here says so", () => {
  const other = rocker("SR", 11, { up: [], down: ["finder"] });
  const controls = [control("TL", { has: "only here" }), control("SR", { has: "only there", there: other })];
  const scene = drawSwitches(fullSwitches, { against: switchesAgainst(controls) });
  const [elsewhere] = all(scene, "elsewhere");
  expect(texts(elsewhere!)).toContain("SR");
  expect(texts(elsewhere!)).toContain("only there");
  expect(elsewhere!.attributes["data-control"]).toBeUndefined();
  const tl = all(scene, "control").find(({ attributes }) => attributes["data-control"] === "TL")!;
  expect(texts(tl)).toContain("only here");
});

test("in a file each shape of it has a style", () => {
  const scene = drawGoggles(here, { against: against(picture([{ ...volts, column: 12, row: 8 }])) });
  const svg = toSvg(scene, "dark", { title: "Jug" });
  for (const name of ["there-fill", "there-edge", "there-plate", "there-name", "here-edge", "join", "join-end"])
    expect(svg, name).toMatch(new RegExp(`\\.${name}[,{]`));
  const { children } = drawSwitches(fullSwitches, { against: switchesAgainst([control("TL", { notes: ["x"] })]) });
  expect(children.length).toBeGreaterThan(0);
  for (const name of ["change-mark", "change-words", "change-name", "sign-frame", "sign-stroke", "elsewhere .card"])
    expect(toSvg(scene, "light", { title: "Jug" }), name).toMatch(new RegExp(`\\.${name}[,{]`));
});
