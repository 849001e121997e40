/** What is drawn at random, and can be drawn again: the same for the same seed and number of a case. */
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

export interface Random {
  /** A whole number from 0 up to, and without, the limit. */
  below(limit: number): number;
  /** A whole number of a range, both ends included. */
  between(least: number, most: number): number;
  /** True once in so many times. */
  onceIn(times: number): boolean;
  /** One of a list, which has at least one. */
  oneOf<T>(list: readonly T[]): T;
  /** As many of what is made as the number says. */
  some<T>(count: number, make: () => T): T[];
}

/** What case number `index` of a run from `seed` draws. */
export function randomOf(seed: number, index: number): Random {
  // Seeds in a row begin alike, so they are driven apart first: Knuth's multiplicative hash (TAOCP 3, 6.4; from memory).
  const generator = xoroshiro128plus((Math.imul(seed, 2654435761) ^ Math.imul(index + 1, 40503)) | 0);
  for (let i = 0; i < 8; i++) generator.next();
  const between = (least: number, most: number) => uniformInt(generator, least, most);
  return {
    between,
    below: (limit) => between(0, limit - 1),
    onceIn: (times) => between(1, times) === 1,
    oneOf: (list) => list[between(0, list.length - 1)]!,
    some: (count, make) => Array.from({ length: count }, make),
  };
}
