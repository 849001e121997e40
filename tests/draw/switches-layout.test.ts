/** Where cards stand: controls as `NAME side face`, a width, and the names row by row with their columns in the picture. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SceneNode } from "../../shared/draw/scene.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import type { PanelControl } from "../../shared/protocol/panel.ts";
import { all, numbers, texts } from "./find.ts";
import { fullSwitches, rocker } from "./samples.ts";

type Lies = NonNullable<PanelControl["lies"]>;

function controlsOf(text: string): PanelControl[] {
  return text.split(", ").map((each, index) => {
    const [name = "", side, face] = each.split(" ");
    const lies = side ? { lies: { side: side as Lies["side"], face: (face ?? null) as Lies["face"] } } : {};
    return rocker(name, 5 + index, { up: [], down: [] }, lies);
  });
}

interface Card {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function draw(controls: readonly PanelControl[], width: number): SceneNode {
  return drawSwitches({ ...fullSwitches, controls }, { width, words: "none" });
}

function cardsOf(scene: SceneNode): Card[] {
  return all(scene, "control").map((control) => {
    const { x, y, width, height } = all(control, "card")[0]!.attributes;
    return {
      name: String(control.attributes["data-control"]),
      x: Number(x),
      y: Number(y),
      width: Number(width),
      height: Number(height),
    };
  });
}

/** Rows of names from top to bottom, each name behind a dot for every column that stays empty before it. */
function rows(text: string, width: number): string[] {
  const cards = cardsOf(draw(controlsOf(text), width));
  const columns = [...new Set(cards.map(({ x }) => x))].sort((a, b) => a - b);
  const tops = [...new Set(cards.map(({ y }) => y))].sort((a, b) => a - b);
  return tops.map((top) => {
    const row = columns.map((x) => cards.find((card) => card.x === x && card.y === top)?.name ?? "·");
    return row.join(" ").replace(/( ·)+$/, "");
  });
}

const HAND = "TL left shoulder, TR right shoulder, FL left face, FR right face, KN middle face, PB right back, SX";

describe("wide, the left hand's at the left and the right hand's at the right, shoulders first", () => {
  test.each<[string, string, number, string[]]>([
    ["all kinds of places", HAND, 600, ["TL · TR", "FL KN FR", "· · PB", "SX"]],
    [
      "the script's order does not matter",
      HAND.split(", ").reverse().join(", "),
      600,
      ["TL · TR", "FL KN FR", "· · PB", "SX"],
    ],
    ["two hands alone", "A right, B left", 600, ["B A"]],
    [
      "a side alone stands between shoulder and face",
      "A left face, B left, C left shoulder, D right",
      600,
      ["C", "B D", "A"],
    ],
    ["one hand alone", "A left, B left, C left", 600, ["A B C"]],
    ["the middle alone", "A middle, B", 600, ["A", "B"]],
    ["two of one hand side by side, where there is room", "A left, B left, C right", 900, ["A B C"]],
    ["and one below the other, where there is not", "A left, B left, C right, D right", 380, ["A C", "B D"]],
    ["too narrow for three, the middle's stand below, between", "A left, B middle, C right", 300, ["A · C", "· B"]],
    ["two hands stand closer where they would not fit else", "A left, B right", 262, ["A B"]],
    ["one place after the other, no card leaves half the width empty", "A left, B right", 250, ["A", "B"]],
    ["those of which nothing is said take all the width", "A left, B right, C, D, E", 900, ["A · B", "C D · E"]],
    ["nothing is said of any: the script's order", "A, B, C", 300, ["A B", "C"]],
  ])("%s", (_, controls, width, expected) => expect(rows(controls, width)).toEqual(expected));
});

test("narrow, one hand after the other, each place under its name", () => {
  const scene = draw(controlsOf(HAND), 230);
  expect(cardsOf(scene).map(({ name }) => name)).toEqual(["TL", "FL", "KN", "TR", "FR", "PB", "SX"]);
  expect(all(scene, "place-name").map((each) => texts(each).join(""))).toEqual([
    "Left shoulder",
    "Left face",
    "Middle face",
    "Right shoulder",
    "Right face",
    "Right back",
    "Place not said",
  ]);
});

test("cards of one place each take the whole width where nothing stands beside them", () => {
  for (const { x, width } of cardsOf(draw(controlsOf("A left, B right, C middle"), 250))) {
    expect(x).toBeLessThan(2);
    expect(width).toBeGreaterThan(246);
  }
});

test("a place is a group with a name, and without any place there is no group and no name", () => {
  const places = all(draw(controlsOf("A left shoulder, B"), 600), "place");
  expect(places.map(({ attributes }) => attributes["data-place"])).toEqual(["Left shoulder", "Place not said"]);
  expect(all(draw(controlsOf("A, B"), 600), "place")).toEqual([]);
  expect(all(draw(controlsOf("A, B"), 600), "place-name")).toEqual([]);
});

const anyLies = fc.option(
  fc.record({
    side: fc.constantFrom<Lies["side"]>("left", "right", "middle"),
    face: fc.constantFrom<Lies["face"]>("shoulder", "face", "back", null),
  }),
  { nil: undefined },
);
const anyControls = fc.array(fc.tuple(anyLies, fc.integer({ min: 2, max: 16 })), { maxLength: 24 }).map((controls) =>
  controls.map(([lies, count], index) => {
    const ways = Object.fromEntries(Array.from({ length: count }, (_, at) => [`p${at}`, []]));
    return rocker(`C${index}`, 5 + index, ways, lies && { lies });
  }),
);

test("on any handset at any width: every card once, inside, apart from all others, and sides never cross", () => {
  fc.assert(
    fc.property(anyControls, fc.integer({ min: 120, max: 1400 }), (controls, width) => {
      const scene = draw(controls, width);
      const cards = cardsOf(scene);
      const [, , wide, high] = numbers(scene.attributes.viewBox);
      expect(cards.map(({ name }) => name).sort()).toEqual(controls.map(({ name }) => name).sort());
      for (const a of cards) {
        expect(a.x).toBeGreaterThanOrEqual(0);
        expect(a.x + a.width).toBeLessThanOrEqual(wide! + 0.5);
        expect(a.y + a.height).toBeLessThanOrEqual(high! + 0.5);
        for (const b of cards)
          expect(
            a === b || a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y,
            `${a.name} and ${b.name}`,
          ).toBe(true);
      }
      const liesOf = (card: Card) => controls.find(({ name }) => name === card.name)!.lies;
      for (const a of cards)
        for (const b of cards) {
          const [la, lb] = [liesOf(a), liesOf(b)];
          if (la?.side === "left" && lb?.side === "right" && a.y === b.y) expect(a.x).toBeLessThan(b.x);
          if (la?.face === "shoulder" && lb?.face === "face" && la.side === lb.side) expect(a.y).toBeLessThan(b.y);
          if (la && !lb) expect(a.y).toBeLessThan(b.y);
        }
    }),
  );
});
