/** What all facts of a dialect share: a scanner, board text in either kind of quotes, and faults. */
import type { Fault } from "../../syntax/read-context.ts";
import { type Scanner, scanner } from "../../syntax/scanner.ts";
import type { Cols } from "../../syntax/span.ts";

/** Board text as it stands in a dialect, without its quotes. */
export interface BoardText extends Cols {
  readonly text: string;
  /** The column in the dialect's line of a character of `text`; of its length the closing quote's. */
  columnOf(at: number): number;
}

export interface FactScanner extends Scanner {
  /** Text in `"…"` with the language's escapes, or in `'…'` with none; null if there is none that is closed. */
  boardText(): BoardText | null;
  /** The same, or a bare word without blank, comma, quote or `#`. */
  boardWord(): BoardText | null;
  /** All up to a comma that is outside of quotes, or to the end, without blanks at its ends. */
  upToComma(): BoardText;
}

const SINGLE = /'[^']*'/y;
const BARE = /[^\s,"'#]+/y;

/** A scanner of the columns of a fact. */
export function factScanner(text: string, { start, end }: Cols): FactScanner {
  const scan = scanner(text, start, end);
  const boardText = (): BoardText | null => {
    const double = scan.quoted();
    if (double) return withEscapes(text, double.start, double.end);
    const single = scan.match(SINGLE);
    return single && plain(single.text.slice(1, -1), single.start, single.end, 1);
  };
  return {
    ...scan,
    boardText,
    boardWord() {
      const quoted = boardText();
      if (quoted) return quoted;
      const bare = scan.match(BARE);
      return bare && plain(bare.text, bare.start, bare.end, 0);
    },
    upToComma() {
      const from = scan.at();
      let to = from;
      while (to < end && text[to] !== ",")
        to = text[to] === '"' || text[to] === "'" ? afterQuotes(text, to, end) : to + 1;
      scan.moveTo(to);
      const found = text.slice(from, to).trimEnd();
      return plain(found, from, from + found.length, 0);
    },
  };
}

/** The column after the quotes that open at `at`; after the first of them alone where they do not close. */
export function afterQuotes(text: string, at: number, end: number): number {
  const mark = text[at];
  for (let to = at + 1; to < end; to++) {
    if (text[to] === mark) return to + 1;
    if (mark === '"' && text[to] === "\\") to++;
  }
  return at + 1;
}

function plain(text: string, start: number, end: number, before: number): BoardText {
  return { text, start, end, columnOf: (at) => start + before + at };
}

function withEscapes(line: string, start: number, end: number): BoardText {
  const columns: number[] = [];
  let text = "";
  for (let at = start + 1; at < end - 1; at++) {
    columns.push(at);
    if (line[at] === "\\") at++;
    text += line[at];
  }
  columns.push(end - 1);
  return { text, start, end, columnOf: (at) => columns[Math.min(at, columns.length - 1)]! };
}

/** A fault of a fact, with the code that dialects have for it. */
export function unfit(at: Cols, message: string): Fault {
  return { kind: "fault", code: "syntax", start: at.start, end: at.end, message };
}

/** What comes next, for the end of a message. */
export function next(scan: Scanner): string {
  return scan.done() ? "the line ends here" : `“${scan.rest().text}” stands here`;
}

/** The columns of what comes next; at the end of a fact those of its last character. */
export function nextAt(scan: Scanner): Cols {
  if (!scan.done()) return scan.rest();
  const end = scan.lastEnd();
  return { start: Math.max(0, end - 1), end };
}
