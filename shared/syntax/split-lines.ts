/** Splitting a text into lines and line ends, byte for byte. */
import type { LineEnd } from "./tree.ts";

export interface Split {
  readonly lines: readonly string[];
  readonly ends: readonly LineEnd[];
}

/** A text that was split before, and what came of it. */
export interface PreviousSplit {
  readonly text: string;
  readonly lines: readonly { readonly text: string }[];
  readonly ends: readonly LineEnd[];
}

/**
 * The lines of a text and what ends each. The last has the end "" (and may be empty), so that
 * every line joined with its end gives the text back. Lines that the text has in common with the
 * one `before` it, from its begin on and up to its end, are the same strings as they were.
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

/** How many whole lines stand in so many characters from the begin, and where the next one starts. */
function headOf({ lines, ends }: PreviousSplit, shared: number): { head: number; start: number } {
  let start = 0;
  let head = 0;
  for (; head < lines.length; head++) {
    const next = start + lines[head]!.text.length + ends[head]!.length;
    // The character after it belongs to it too: a line feed makes another end of a carriage return.
    if (next >= shared) break;
    start = next;
  }
  return { head, start };
}

/** How many whole lines stand in so many characters up to the end, and their length. */
function tailOf({ lines, ends }: PreviousSplit, shared: number): { tail: number; length: number } {
  let length = 0;
  let tail = 0;
  for (; tail < lines.length; tail++) {
    const at = lines.length - 1 - tail;
    const next = length + lines[at]!.text.length + ends[at]!.length;
    // The character before it must end a line.
    if (next >= shared) break;
    length = next;
  }
  return { tail, length };
}

/** The length of what two texts have in common from their begin. */
function sharedStart(a: string, b: string): number {
  return longestEqual(Math.min(a.length, b.length), (from, to) => a.slice(from, to) === b.slice(from, to));
}

/** The length of what two texts have in common up to their end, without the first `taken` characters. */
function sharedEnd(a: string, b: string, skipped: number): number {
  const most = Math.min(a.length, b.length) - skipped;
  return longestEqual(
    most,
    (from, to) => a.slice(a.length - to, a.length - from) === b.slice(b.length - to, b.length - from),
  );
}

/** The largest length up to which all is equal, by halving: long strings are compared faster than counted through. */
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
