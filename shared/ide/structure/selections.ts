/** Selections that grow: from the word at a position, by what the script is made of, to the whole file. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import { comparePositions, type Position, type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import { columnsIn } from "./selection-columns.ts";
import { linesAround } from "./selection-lines.ts";

/**
 * The ranges around a position, each strictly inside the next; the last one is the file. A position beyond a line's
 * end, or beyond the last line, counts as its end.
 */
export function selectionsAt(script: Script, catalogue: Catalogue, at: Position): Range[] {
  const { lines } = script.tree;
  const line = Math.min(Math.max(0, at.line), lines.length - 1);
  const column = Math.min(Math.max(0, at.character), lines[line]!.text.length);
  const isInIndent = /^\s*$/.test(lines[line]!.text.slice(0, column + 1));
  const runs = linesAround(script, line);
  const ranges = [
    ...columnsIn(script, catalogue, line, column).map((cols) => rangeOf(spanAt(line, cols))),
    // A line by itself is more than its words by its indent alone, which is no step worth a key.
    ...runs
      .filter((run, i) => run.first < run.last || isInIndent || i === runs.length - 1)
      .map(({ first, last }) => ({
        start: { line: first, character: 0 },
        end: { line: last, character: lines[last]!.text.length },
      })),
  ];
  return nested(ranges, { line, character: column });
}

/** Of ranges in order of size, those around the position that have the one before strictly inside. */
function nested(ranges: readonly Range[], at: Position): Range[] {
  const found: Range[] = [];
  for (const range of ranges) {
    if (!contains(range, { start: at, end: at })) continue;
    const before = found.at(-1);
    if (!before || (contains(range, before) && !contains(before, range))) found.push(range);
  }
  return found;
}

function contains(outer: Range, inner: Range): boolean {
  return comparePositions(outer.start, inner.start) <= 0 && comparePositions(inner.end, outer.end) <= 0;
}
