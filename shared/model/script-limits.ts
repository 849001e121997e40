/**
 * How much of a text is taken for a script: far more than any person writes, and little enough that
 * whoever waits for an answer gets it soon. What is beyond is not read, and said to be too much.
 */
import type { FileAnswer } from "./files.ts";

/** The largest file that is read, in bytes; of a text, in characters. */
export const MOST_BYTES = 1024 * 1024;
export const MOST_LINES = 12_000;
/** In characters. */
export const MOST_LINE = 20_000;

/** What stands for a file of so many bytes that it is not read. */
export function tooLarge(bytes: number): FileAnswer {
  const size = (bytes / MOST_BYTES).toFixed(1);
  return unreadable(`it is ${size} MB, and a script is read up to 1 MB`);
}

/** An answer as that of a script: a text of too many lines, or of one that is too long, is unreadable. */
export function scriptAnswer(answer: FileAnswer): FileAnswer {
  if (answer.kind !== "text") return answer;
  const { text } = answer;
  if (text.length > MOST_BYTES) return tooLarge(text.length);
  // In the usual script no line can be too long, and there cannot be too many.
  if (text.length <= Math.min(MOST_LINES, MOST_LINE)) return answer;
  const { lines, longest } = measured(text);
  if (lines > MOST_LINES) return unreadable(`it has ${lines} lines, and a script is read up to ${MOST_LINES}`);
  if (longest.length <= MOST_LINE) return answer;
  return unreadable(`line ${longest.line} has ${longest.length} characters, and a line is read up to ${MOST_LINE}`);
}

function unreadable(why: string): FileAnswer {
  return { kind: "unreadable", why: `${why}: is it a script at all?` };
}

/**
 * How many lines a text has, and which is the longest, counted from 1. Lines end with LF, CRLF or CR.
 * It is called with every key, so it allocates nothing for each line.
 */
function measured(text: string) {
  let [lines, longestLine, longestLength] = [0, 1, 0];
  const hasCr = text.includes("\r");
  let [lf, cr] = [-1, hasCr ? -1 : text.length];
  for (let start = 0; start <= text.length; ) {
    if (lf < start) lf = indexOrEnd(text, "\n", start);
    if (cr < start) cr = indexOrEnd(text, "\r", start);
    const end = Math.min(lf, cr);
    lines++;
    if (end - start > longestLength) {
      longestLine = lines;
      longestLength = end - start;
    }
    start = end + (cr === end && lf === end + 1 && lf < text.length ? 2 : 1);
  }
  return { lines, longest: { line: longestLine, length: longestLength } };
}

function indexOrEnd(text: string, sought: string, start: number): number {
  const found = text.indexOf(sought, start);
  return found < 0 ? text.length : found;
}
