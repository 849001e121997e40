/**
 * A cursor over part of one line. Each method reads one token of the grammar and moves past it,
 * or returns null and does not move. Columns are those of the whole line.
 */
import type { Cols } from "./span.ts";
import type { Quoted, Word } from "./tree.ts";

export interface Scanner {
  /** The column of the next character that is not a space. */
  at(): number;
  done(): boolean;
  /** The column just after the last token that was read. */
  lastEnd(): number;
  name(): Word | null;
  control(): Word | null;
  channel(): (Cols & { readonly channel: number }) | null;
  /** `[ "-" ] digits [ "." digits ]`, as written, not followed by a letter that belongs to it. */
  digits(): Word | null;
  /** The symbol of a unit: letters with at most one `/`, or `%`, as in `V/cell`, `deg/s`. */
  symbol(): Word | null;
  quoted(): Quoted | null;
  /** One of the given marks. */
  mark(marks: string): Word | null;
  /** Text matched by a sticky pattern. */
  match(pattern: RegExp): Word | null;
  /** What comes next, for a message, without moving: a token if it is one, else everything up to a space. */
  rest(): Word;
  /** The text between two columns. */
  text(from: number, to: number): string;
  /** Moves to a column, back or forwards. */
  moveTo(to: number): void;
}

const NAME = /[a-z][a-z0-9-]*(?![A-Za-z0-9_-])/y;
const CONTROL = /[A-Z][A-Za-z0-9]*(?![A-Za-z0-9_-])/y;
const CHANNEL = /ch(\d+)(?![A-Za-z0-9_-])/y;
const DIGITS = /-?\d+(\.\d+)?/y;
const SYMBOL = /(%|[A-Za-z\u00b5\u03bc]+(\/[A-Za-z]+)?)(?![A-Za-z0-9_-])/y;
const RUN = /"(?:[^"\\]|\\.)*"?|[^\s,()]+|[,()]/y;

/** A scanner of `text` from column `start` up to column `end`. */
export function scanner(text: string, start: number, end: number): Scanner {
  const slice = end === text.length ? text : text.slice(0, end);
  let column = start;
  let last = start;

  const skip = (): number => {
    while (column < end && isSpace(slice.charCodeAt(column))) column++;
    return column;
  };
  const match = (pattern: RegExp): Word | null => {
    skip();
    pattern.lastIndex = column;
    const found = pattern.exec(slice);
    if (!found || found[0].length === 0) return null;
    const word = { text: found[0], start: column, end: column + found[0].length };
    column = word.end;
    last = column;
    return word;
  };

  return {
    at: skip,
    done: () => skip() >= end,
    lastEnd: () => last,
    name: () => match(NAME),
    control: () => match(CONTROL),
    channel() {
      const [before, beforeLast] = [column, last];
      const word = match(CHANNEL);
      if (!word) return null;
      const channel = Number(word.text.slice(2));
      if (Number.isSafeInteger(channel)) return { start: word.start, end: word.end, channel };
      // Of so many digits some would be lost.
      column = before;
      last = beforeLast;
      return null;
    },
    digits: () => match(DIGITS),
    symbol: () => match(SYMBOL),
    quoted() {
      skip();
      const found = readQuoted(slice, column, end);
      if (!found) return null;
      column = found.end;
      last = column;
      return found;
    },
    mark(marks) {
      skip();
      const mark = column < end ? slice.charAt(column) : "";
      if (mark === "" || !marks.includes(mark)) return null;
      column++;
      last = column;
      return { text: mark, start: column - 1, end: column };
    },
    match,
    rest() {
      const from = skip();
      const word = match(RUN);
      column = from;
      return word ?? { text: slice.slice(from, end), start: from, end };
    },
    text: (from, to) => slice.slice(from, to),
    moveTo(to) {
      column = to;
      last = to;
    },
  };
}

/** The complete string literal at `start`: only `\"` and `\\` are escapes. Null if there is none. */
function readQuoted(text: string, start: number, end: number): Quoted | null {
  if (text.charCodeAt(start) !== QUOTE) return null;
  let content = "";
  let from = start + 1;
  for (let i = start + 1; i < end; i++) {
    const code = text.charCodeAt(i);
    if (code === QUOTE) return { text: content + text.slice(from, i), start, end: i + 1 };
    if (code !== BACKSLASH) continue;
    const next = text.charCodeAt(i + 1);
    if (i + 1 >= end || (next !== QUOTE && next !== BACKSLASH)) return null;
    content += text.slice(from, i);
    from = i + 1;
    i++;
  }
  return null;
}

/** The column of the `#` that starts the comment of a line, or -1: one inside a string starts none. */
export function commentStart(text: string): number {
  let at = text.indexOf("#");
  if (at < 0) return -1;
  let quote = text.indexOf('"');
  if (quote < 0 || quote > at) return at;
  for (at = quote; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === HASH) return at;
    if (code !== QUOTE) continue;
    for (quote = at + 1; quote < text.length && text.charCodeAt(quote) !== QUOTE; quote++) {
      if (text.charCodeAt(quote) === BACKSLASH) quote++;
    }
    at = quote;
  }
  return -1;
}

/** The same for a line of a dialect, where text may stand in single quotes too: there a backslash is a backslash. */
export function factCommentStart(text: string): number {
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === HASH) return at;
    if (code === APOSTROPHE) {
      const end = text.indexOf("'", at + 1);
      if (end < 0) return -1;
      at = end;
    } else if (code === QUOTE) {
      for (at++; at < text.length && text.charCodeAt(at) !== QUOTE; at++) if (text.charCodeAt(at) === BACKSLASH) at++;
    }
  }
  return -1;
}

/** True for the character code of a space or a tab. */
export function isSpace(code: number): boolean {
  return code === 32 || code === 9;
}

/** The text as a string literal of the language. A literal cannot contain line ends: they become spaces. */
export function quote(text: string): string {
  return `"${text.replace(/[\r\n]+/g, " ").replace(/["\\]/g, "\\$&")}"`;
}

const QUOTE = 34;
const HASH = 35;
const APOSTROPHE = 39;
const BACKSLASH = 92;
