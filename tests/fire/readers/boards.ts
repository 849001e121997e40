/** Boards for the readers under fire: those of the demo, a piece of each at a time, and made ones. */
import { readFileSync } from "node:fs";
import { ALL_BLOCKS } from "../../dialect/made-blocks.ts";
import { HANDSET, madeBoard } from "../../dialect/made-dialects.ts";
import type { Random } from "../random.ts";

export { HANDSET };

export interface MadeBoard {
  readonly dialect: string;
  readonly craft: string;
  readonly board: string;
}

const demo = ["ebb-second", "ebb-third", "loom"].map((name): MadeBoard => {
  const read = (path: string) => readFileSync(new URL(`../../../examples/boards/${path}`, import.meta.url), "utf8");
  return { dialect: read(`${name}.fettle`), craft: read(`read/${name}.fettle`), board: read(`${name}.txt`) };
});

/** Some neighbouring lines of a text, so that a case is short. */
function stretch(random: Random, text: string, most: number): string {
  const lines = text.split("\n");
  const from = random.below(lines.length);
  return lines.slice(from, from + random.between(1, most)).join("\n");
}

/** A dialect is of use with its codes alone: they stay, and some of its other sections. */
function partOf(random: Random, dialect: string): string {
  const [head = "", ...sections] = dialect.split(/\n\n(?=[a-z])/);
  const kept = sections.filter((each) => /^(text|codes)\b/.test(each) || random.onceIn(4));
  return [head, ...kept].join("\n\n");
}

/** Most are made, some are pieces of the demo. */
export function boardOf(random: Random): MadeBoard {
  if (random.onceIn(5)) {
    const { dialect, craft, board } = random.oneOf(demo);
    return {
      dialect: partOf(random, dialect),
      craft: `craft "Jug"\n${stretch(random, craft, 20)}`,
      board: stretch(random, board, 15),
    };
  }
  const kinds = random.some(random.between(1, 4), () => random.below(ALL_BLOCKS.length));
  return madeBoard({
    blocks: [...new Set(kinds)].map((kind) => ({ kind, seed: random.below(2 ** 31 - 1), under: random.below(4) })),
    seed: random.below(2 ** 31 - 1),
    headings: random.below(3),
    noise: random.below(5),
    same: random.onceIn(2),
  });
}
