/** A field of a line such as `motor1 place rear-left direction clockwise`, changed or added; all else stays as it is. */

import type { Entry, Script } from "../../model/script.ts";
import type { TextEdit } from "../../syntax/span.ts";

/** Between fields in the canonical layout. */
const GAP = "  ";

/**
 * The edit that gives a field of an entry another text. A field that the line does not have is written in the place
 * that it has in `order`. What follows keeps its column where blanks allow it.
 */
export function changedField(
  script: Script,
  entry: Entry,
  order: readonly string[],
  name: string,
  text: string,
): TextEdit {
  const { line, value } = entry;
  const row = script.tree.lines[line]!.text;
  const fields = value?.kind === "fields" ? value.fields : [];
  const field = fields.find((each) => each.name === name);
  if (field) return fitted(row, line, field.value.start, field.value.end, text);
  const rank = order.indexOf(name);
  const next = fields.find((each) => order.indexOf(each.name) > rank);
  if (next) {
    const at = { line, character: next.nameAt.start };
    return { range: { start: at, end: at }, text: `${name} ${text}${GAP}` };
  }
  const end = fields.at(-1)?.value.end ?? row.length;
  return fitted(row, line, end, end, `${GAP}${name} ${text}`);
}

/** Replaces columns of a line, and takes from the blanks behind them what the new text has more, or gives back what it has less. */
function fitted(row: string, line: number, start: number, end: number, text: string): TextEdit {
  const behind = /^ */.exec(row.slice(end))![0].length;
  const isLast = end + behind === row.length;
  const inColumns = behind >= GAP.length && row[end + behind] !== "\t" && !isLast;
  const gap = inColumns ? Math.max(GAP.length, behind - (text.length - (end - start))) : behind;
  const to = gap === behind ? end : end + behind;
  const range = { start: { line, character: start }, end: { line, character: to } };
  return { range, text: gap === behind ? text : text + " ".repeat(gap) };
}
