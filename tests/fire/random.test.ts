import { expect, test } from "vitest";
import { randomOf } from "./random.ts";

const numbers = (seed: number, index: number) => {
  const random = randomOf(seed, index);
  return random.some(20, () => random.below(1000));
};

test("a case is the same each time, and no two are alike", () => {
  expect(numbers(13, 7)).toEqual(numbers(13, 7));
  const cases = Array.from({ length: 2000 }, (_, i) => numbers(13, i).join());
  expect(new Set([...cases, ...Array.from({ length: 2000 }, (_, i) => numbers(14, i).join())]).size).toBe(4000);
});

test("each of a few is drawn about as often as the others", () => {
  const counts = new Map<string, number>();
  for (let i = 0; i < 4000; i++) {
    const letter = randomOf(13, i).oneOf(["a", "b", "c", "d"]);
    counts.set(letter, (counts.get(letter) ?? 0) + 1);
  }
  expect(counts.size).toBe(4);
  // A thousand each; the standard deviation of a binomial count is √(4000 · ¼ · ¾) = 27.
  for (const count of counts.values()) expect(Math.abs(count - 1000)).toBeLessThan(5 * 27);
});
