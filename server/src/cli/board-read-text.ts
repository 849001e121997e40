/** What came of reading a board's text, as a person reads it: counts first, then what needs a look. */
import type { BoardReadReport } from "../../../shared/ide/reports/board-report.ts";
import { oneLine } from "./io.ts";

/** As many lines of one kind as a person will read through; all are in the script and in the JSON. */
const MOST = 12;

/** Lines for standard error: the script itself goes to standard output. `dialect` is the path of the dialect. */
export function boardReadText({ lines, notes }: BoardReadReport, dialect: string): string {
  const of = (state: string) => lines.filter((each) => each.state === state);
  const [odd, kept] = [of("odd"), of("kept")];
  const entries = new Set(lines.flatMap(({ state, says }) => (state === "read" ? says : []))).size;
  const beside = lines.filter(({ state, why }) => state === "read" && why !== null);
  return [
    `${count(lines.length, "line")} by ${dialect}: ${of("read").length} read (${count(entries, "entry", "entries")}), `,
    `${odd.length} odd, ${kept.length} kept, ${of("idle").length} idle\n`,
    listed("Odd, kept in verbatim as they are:", odd),
    listed("Read, and kept in verbatim as well:", beside),
    kept.length > 0 ? `Kept in verbatim: lines ${runs(kept.map(({ line }) => line + 1))}\n` : "",
    ...notes.map((note) => `Note: ${oneLine(note)}\n`),
  ].join("");
}

function listed(heading: string, lines: BoardReadReport["lines"]): string {
  if (lines.length === 0) return "";
  const shown = lines.slice(0, MOST);
  const width = String(shown.at(-1)!.line + 1).length;
  const rows = shown.map(({ line, why }) => `  line ${String(line + 1).padStart(width)}  ${oneLine(why ?? "")}\n`);
  const more = lines.length - shown.length;
  return `${heading}\n${rows.join("")}${more > 0 ? `  and ${more} more: see --format json\n` : ""}`;
}

/** Numbers in rising order as ranges: 3, 5 to 8. */
function runs(numbers: readonly number[]): string {
  const found: [number, number][] = [];
  for (const number of numbers) {
    const last = found.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else found.push([number, number]);
  }
  return found.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`)).join(", ");
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
