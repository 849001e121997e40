/** Splits a text into lines and line ends, losing nothing. */
import type { LineEnd } from "./tree.ts";

export interface Split {
  readonly lines: readonly string[];
  readonly ends: readonly LineEnd[];
}

/** A text that was split earlier, with its lines and line ends. */
export interface PreviousSplit {
  readonly text: string;
  readonly lines: readonly { readonly text: string }[];
  readonly ends: readonly LineEnd[];
}

/**
 * The lines of a text and the line end of each. The last line has the end "" (and may be empty), so
 * that all lines joined with their ends give the text back. Lines in the common prefix and the common
 * suffix of the text and `previous` are the same string objects as before.
 */
export function splitLines(text: string, previous?: PreviousSplit): Split {
  if (!previous) return splitAll(text);
  const { head, start } = headOf(previous, sharedStart(previous.text, text));
  const { tail, length } = tailOf(previous, sharedEnd(previous.text, text, start));
  const between = splitAll(text.slice(start, text.length - length));
  if (tail > 0) {
    between.lines.pop();
    between.ends.pop();
  }
  const from = previous.lines.length - tail;
  const lines = new Array<string>(head + between.lines.length + tail);
  for (let i = 0; i < head; i++) lines[i] = previous.lines[i]!.text;
  for (let i = 0; i < between.lines.length; i++) lines[head + i] = between.lines[i]!;
  for (let i = 0; i < tail; i++) lines[lines.length - tail + i] = previous.lines[from + i]!.text;
  const sameEnds =
    from - head === between.ends.length && between.ends.every((end, i) => end === previous.ends[head + i]);
  return {
    lines,
    ends: sameEnds ? previous.ends : previous.ends.slice(0, head).concat(between.ends, previous.ends.slice(from)),
  };
}

/** The number of whole lines in the first `shared` characters, and the offset at which the next line starts. */
function headOf({ lines, ends }: PreviousSplit, shared: number): { head: number; start: number } {
  let start = 0;
  let head = 0;
  for (; head < lines.length; head++) {
    const next = start + lines[head]!.text.length + ends[head]!.length;
    // The next character must be shared too: a line feed after a carriage return would change the line end.
    if (next >= shared) break;
    start = next;
  }
  return { head, start };
}

/** The number of whole lines in the last `shared` characters, and their total length. */
function tailOf({ lines, ends }: PreviousSplit, shared: number): { tail: number; length: number } {
  let length = 0;
  let tail = 0;
  for (; tail < lines.length; tail++) {
    const at = lines.length - 1 - tail;
    const next = length + lines[at]!.text.length + ends[at]!.length;
    // The character before the line must be shared too: it ends the line above.
    if (next >= shared) break;
    length = next;
  }
  return { tail, length };
}

/** The length of the common prefix of two texts. */
function sharedStart(a: string, b: string): number {
  return longestEqual(Math.min(a.length, b.length), (from, to) => a.slice(from, to) === b.slice(from, to));
}

/** The length of the common suffix of two texts, ignoring their first `skipped` characters. */
function sharedEnd(a: string, b: string, skipped: number): number {
  const most = Math.min(a.length, b.length) - skipped;
  return longestEqual(
    most,
    (from, to) => a.slice(a.length - to, a.length - from) === b.slice(b.length - to, b.length - from),
  );
}

/** The largest equal length, by bisection: comparing whole slices is faster than a loop over characters. */
function longestEqual(most: number, isEqual: (from: number, to: number) => boolean): number {
  let low = 0;
  let high = most;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (isEqual(low, middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function splitAll(text: string): { lines: string[]; ends: LineEnd[] } {
  const lines: string[] = [];
  const ends: LineEnd[] = [];
  let start = 0;
  const onlyLf = !text.includes("\r");
  for (;;) {
    let at = text.indexOf("\n", start);
    if (!onlyLf) {
      const cr = text.indexOf("\r", start);
      if (cr >= 0 && (at < 0 || cr < at)) at = cr;
    }
    if (at < 0) break;
    const end: LineEnd = text.charCodeAt(at) === 10 ? "\n" : text.charCodeAt(at + 1) === 10 ? "\r\n" : "\r";
    lines.push(text.slice(start, at));
    ends.push(end);
    start = at + end.length;
  }
  lines.push(text.slice(start));
  ends.push("");
  return { lines, ends };
}
