/** What came of writing a craft as board text, as a person reads it: counts first, then each thing that needs a look. */
import type { BoardWriteReport } from "../../../shared/ide/reports/board-report.ts";
import { oneLine } from "./io.ts";
import { bySection, countsOf, rows } from "./report-rows.ts";

/** Lines for standard error: the text itself goes to standard output. `dialect` is the path of the dialect. */
export function boardWriteText(report: BoardWriteReport, notes: readonly string[], dialect: string): string {
  const { changes, rounded, filled, unsaid, onlyBase, byHand, cannot, curves } = report;
  const changed = changes === "" ? 0 : changes.replace(/(?:\r\n|\r|\n)$/, "").split(/\r\n|\r|\n/).length;
  const counts = [
    changed === 0 ? "nothing to change" : `${changed} ${changed === 1 ? "line" : "lines"} to send`,
    ...countsOf([
      [cannot.length, "cannot be written"],
      [byHand.length, "to clear by hand"],
      [rounded.length, "rounded"],
      [filled.length, "filled in"],
      [unsaid.length, "without a line"],
      [onlyBase.length, "only on the board"],
    ]),
  ];
  return [
    `By ${dialect}: ${counts.join(", ")}\n`,
    rows(
      "Cannot be written, so the board keeps what it has:",
      cannot.map(({ what, why, positions }) => `${what}: ${why}${state(positions)}`),
    ),
    rows("To be cleared by hand on the board, which cannot be told to forget it:", byHand),
    rows(
      "Rounded to what the board holds:",
      rounded.map(({ what, said, written }) => `${what}: said ${said}, written ${written}`),
    ),
    rows(
      "Curves of the board's own, nearest fit:",
      curves.map(({ what, deviation }) => `${what}: at most ${Number(deviation.toPrecision(2))} deg/s beside it`),
    ),
    rows(
      "Filled in, as nobody says it:",
      filled.map(({ what, value, why }) => `${what} ${value}: ${why}`),
    ),
    bySection("The craft says, and no line of the dialect does:", unsaid),
    bySection("Only the board's last text says, and it stays:", onlyBase),
    ...notes.map((note) => `Note: ${oneLine(note)}\n`),
  ].join("");
}

function state(positions: Readonly<Record<string, string | number>> | null): string {
  const all = Object.entries(positions ?? {}).map(
    ([control, at]) => `${control} ${at}${typeof at === "number" ? " us" : ""}`,
  );
  return all.length === 0 ? "" : ` (with ${all.join(", ")})`;
}
