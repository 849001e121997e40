/**
 * A corpus of craft of many shapes that are expensive to compile or to answer about. Each is made
 * from a seed, so that it is always the same.
 */
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { readInput } from "./read-board.ts";

export interface TangledCraft {
  readonly title: string;
  /** Lines of a handset's `controls`. */
  readonly controls: readonly string[];
  /** Condition by mode, or by output as `outputs.NAME`; two of one name are two lines. */
  readonly conditions: readonly (readonly [name: string, condition: string])[];
}

/** A pseudo-random generator of integers from 0 to below the argument (Tommy Ettinger's Mulberry32; from memory). */
export function picker(seed: number): (below: number) => number {
  let a = seed;
  return (below) => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4_294_967_296) * below);
  };
}

export const THREE = ["up", "mid", "down"];
const SIXTEEN = Array.from({ length: 16 }, (_, p) => `p${String.fromCharCode(97 + p)}`);

/** Switches with three positions, named `S0` and on, or by another letter. */
export function switches(count: number, letter = "S", firstChannel = 5): string[] {
  return Array.from(
    { length: count },
    (_, i) => `${letter}${i} switch ch${firstChannel + i} up 1000 us mid 1500 us down 2000 us`,
  );
}

function selectors(count: number): string[] {
  const places = SIXTEEN.map((name, p) => `${name} ${1000 + 60 * p} us`).join(" ");
  return Array.from({ length: count }, (_, i) => `S${i} selector ch${5 + i} ${places}`);
}

function dials(count: number): string[] {
  return Array.from({ length: count }, (_, i) => `S${i} dial ch${5 + i} 1000 us to 2000 us`);
}

type Test = (control: number, pick: (below: number) => number) => string;
const isOf =
  (positions: readonly string[]): Test =>
  (control, pick) =>
    `S${control} is ${pick(5) === 0 ? "not " : ""}${positions[pick(positions.length)]}`;
const isThree = isOf(THREE);
const inRange: Test = (control, pick) => {
  const fromUs = 1000 + pick(900);
  return `S${control} in ${fromUs} us to ${fromUs + 20 + pick(400)} us`;
};

/** `count` clauses, each of `size` of `of` controls picked at random; a disjunction of conjunctions, or the dual with `outer` “and”. */
export function clauses(
  pick: (below: number) => number,
  { count, size, of, test = isThree, outer = "or" }: ClauseShape,
): string {
  const inner = outer === "or" ? "and" : "or";
  const made = Array.from({ length: count }, () => {
    const chosen = new Set<number>();
    while (chosen.size < size) chosen.add(pick(of));
    return `(${[...chosen].map((control) => test(control, pick)).join(` ${inner} `)})`;
  });
  return made.join(` ${outer} `);
}

interface ClauseShape {
  readonly count: number;
  readonly size: number;
  readonly of: number;
  readonly test?: Test;
  readonly outer?: "or" | "and";
}

const range = (count: number): number[] => Array.from({ length: count }, (_, i) => i);
const MODES =
  `level level-blend level-now turtle hold-height hold-place hold-heading heading-by-pilot return-home launch-hold finder
  lights lights-off video-low video-high osd-hide osd-second rates-second gains-second recorder grip-at-idle
  camera-tilt camera-line camera-record lap-mark recorder-mark sounds-off`.split(/\s+/);

/** A disjunction of disjoint pairs of `A` and `B`; which are paired depends on `turn`. */
const pairsOf = (count: number, turn = 0): string =>
  range(count)
    .map((i) => `A${i} is down and B${(i * (turn === 0 ? 1 : 7) + turn) % count} is down`)
    .join(" or ");
const anyOf = (count: number): string =>
  [...range(count).map((i) => `A${i} is up`), ...range(count).map((i) => `B${i} is up`)].join(" and ");
const twoRows = (count: number): string[] => [...switches(count, "A"), ...switches(count, "B", 5 + count)];

