/** Sets are equal if and only if they are the same number, however many there are and however they came about. */
import { expect, test } from "vitest";
import { type Diagrams, EVERY, makeDiagrams, NONE } from "../../shared/logic/diagram.ts";

const WIDTHS = [2, 3, 4, 3, 2, 3, 2];
const STATES = WIDTHS.reduce((product, width) => product * width, 1);

/** The one state of this number. */
function stateOf(diagrams: Diagrams, number: number): number {
  let node = EVERY;
  let rest = number;
  for (let level = WIDTHS.length - 1; level >= 0; level--) {
    const width = WIDTHS[level]!;
    const children = Array.from({ length: width }, (_, value) => (value === rest % width ? node : NONE));
    rest = Math.floor(rest / width);
    node = diagrams.make(level, children);
  }
  return node;
}

/** The states whose number leaves one of these remainders, joined from the first on or from the last. */
function joined(diagrams: Diagrams, by: number, remainders: readonly number[], backwards = false): number {
  const numbers = Array.from({ length: STATES }, (_, i) => i).filter((i) => remainders.includes(i % by));
  if (backwards) numbers.reverse();
  return numbers.reduce((set, number) => diagrams.or(set, stateOf(diagrams, number)), NONE);
}

test("a thousand sets and more, made in two orders, are the same numbers", () => {
  const diagrams = makeDiagrams(WIDTHS);
  const first = [5, 7, 11, 13].map((by) => joined(diagrams, by, [0, 3]));
  expect(diagrams.size()).toBeGreaterThan(1000);
  expect([5, 7, 11, 13].map((by) => joined(diagrams, by, [3, 0], true))).toEqual(first);
  expect(new Set(first).size).toBe(4);
});

test("not, and, or and meet agree with each other", () => {
  const diagrams = makeDiagrams(WIDTHS);
  const { and, or, not, meet } = diagrams;
  const sets = [NONE, EVERY, joined(diagrams, 5, [0, 1]), joined(diagrams, 7, [2]), joined(diagrams, 5, [2, 3, 4])];
  for (const a of sets) {
    expect([not(not(a)), and(a, a), or(a, a), and(a, not(a)), or(a, not(a))]).toEqual([a, a, a, NONE, EVERY]);
    expect([and(a, EVERY), and(a, NONE), or(a, EVERY), or(a, NONE)]).toEqual([a, NONE, EVERY, a]);
    for (const b of sets) {
      expect(and(a, b)).toBe(and(b, a));
      expect(not(and(a, b))).toBe(or(not(a), not(b)));
      expect(meet(a, b)).toBe(and(a, b) !== NONE);
      expect(meet(a, b)).toBe(meet(b, a));
    }
  }
  expect(sets[4]).toBe(not(sets[2]!));
});

test("what is one set twice takes no room twice", () => {
  const diagrams = makeDiagrams(WIDTHS);
  joined(diagrams, 11, [1, 4, 6]);
  const size = diagrams.size();
  joined(diagrams, 11, [1, 4, 6]);
  expect(diagrams.size()).toBe(size);
});
