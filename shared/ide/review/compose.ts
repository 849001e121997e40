/** Edits on top of edits: what is inserted into a text after it was changed, as edits of the text as it was. */
import { comparePositions, type Position, type TextEdit } from "../../syntax/span.ts";

/** An insertion at a place of the changed text. */
export interface Insertion {
  readonly at: Position;
  readonly text: string;
}

interface OffsetEdit {
  readonly start: number;
  readonly end: number;
  text: string;
}

/** The edits of `before` that make of it what `edits` make of it, and then the insertions, whose places are those after the edits. */
export function compose(before: string, edits: readonly TextEdit[], insertions: readonly Insertion[]): TextEdit[] {
  if (insertions.length === 0) return [...edits];
  const offsetIn = (text: string) => {
    const starts = startsOf(text);
    return ({ line, character }: Position) => Math.min((starts[line] ?? text.length) + character, text.length);
  };
  const offsetBefore = offsetIn(before);
  const made: OffsetEdit[] = [...edits]
    .sort((a, b) => comparePositions(a.range.start, b.range.start))
    .map(({ range, text }) => ({ start: offsetBefore(range.start), end: offsetBefore(range.end), text }));
  const offsetAfter = offsetIn(applied(before, made));
  const sorted = insertions.map(({ at, text }) => ({ at: offsetAfter(at), text })).sort((a, b) => b.at - a.at);
  // From the last to the first, so that what is inserted moves no place that is still to come.
  for (const { at, text } of sorted) insertAt(made, at, text);
  const positionOf = positionsIn(before);
  return made
    .sort((a, b) => a.start - b.start || a.end - b.end)
    .map(({ start, end, text }) => ({ range: { start: positionOf(start), end: positionOf(end) }, text }));
}

/** Inserts at an offset of the changed text: into the text of an edit that covers it, else as an edit of its own. */
function insertAt(edits: OffsetEdit[], at: number, text: string): void {
  let shift = 0;
  for (const edit of edits) {
    const from = edit.start + shift;
    if (at < from) break;
    const within = at - from;
    if (within <= edit.text.length && (edit.text.length > 0 || edit.end > edit.start || within === 0)) {
      edit.text = edit.text.slice(0, within) + text + edit.text.slice(within);
      return;
    }
    shift += edit.text.length - (edit.end - edit.start);
  }
  edits.push({ start: at - shift, end: at - shift, text });
  edits.sort((a, b) => a.start - b.start || a.end - b.end);
}

function applied(text: string, edits: readonly OffsetEdit[]): string {
  let made = "";
  let done = 0;
  for (const edit of edits) {
    made += text.slice(done, edit.start) + edit.text;
    done = edit.end;
  }
  return made + text.slice(done);
}

function startsOf(text: string): number[] {
  const starts = [0];
  for (const found of text.matchAll(/\r\n|\r|\n/g)) starts.push(found.index + found[0].length);
  return starts;
}

function positionsIn(text: string): (offset: number) => Position {
  const starts = startsOf(text);
  return (offset) => {
    let line = starts.length - 1;
    while (starts[line]! > offset) line--;
    return { line, character: offset - starts[line]! };
  };
}
