/** Curves of boards as ours and ours as a board's, over formulas of our own. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { FieldsType, QuantityType } from "../../../shared/catalogue/specs.ts";
import { textOfHeld } from "../../../shared/dialect/codes/held.ts";
import { boardCurveOf } from "../../../shared/dialect/curves/board-curve.ts";
import { curveSlotOf } from "../../../shared/dialect/curves/curve-slots.ts";
import { END_LIMITS, ourCurveOf, SLOPE_LIMITS } from "../../../shared/dialect/curves/curves.ts";
import { curveOf, evaluate } from "../../../shared/dialect/curves/evaluate.ts";
import { parseFormula } from "../../../shared/dialect/curves/formula.ts";
import type { Formula } from "../../../shared/dialect/curves/formula-tree.ts";
import type { Code, NumberCode, Slot } from "../../../shared/dialect/dialect.ts";
import { exact } from "../../../shared/dialect/exact.ts";
import { rateAt } from "../../../shared/numbers/rates.ts";

function formulaOf(text: string): Formula {
  const formula = parseFormula(text, 0);
  if (formula.kind === "fault") throw new Error(formula.message);
  return formula;
}

// --- The formula -------------------------------------------------------------------

const VALUES: readonly (readonly [formula: string, stick: number, value: number])[] = [
  ["2 ^ 3 ^ 2", 0, 512],
  ["-2 ^ 2", 0, -4],
  ["2 ^ -1", 0, 0.5],
  ["2 + 3 * 4", 0, 14],
  ["(2 + 3) * 4", 0, 20],
  ["12 / 3 / 2", 0, 2],
  ["10 - 3 - 2", 0, 5],
  ["- -3", 0, 3],
  ["abs(stick) + sign(stick)", -0.25, -0.75],
  ["max(stick, min(0.5, {a}))", -0.25, 0.5],
  ["{a} * stick ^ 3", -0.5, -0.25],
];

test.for(VALUES)("%s at %d is %d", ([text, stick, value]) => {
  expect(evaluate(formulaOf(text), stick, new Map([["a", 2]]))).toBe(value);
});

const FAULTS: readonly (readonly [formula: string, from: number, to: number])[] = [
  ["", 0, 0],
  ["2 +", 2, 3],
  ["2 3", 2, 3],
  ["(2", 1, 2],
  ["stick()", 5, 6],
  ["min(1)", 0, 6],
  ["abs(1, 2)", 0, 9],
  ["sqrt(2)", 0, 4],
  ["{a", 0, 2],
  ["constructor", 0, 11],
  ["2 ** 3", 3, 4],
];

test.for(FAULTS)("“%s” is no formula: columns %d to %d", ([text, from, to]) => {
  expect(parseFormula(text, 7)).toMatchObject({ kind: "fault", start: from + 7, end: to + 7 });
});

test("whatever stands there, a formula is parsed or its fault lies in the text", () => {
  const word = fc.constantFrom(
    "stick",
    "{a}",
    "2",
    ".5",
    "+",
    "-",
    "*",
    "/",
    "^",
    "(",
    ")",
    ",",
    "abs",
    "min(",
    " ",
    "{",
    "x",
  );
  fc.assert(
    fc.property(
      fc.array(word, { maxLength: 400 }).map((words) => words.join("")),
      (text) => {
        const formula = parseFormula(text, 0);
        expect(formula.start).toBeGreaterThanOrEqual(0);
        expect(formula.end).toBeLessThanOrEqual(Math.max(text.length, formula.start));
      },
    ),
    { seed: 13, numRuns: 300 },
  );
  for (const deep of ["(".repeat(100_000), "-".repeat(100_000), "2^".repeat(100_000), "abs(".repeat(100_000)])
    expect(parseFormula(deep, 0).kind).toBe("fault");
});

// --- Board to ours -----------------------------------------------------------------

/** Slope, end and bend by `scipy.optimize.least_squares` of scipy 1.17.1 (trf, within our limits), numpy 2.4.6. */
const BY_SCIPY: readonly (readonly [formula: string, slope: number, end: number, bend: number, deviation: number])[] = [
  ["10 * (20 * stick + 40 * stick ^ 5)", 200, 600, 5, 0],
  ["300 * stick * (1 + 1.5 * abs(stick))", 300, 750, 2, 0],
  ["250 * (stick + 0.3 * stick ^ 3) / (1 - 0.5 * abs(stick))", 282.50232835, 645.62983129, 3.32421922, 4],
  ["180 * stick + 420 * sign(stick) * abs(stick) ^ 2.2 + 60 * stick ^ 7", 221.44457788, 653.17303032, 2.64787249, 7],
  ["90 * stick / (1.2 - abs(stick))", 114.62895318, 433.81384523, 5.76801413, 16],
  ["sign(stick) * max(0, 600 * abs(stick) ^ 3 - 8)", 0, 595.944397, 3.12026288, 6.675],
];

