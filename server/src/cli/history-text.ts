/** The history of a value as a person reads it. */
import type { HistoryReport, ReportedChange, ReportedValue } from "../../../shared/ide/history/history-report.ts";
import { oneLine } from "./io.ts";

/** So many letters of a commit's name tell it from all others of a small repository. */
const SHORT = 8;
/** Longer names are written as far as they fit. */
const WIDEST_NAME = 24;

/** What it is now, then each change with who made it, when, why, and the line. */
export function historyText(report: HistoryReport, ink: "plain" | "coloured"): string {
  const { what, craft, now, changes, notes } = report;
  const tint = (code: string, text: string) => (ink === "coloured" ? `\u001b[${code}m${text}\u001b[0m` : text);
  const head = `${oneLine(what)} on ${oneLine(craft)}: ${valueText(now)}`;
  const width = Math.min(WIDEST_NAME, Math.max(0, ...changes.map(({ author }) => (author ?? "").length)));
  const rows = changes.map((change) => {
    const [first, ...more] = linesOf(change, width);
    return [tint("1", first!), ...more.map((line) => `    ${line}`)].join("\n");
  });
  const none = changes.length === 0 ? ["No commit changed it."] : [];
  const told = notes.map((note) => `note  ${oneLine(note)}`);
  return `${[head, ...rows, ...none, ...told].join("\n\n")}\n`;
}

function linesOf(change: ReportedChange, width: number): string[] {
  const { commit, author, date, subject, before, after, file, line, note } = change;
  const who =
    commit === null
      ? "not committed yet"
      : `${(date ?? "").slice(0, 10)}  ${commit.slice(0, SHORT)}  ${oneLine(author ?? "")
          .slice(0, WIDEST_NAME)
          .padEnd(width)}`;
  const words = `${who}  ${valueText(before)} → ${valueText(after)}${asideText(change)}`;
  return [
    words,
    ...(commit === null ? [] : [oneLine(subject)]),
    ...(file === null || line === null ? [] : [`${oneLine(file)}:${line + 1}`]),
    ...(note === "" ? [] : note.split("\n").map((each) => `# ${oneLine(each)}`)),
  ].filter((each) => each !== "");
}

function asideText({ respelled, kept }: ReportedChange): string {
  return `${respelled ? " (the same, written otherwise)" : ""}${kept ? "" : " (a later merge kept another value)"}`;
}

function valueText({ text, unknown }: ReportedValue): string {
  if (unknown !== null) return `not known (${oneLine(unknown)})`;
  return text === null ? "not said" : oneLine(text);
}
