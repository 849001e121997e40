/** Texts and dialects made to be slow take time in proportion to their size. */
import { expect, test } from "vitest";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { catalogue, dialectOf, HOSTILE, KILN, TEXTS } from "./long-texts.ts";

const workspace = makeCore(catalogue).at(memoryFiles({}));
const context = { workspace, handset: null, craft: null };

/** Four times the size: in proportion 4, by the square 16. Between both, with room for a machine that is busy. */
const MOST_RATIO = 9;
/** A time so short that it is all noise. */
const NOISE_MS = 15;
const TRIES = 5;

function shortest(dialect: ReturnType<typeof dialectOf>, text: string): number {
  const times = [1, 2, 3].map(() => {
    const began = performance.now();
    readBoard(dialect, text, context);
    return performance.now() - began;
  });
  return Math.min(...times);
}

const texts = Object.entries(TEXTS).map(([title, make]) => {
  return [title, (n: number) => ({ dialect: dialectOf(KILN), text: make(n * 1500) })] as const;
});

test.each([...Object.entries(HOSTILE), ...texts])("%s", (_, make) => {
  const [small, large] = [make(1), make(4)];
  let ratio = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TRIES && ratio > MOST_RATIO; i++) {
    const once = Math.max(NOISE_MS, shortest(small.dialect, small.text));
    ratio = Math.min(ratio, shortest(large.dialect, large.text) / once);
  }
  expect(ratio).toBeLessThan(MOST_RATIO);
});