test.for(BY_SCIPY)("%s is our curve of slope %d, end %d, bend %d", ([text, slope, end, bend, deviation]) => {
  expect(ourCurveOf(formulaOf(text), new Map())).toEqual({
    slope: Math.round(slope),
    end: Math.round(end),
    bend: Number(bend.toFixed(2)),
    deviationDegS: deviation,
  });
});

test("a straight line has no bend, and what no curve of ours comes near to is not read", () => {
  expect(ourCurveOf(formulaOf("300 * stick"), new Map())).toEqual({
    slope: 300,
    end: 300,
    bend: null,
    deviationDegS: 0,
  });
  const refused = [
    "300 * abs(stick)",
    "-300 * stick",
    "max(-400, min(400, 700 * stick ^ 3 + 100 * stick))",
    "300 / stick",
    "stick ^ 2.5",
    "{b} * stick",
    "0 * stick",
  ];
  for (const text of refused) expect(ourCurveOf(formulaOf(text), new Map()), text).toHaveProperty("why");
});

test("the limits of slope and end are the catalogue's", () => {
  const roll = makeCatalogue()
    .setting("rates", "roll")!
    .types.find(({ is }) => is === "fields") as FieldsType;
  const limits = ["slope", "end"].map((name) => {
    const { min, max } = roll.fields.find((field) => field.name === name)!.types[0] as QuantityType;
    return [min?.at, max?.at];
  });
  expect(limits).toEqual([SLOPE_LIMITS, END_LIMITS]);
});

// --- Ours to board -----------------------------------------------------------------

interface WholeSlot {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly base?: string;
  readonly default?: string;
}

function boardCurve(text: string, slots: readonly WholeSlot[], slope: number, end: number, bend: number): string {
  const made = slots.map(({ name, from, to, base, ...slot }) =>
    slotOf({ name, code: null, whole: { from, to }, default: slot.default ?? null }, base),
  );
  const curve = boardCurveOf(formulaOf(text), made, { slopeDegS: slope, endDegS: end, bend });
  if ("why" in curve) return curve.why;
  return [...curve.values].map(([name, held]) => `${name} ${textOfHeld(held)}`).join(", ");
}

function slotOf(slot: Slot, base?: string) {
  const made = curveSlotOf(slot, base ?? null);
  if ("why" in made) throw new Error(made.why);
  return made;
}

/** Every combination of whole numbers, tried one by one. */
function leastSquares(text: string, slots: readonly WholeSlot[], slope: number, end: number, bend: number): number {
  const curve = curveOf(
    formulaOf(text),
    slots.map(({ name }) => name),
  );
  let best = Number.POSITIVE_INFINITY;
  const visit = (values: readonly number[]): void => {
    const slot = slots[values.length];
    if (!slot) best = Math.min(best, squaresOf(curve, values, slope, end, bend));
    else for (let value = slot.from; value <= slot.to; value++) visit([...values, value]);
  };
  visit([]);
  return best;
}

function squaresOf(
  curve: ReturnType<typeof curveOf>,
  values: readonly number[],
  slope: number,
  end: number,
  bend: number,
): number {
  let squares = 0;
  for (let place = 0; place <= 200; place++) {
    const stick = place / 100 - 1;
    squares += (curve(stick, values) - rateAt({ slopeDegS: slope, endDegS: end, bend }, stick)) ** 2;
  }
  return squares;
}

const SHAPES: readonly (readonly [formula: string, slots: readonly WholeSlot[]])[] = [
  [
    "10 * ({s} * stick + {e} * stick ^ 5)",
    [
      { name: "s", from: 1, to: 60 },
      { name: "e", from: 0, to: 60 },
    ],
  ],
  [
    "{m} * 20 * stick * (1 + {k} / 5 * abs(stick))",
    [
      { name: "m", from: 1, to: 40 },
      { name: "k", from: 0, to: 30 },
    ],
  ],
  [
    "{m} * 25 * (stick + {q} / 5 * stick ^ 3) / (1 - {z} / 10 * abs(stick))",
    [
      { name: "m", from: 1, to: 20 },
      { name: "q", from: 0, to: 9 },
      { name: "z", from: 0, to: 8 },
    ],
  ],
  [
    "sign(stick) * {m} * 10 * abs(stick) ^ ({p} / 10)",
    [
      { name: "m", from: 1, to: 90 },
      { name: "p", from: 10, to: 40 },
    ],
  ],
  [
    "{t} * 10 * stick - 7 * {s} * (stick - stick ^ 3)",
    [
      { name: "t", from: 5, to: 80 },
      { name: "s", from: 0, to: 40 },
    ],
  ],
];

