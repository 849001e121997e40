/** Conditions that are harder the more of them there is: random ones over many switches, and adversarial orders. */
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { readInput } from "./read-board.ts";
import { clauses, picker, switches, THREE } from "./tangled.ts";

export interface ConditionCase {
  readonly title: string;
  readonly inputs: readonly SwitchInput[];
}

/** So many conditions are made of each kind, each from a seed of its own. */
const EACH = 20;

const range = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

function inputOf(controls: readonly string[], condition: string): SwitchInput {
  return readInput([...controls, `arm when ${condition}`].join("\n"));
}

function randomCase(of: number, count: number, size: number): ConditionCase {
  return {
    title: `${of} switches of three positions, ${count} clauses of ${size}`,
    inputs: range(EACH).map((seed) => inputOf(switches(of), clauses(picker(13_000 + seed), { count, size, of }))),
  };
}

/** Random disjunctions of conjunctions: over the same controls ever longer, and then shorter clauses. */
export const RANDOM: readonly ConditionCase[] = [
  ...[40, 60].flatMap((of) => [5, 10, 15, 20, 30, 40, 80].map((count) => randomCase(of, count, 3))),
  ...[40, 60].flatMap((of) => [20, 40, 80].map((count) => randomCase(of, count, 2))),
];

const twoRows = (count: number): string[] => [...switches(count, "A"), ...switches(count, "B", 5 + count)];
const shuffled = <T>(items: readonly T[], seed: number): T[] => {
  const pick = picker(seed);
  const left = [...items];
  return items.map(() => left.splice(pick(left.length), 1)[0]!);
};
const pairs = (count: number): string[] => range(count).map((i) => `A${i} is down and B${i} is down`);

function adversarial(title: string, inputs: readonly SwitchInput[]): ConditionCase {
  return { title, inputs };
}

/**
 * Functions for which a bad order of the controls costs exponentially many nodes and a good one few (Bryant,
 * “Graph-Based Algorithms for Boolean Function Manipulation”, IEEE Trans. Computers C-35, 1986: a1 b1 + a2 b2 + …),
 * with the handset's order at its worst; and two of which every order is bad or middling.
 */
export const ADVERSARIAL: readonly ConditionCase[] = [
  ...[10, 20, 30].map((n) =>
    adversarial(`${n} pairs, all first halves before all second halves`, [
      inputOf(twoRows(n), pairs(n).join(" or ")),
      inputOf(shuffled(twoRows(n), n), shuffled(pairs(n), n + 1).join(" or ")),
      inputOf([...twoRows(n)].reverse(), pairs(n).reverse().join(" or ")),
    ]),
  ),
  ...[10, 20, 30].map((n) =>
    adversarial(`${n} pairs, named row by row beforehand`, [
      inputOf(
        twoRows(n),
        `(${range(n)
          .map((i) => `A${i} is up`)
          .join(" and ")}) or ${pairs(n).join(" or ")}`,
      ),
    ]),
  ),
  ...[8, 16, 24].map((n) =>
    adversarial(`${n} pairs that stand alike, row by row`, [
      inputOf(
        twoRows(n),
        range(n)
          .map((i) => `(${THREE.map((at) => `A${i} is ${at} and B${i} is ${at}`).join(" or ")})`)
          .join(" and "),
      ),
    ]),
  ),
  ...[20, 40, 60].map((n) =>
    adversarial(`a ring of ${n}: neighbours down and up`, [
      inputOf(
        shuffled(switches(n), n),
        range(n)
          .map((i) => `S${i} is down and S${(i + 1) % n} is up`)
          .join(" or "),
      ),
    ]),
  ),
  ...[4, 5, 6, 7].map((n) =>
    adversarial(`a grid of ${n} by ${n}: a row all down, or a column all up`, [
      inputOf(
        switches(n * n),
        [
          ...range(n).map((r) =>
            range(n)
              .map((c) => `S${r * n + c} is down`)
              .join(" and "),
          ),
          ...range(n).map((c) =>
            range(n)
              .map((r) => `S${r * n + c} is up`)
              .join(" and "),
          ),
        ].join(" or "),
      ),
    ]),
  ),
];
