/** Columns made of others. */
import type { Cols } from "../../syntax/span.ts";

/** From the first of several columns to the last. */
export function joined(all: readonly Cols[]): Cols[] {
  return all.length > 1 ? [{ start: all[0]!.start, end: all.at(-1)!.end }] : [];
}

/** The same without the blanks at both ends. */
export function trimmed(text: string, { start, end }: Cols): Cols {
  const inside = text.slice(start, end);
  return { start: start + (inside.length - inside.trimStart().length), end: start + inside.trimEnd().length };
}