test("no whole numbers come nearer than those that are written, tried one by one", () => {
  const axis = fc.record({
    slope: fc.integer({ min: 20, max: 500 }),
    end: fc.integer({ min: 50, max: 900 }),
    bend: fc.integer({ min: 10, max: 60 }),
  });
  let written = 0;
  fc.assert(
    fc.property(fc.constantFrom(...SHAPES), axis, ([text, slots], { slope, end, bend }) => {
      const made = slots.map(({ name, from, to }) => slotOf({ name, code: null, whole: { from, to }, default: null }));
      const found = boardCurveOf(formulaOf(text), made, { slopeDegS: slope, endDegS: end, bend: bend / 10 });
      if ("why" in found) return;
      written++;
      const values = slots.map(({ name }) => Number(textOfHeld(found.values.get(name)!)));
      const curve = curveOf(
        formulaOf(text),
        slots.map(({ name }) => name),
      );
      const [mine, best] = [
        squaresOf(curve, values, slope, end, bend / 10),
        leastSquares(text, slots, slope, end, bend / 10),
      ];
      expect(mine).toBeLessThanOrEqual(best * (1 + 1e-9) + 1e-6);
    }),
    { seed: 13, numRuns: 12 },
  );
  expect(written).toBeGreaterThan(2);
});

test("of equal fits the base's is written, then the default, then the lowest", () => {
  const product = "{m} * {g} * stick";
  const [m, g] = [
    { name: "m", from: 1, to: 100 },
    { name: "g", from: 2, to: 100 },
  ];
  expect(boardCurve(product, [m, g], 240, 240, 1)).toBe("m 3, g 80");
  expect(boardCurve(product, [{ ...m, base: "12" }, g], 240, 240, 1)).toBe("m 12, g 20");
  expect(
    boardCurve(
      product,
      [
        { ...m, default: "10" },
        { ...g, base: "4" },
      ],
      240,
      240,
      1,
    ),
  ).toBe("m 60, g 4");
  expect(
    boardCurve(
      product,
      [
        { ...m, base: "7" },
        { ...g, default: "8" },
      ],
      240,
      240,
      1,
    ),
  ).toBe("m 30, g 8");
  expect(boardCurve(`${product} + 0 * {w}`, [m, g, { name: "w", from: 2, to: 9, base: "5" }], 240, 240, 1)).toBe(
    "m 3, g 80, w 5",
  );
  expect(boardCurve("{m} * stick + 0 * {w}", [m, { name: "w", from: 2, to: 9 }], 90, 90, 1)).toBe("m 90, w 2");
});

test("a curve that the board cannot come near to is not written", () => {
  const bent = boardCurve("{m} * stick", [{ name: "m", from: 1, to: 900 }], 100, 700, 4);
  expect(bent).toMatch(/^no curve of the board comes nearer to ours than \d+\.\d deg\/s$/);
  expect(boardCurve("{m} / stick", [{ name: "m", from: 1, to: 900 }], 100, 700, 4)).toBe(
    "the board's curve has no value at every place of the stick",
  );
});

function numberCode(facts: Partial<NumberCode>): Code {
  const [zero, one] = [exact(0n), exact(1n)];
  const plain = {
    kind: "number",
    name: "n",
    lines: [0],
    base: 10,
    digits: null,
    least: null,
    most: null,
    unit: "",
  } as const;
  return { ...plain, from: zero, each: one, channels: false, into: null, places: 0, unset: null, ...facts };
}

test("slots are written in the steps of their codes", () => {
  const curveWith = (text: string, code: Code | null) => {
    const found = boardCurveOf(formulaOf(text), [slotOf({ name: "a", code, whole: null, default: null })], {
      slopeDegS: 333,
      endDegS: 333,
      bend: 1,
    });
    return "why" in found ? found.why : textOfHeld(found.values.get("a")!);
  };
  expect(curveWith("{a} * stick", numberCode({ each: exact(20n), unit: "deg/s" }))).toBe("340 deg/s");
  expect(curveWith("100 * {a} * stick", numberCode({ places: 1 }))).toBe("3.3");
  expect(
    curveWith("{a} * stick", numberCode({ from: exact(200n), each: exact(50n), most: exact(2n), least: exact(0n) })),
  ).toBe("no curve of the board comes nearer to ours than 33.0 deg/s");
  expect(curveWith("{a} * stick", numberCode({ into: exact(1000n), least: exact(1n), most: exact(9n) }))).toBe(
    "333.333",
  );
  // 333 is the board's word for “nothing is set”.
  expect(curveWith("{a} * stick", numberCode({ unset: exact(333n) }))).toBe("332");
  const words = ["100", "330", null, "350"].map((ours, line) => ({ theirs: `w${line}`, ours, line }));
  expect(curveWith("{a} * stick", { kind: "words", name: "w", lines: [0], words })).toBe("330");
  expect(curveWith("{a} * stick", null)).toBe("333");
  expect(
    curveSlotOf(
      {
        name: "a",
        code: { kind: "text", name: "t", lines: [0], within: "", escape: "", longest: null },
        whole: null,
        default: null,
      },
      null,
    ),
  ).toEqual({
    why: "slot “a” holds no number",
  });
});
