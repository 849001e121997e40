/** Texts and dialects made to be slow take time in proportion to their size. */
import { test } from "vitest";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { expectGrowth } from "../../growth.ts";
import { catalogue, dialectOf, HOSTILE, KILN, TEXTS } from "./long-texts.ts";

const workspace = makeCore(catalogue).at(memoryFiles({}));
const context = { workspace, handset: null, craft: null };

/** Four times the size: in proportion 4, by the square 16. Between both, with room for a machine that is busy. */
const MOST_RATIO = 9;

const texts = Object.entries(TEXTS).map(([title, make]) => {
  return [title, (n: number) => ({ dialect: dialectOf(KILN), text: make(n * 1500) })] as const;
});

test.each([...Object.entries(HOSTILE), ...texts])("%s", (_, make) => {
  const reading = (times: number) => {
    const { dialect, text } = make(times);
    return () => readBoard(dialect, text, context);
  };
  expectGrowth(MOST_RATIO, { small: reading(1), large: reading(4) });
});
