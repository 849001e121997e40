/** Splitting a text into lines and line ends, byte for byte. */
import type { LineEnd } from "./tree.ts";

export interface Split {
  readonly lines: string[];
  readonly ends: LineEnd[];
}

/**
 * The lines of a text and what ends each. The last has the end "" (and may be empty), so that
 * every line joined with its end gives the text back.
 */
export function splitLines(text: string): Split {
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