/** The corpus. */
export const TANGLED: readonly TangledCraft[] = [
  {
    title: "80 clauses of three tests over 40 switches",
    controls: switches(40),
    conditions: [["arm", clauses(picker(1), { count: 80, size: 3, of: 40 })]],
  },
  {
    title: "the dual: 80 clauses, with “and” and “or” exchanged",
    controls: switches(40),
    conditions: [["arm", clauses(picker(2), { count: 80, size: 3, of: 40, outer: "and" })]],
  },
  {
    title: "22 disjoint pairs after a mode that names them row by row",
    controls: twoRows(22),
    conditions: [
      ["level", anyOf(22)],
      ["arm", pairsOf(22)],
    ],
  },
  {
    title: "22 disjoint pairs, and the rows, in one condition",
    controls: twoRows(22),
    conditions: [["arm", `not (${anyOf(22)}) and (${pairsOf(22)})`]],
  },
  {
    title: "two modes that pair 22 switches in different ways",
    controls: twoRows(22),
    conditions: [
      ["level", pairsOf(22)],
      ["level-blend", pairsOf(22, 3)],
      ["arm", pairsOf(22, 5)],
      ["arm-permit", pairsOf(22, 10)],
    ],
  },
  {
    title: "27 modes of eight clauses over 40 switches",
    controls: switches(40),
    conditions: MODES.map((name, i) => [name, clauses(picker(30 + i), { count: 8, size: 3, of: 40 })] as const),
  },
  {
    title: "27 modes of 40 clauses over 40 switches",
    controls: switches(40),
    conditions: MODES.map((name, i) => [name, clauses(picker(60 + i), { count: 40, size: 3, of: 40 })] as const),
  },
  {
    title: "200 outputs of ten clauses over 40 switches",
    controls: switches(40),
    conditions: range(200).map((i) => [`outputs.o${i}`, clauses(picker(90 + i), { count: 10, size: 3, of: 40 })]),
  },
  {
    title: "27 modes, each of two earlier ones and a clause",
    controls: switches(40),
    conditions: MODES.map((name, i) => {
      const clause = clauses(picker(400 + i), { count: 4, size: 3, of: 40 });
      if (i < 2) return [name, clause];
      return [name, `${MODES[i - 1]} and not (${clause}) or not ${MODES[i - 2]} and (${clause})`];
    }),
  },
  {
    title: "60 clauses of three ranges of 20 dials",
    controls: dials(20),
    conditions: [["arm", clauses(picker(3), { count: 60, size: 3, of: 20, test: inRange })]],
  },
  {
    title: "20 outputs of 30 ranges of one of 20 dials each",
    controls: dials(20),
    conditions: range(20).map((i) => [
      `outputs.o${i}`,
      range(30)
        .map((k) => inRange(i, picker(1000 + 30 * i + k)))
        .join(" or "),
    ]),
  },
  {
    title: "100 clauses of three of 30 selectors of 16 positions",
    controls: selectors(30),
    conditions: [["arm", clauses(picker(4), { count: 100, size: 3, of: 30, test: isOf(SIXTEEN) })]],
  },
  {
    title: "two of 40 switches down",
    controls: switches(40),
    conditions: [
      [
        "arm",
        range(40)
          .flatMap((i) => range(i).map((j) => `S${i} is down and S${j} is down`))
          .join(" or "),
      ],
    ],
  },
  {
    title: "two rows of 20 switches that stand alike, row by row",
    controls: twoRows(20),
    conditions: [
      ["level", anyOf(20)],
      [
        "arm",
        range(20)
          .map((i) => `(${THREE.map((place) => `A${i} is ${place} and B${i} is ${place}`).join(" or ")})`)
          .join(" and "),
      ],
    ],
  },
  {
    title: "60 outputs of two of 40 switches each",
    controls: switches(40),
    conditions: range(60).map((i) => [`outputs.o${i}`, clauses(picker(700 + i), { count: 1, size: 2, of: 40 })]),
  },
  {
    title: "a mode with very many ways to it",
    controls: twoRows(22),
    conditions: [
      [
        "arm",
        range(22)
          .map((i) => `(A${i} is down or B${i} is not up)`)
          .join(" and "),
      ],
    ],
  },
  {
    title: "arming by 30 dials of 60 stretches",
    controls: dials(30),
    conditions: [
      [
        "arm",
        range(30)
          .map((i) => `S${i} above 1500 us`)
          .join(" and "),
      ],
      ...range(900).map((k) => [`outputs.o${k}`, inRange(k % 30, picker(2000 + k))] as const),
    ],
  },
  {
    title: "2,000 outputs, each a stretch of one dial",
    controls: dials(1),
    conditions: range(2000).map((k) => [`outputs.o${k}`, inRange(0, picker(5000 + k))] as const),
  },
  {
    title: "3,000 outputs of three tests over 40 switches",
    controls: switches(40),
    conditions: range(3000).map((k) => [`outputs.o${k}`, clauses(picker(9000 + k), { count: 1, size: 3, of: 40 })]),
  },
  {
    title: "400 switches in a chain",
    controls: switches(400),
    conditions: [
      [
        "arm",
        range(399)
          .map((i) => `S${i} is down and S${i + 1} is up`)
          .join(" or "),
      ],
      ["level", clauses(picker(8), { count: 400, size: 2, of: 400 })],
    ],
  },
  {
    title: "400 outputs of two of 400 switches each",
    controls: switches(400),
    conditions: range(400).map((i) => [`outputs.o${i}`, clauses(picker(1700 + i), { count: 1, size: 2, of: 400 })]),
  },
  {
    title: "nots in nots",
    controls: switches(40),
    conditions: [
      [
        "arm",
        range(28).reduce(
          (inner, i) => `not (${isThree(i % 40, picker(i))} ${i % 2 === 0 ? "and" : "or"} ${inner})`,
          clauses(picker(5), { count: 12, size: 3, of: 40 }),
        ),
      ],
    ],
  },
  {
    title: "6,000 clauses over 40 switches",
    controls: switches(40),
    conditions: [["arm", clauses(picker(6), { count: 6000, size: 4, of: 40 })]],
  },
  {
    title: "one mode of 300 lines",
    controls: switches(40),
    conditions: range(300).map((k) => ["arm", clauses(picker(3000 + k), { count: 1, size: 4, of: 40 })] as const),
  },
  {
    title: "a tangled mode that all others name",
    controls: switches(40),
    conditions: [
      ["arm", clauses(picker(1), { count: 80, size: 3, of: 40 })],
      ...MODES.map((name, i) => [name, `arm and S${i} is down`] as const),
      ...range(100).map((i) => [`outputs.o${i}`, `not arm and S${i % 40} is up`] as const),
    ],
  },
];

/** The craft of the corpus with this title. */
export function tangled(title: string): TangledCraft {
  return TANGLED.find((each) => each.title === title)!;
}

/** The craft as input of the logic. */
export function tangledInput(craft: TangledCraft): SwitchInput {
  return readInput([...craft.controls, ...craft.conditions.map(([name, text]) => `${name} when ${text}`)].join("\n"));
}

/** The craft as files: `jug.fettle`, and its handset `desk.fettle`. */
export function tangledFiles({ controls, conditions }: TangledCraft): Record<string, string> {
  const lines = (section: "modes" | "outputs") =>
    conditions
      .filter(([name]) => name.startsWith("outputs.") === (section === "outputs"))
      .map(([name, text]) => `  ${name.replace("outputs.", "")} when ${text}\n`);
  const textOf = (name: "modes" | "outputs") => (lines(name).length > 0 ? `\n${name}\n${lines(name).join("")}` : "");
  return {
    "jug.fettle": `craft "Jug"\n\nuse "desk.fettle"\n\nsafety\n  arm-tilt-limit 30 deg\n${textOf("modes")}${textOf("outputs")}`,
    "desk.fettle": `handset "Desk"\n\ncontrols\n${controls.map((line) => `  ${line}\n`).join("")}`,
  };
}
