/** Conditions as lines of a board: a corpus that is read, and the same states by the logic where nothing is rounded. */
import { expect, test } from "vitest";
import type { Cover } from "../../../shared/dialect/conditions/cover.ts";
import { shapesFor } from "../../../shared/dialect/conditions/shapes.ts";
import { rangesFor } from "../../../shared/dialect/conditions/to-ranges.ts";
import { makeSwitchboard } from "../../../shared/logic/switchboard.ts";
import { readInput } from "../../logic/read-board.ts";
import { blocksOf, conditionOfLines, sameStates } from "./blocks.ts";
import { type DialectName, dialectNamed } from "./dialects.ts";

/** The mode that the conditions of the corpus are of. */
const MODE = "recorder";

const cases = blocksOf("to-ranges.txt").flatMap(({ board, input, dialect, cases: lines }) =>
  lines.map((line) => {
    const [said, expected] = line.split(" = ") as [string, string];
    const own = readInput(
      said
        .split("; ")
        .map((each) => `${MODE} when ${each}`)
        .join("\n"),
    ).conditions;
    const whole = { ...input, conditions: [...input.conditions, ...own] };
    return {
      title: `${line} [${dialect}: ${board.replaceAll("\n", "; ")}]`,
      input: whole,
      dialect: dialect as DialectName,
      expected,
    };
  }),
);

test("there are enough of them", () => {
  expect(cases.length).toBeGreaterThanOrEqual(60);
});

test.each(cases)("$title", ({ input, dialect, expected }) => {
  const board = makeSwitchboard(input);
  const cover = rangesFor(board, MODE, shapesFor(dialectNamed(dialect), MODE));
  expect(inWords(cover)).toBe(expected);
  if (cover.kind === "cannot" && cover.positions) {
    // In every state with these positions the mode is on, which is what the board would miss.
    expect(board.sets.within(board.sets.where(cover.positions), board.selected(MODE))).toBe(true);
  }
  if (cover.kind !== "lines" || cover.rounded.some(({ changesStates }) => changesStates)) return;
  const own = input.conditions.find(({ name }) => name === MODE)!.lines;
  const written = conditionOfLines(cover.lines.map(({ ranges }) => ranges));
  expect(sameStates(input, own, written)).toBe(true);
});

function inWords(cover: Cover): string {
  if (cover.kind === "as-shape") return `as ${cover.mode ?? "always"}`;
  if (cover.kind === "cannot") {
    const at = Object.entries(cover.positions ?? {}).map(([name, position]) => `${name} ${position}`);
    return `cannot ${cover.why} [${at.join(", ")}]`;
  }
  if (cover.lines.length === 0) return "never";
  const lines = cover.lines.map(({ ranges }) =>
    ranges.map(({ channel, fromUs, toUs }) => `ch${channel} ${fromUs}..${toUs}`).join(" "),
  );
  const rounded = cover.rounded.map(({ name, saidUs, writtenUs }) => `${name} ${saidUs}>${writtenUs}`);
  return lines.join(" | ") + (rounded.length === 0 ? "" : ` ~ ${rounded.join(" ")}`);
}
