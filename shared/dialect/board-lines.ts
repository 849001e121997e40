/** A board's text as lines. */
import { splitLines } from "../syntax/split-lines.ts";

/** The lines without a byte-order mark, and without the empty one behind the last line end. */
export function boardLines(text: string): readonly string[] {
  const { lines } = splitLines(text.startsWith("\uFEFF") ? text.slice(1) : text);
  return lines.length > 0 && lines.at(-1) === "" ? lines.slice(0, -1) : lines;
}
