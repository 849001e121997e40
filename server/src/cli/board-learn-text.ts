/** What was learned from scripts and their board's texts, as a person reads it. */
import type { Learned } from "../../../shared/dialect/learn/learned.ts";
import { oneLine } from "./io.ts";
import { rows } from "./report-rows.ts";

/** Lines for standard error: the dialect itself goes to standard output. */
export function boardLearnText({ lines, open, notes }: Learned, pairs: number): string {
  return [
    `From ${pairs} ${pairs === 1 ? "pair" : "pairs"}: ${lines.length} ${lines.length === 1 ? "line" : "lines"} proposed, ${open.length} open\n`,
    rows(
      "Proposed:",
      lines.map(({ left, says }) => `${left}  ${says.join(", ")}`),
    ),
    rows(
      "Open, each with what would decide it:",
      open.map(({ what, why, change }) => `${what}: ${why} ${change}`),
    ),
    ...notes.map((note) => `Note: ${oneLine(note)}\n`),
  ].join("");
}
