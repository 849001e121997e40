/** Counts of the sets of modes that no one could list, held to counts from outside. */
import { expect, test } from "vitest";
import { readBoard } from "./read-board.ts";

test("the sets of modes along a dial of very many stretches are counted, as they are listed", () => {
  const controls = ["TL switch ch5 up 1000 us down 2000 us", "KN dial ch9 1000 us to 2000 us"];
  const steps = Array.from({ length: 30 }, (_, i) => `outputs.o${i} when KN above ${1030 + 30 * i} us`);
  const one = readBoard([...controls, ...steps].join("\n"));
  expect([one.countStates(), one.listStates(100).states.length]).toEqual([31, 31]);
  // Of the 31 stretches 15 have a part above 1500 us, where there may be arming or not.
  const two = readBoard([...controls, ...steps, "arm when KN above 1500 us and TL is down"].join("\n"));
  expect([two.countStates(), two.listStates(100).states.length]).toEqual([46, 46]);
  expect(two.countStatesWith("arm")).toBe(15);
});

/** Words of this many letters, each 0 or 1, without 101 in them (OEIS A005251, from memory; the first ones by hand). */
function wordsWithout101(letters: number): number {
  const counts = [1, 2, 4];
  while (counts.length <= letters) counts.push(2 * counts.at(-1)! - counts.at(-2)! + counts.at(-3)!);
  return counts[letters]!;
}

test("a chain of switches is counted, in whatever order its modes are told", () => {
  expect([3, 4, 5].map(wordsWithout101)).toEqual([7, 12, 21]);
  const links = 59;
  const controls = Array.from({ length: links + 1 }, (_, i) => `S${i} switch ch${5 + i} up 1000 us down 2000 us`);
  const chain = (step: number) =>
    Array.from({ length: links }, (_, k) => (k * step) % links).map(
      (i) => `outputs.o${i} when S${i} is down and S${i + 1} is down`,
    );
  for (const step of [1, 7, 23, 31]) {
    const board = readBoard([...controls, ...chain(step)].join("\n"));
    // On, off and on again is what three links in a row cannot be: the switches between them would be down.
    expect(board.countStates()).toBe(wordsWithout101(links));
  }
});
