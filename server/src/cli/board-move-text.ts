/** What becomes of a board's text on another board, as a person reads it: counts first, then each thing. */
import type { BoardMove } from "../../../shared/ide/board-move/board-move.ts";
import { oneLine } from "./io.ts";
import { bySection, countsOf, rows } from "./report-rows.ts";

/** Lines for standard error: the text itself goes to standard output. `from` and `to` are the paths of the dialects. */
export function boardMoveText(moved: BoardMove, from: string, to: string): string {
  const { lost, renamed, rounded, gained, kept, filled, curves, bench, notes } = moved;
  const counts = countsOf([
    [lost.length, "lost"],
    [renamed.length, "renamed"],
    [rounded.length, "rounded"],
    [filled.length, "filled in"],
    [kept.length, kept.length === 1 ? "line not understood" : "lines not understood"],
  ]);
  return [
    `From ${from} to ${to}: ${counts.join(", ") || "all of it, unchanged"}\n`,
    rows(
      "Lost:",
      lost.map(({ what, was, why }) => `${what} ${was}: ${why}`),
    ),
    rows(
      "Rounded to what the other board holds:",
      rounded.map(({ what, was, now }) => `${what}: was ${was}, now ${now}`),
    ),
    rows(
      "Curves of the boards' own, nearest fit:",
      curves.map(
        ({ what, deviationDegS }) => `${what}: at most ${Number(deviationDegS.toPrecision(2))} deg/s beside it`,
      ),
    ),
    rows(
      "Filled in, as nobody says it:",
      filled.map(({ what, value, why }) => `${what} ${value}: ${why}`),
    ),
    rows(
      "Said by other lines:",
      renamed.map(({ what, was, now }) => `${what}: ${was.join(" | ")}  ->  ${now.join(" | ")}`),
    ),
    bySection("The other board can be told as well:", gained),
    rows(
      "Not understood, and not carried over:",
      kept.map(({ line, text }) => `line ${line + 1}: ${text}`),
    ),
    ...notes.map((note) => `Note: ${oneLine(note)}\n`),
    rows(
      "On the bench, propellers off:",
      bench.map(({ what, because }) => `${what}${because.length > 0 ? ` (${because.join(", ")})` : ""}`),
    ),
  ].join("");
}
