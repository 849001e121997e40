/** A text that is edited again and again, and in the end told as edits of what it was. */
import { lineEnd } from "../../syntax/line-end.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Tree } from "../../syntax/tree.ts";

/** The lines of a text, each with the line of the first text that it comes from. */
export interface EditedLines {
  readonly texts: readonly string[];
  readonly origins: readonly number[];
}

/** The lines of a script as they are. */
export function linesOf({ lines }: Tree): EditedLines {
  return { texts: lines.map(({ text }) => text), origins: lines.map((_, i) => i) };
}

/** The lines with edits made that do not overlap. */
export function withEdits(before: EditedLines, edits: readonly TextEdit[]): EditedLines {
  const texts = [...before.texts];
  const origins = [...before.origins];
  // From the end, so that places further up stay as they are.
  for (const { range, text } of [...edits].sort((a, b) => compare(b, a))) {
    const { start, end } = range;
    const [first, last] = [texts[start.line] ?? "", texts[end.line] ?? ""];
    const count = Math.min(end.line, texts.length - 1) - start.line + 1;
    const made = (first.slice(0, start.character) + text + last.slice(end.character)).split(/\r\n|\r|\n/);
    // Whole lines that are taken out leave what stands behind them where it was.
    const isWhole = start.character === 0 && end.character === 0 && text === "" && end.line > start.line;
    const origin = origins[isWhole ? end.line : start.line] ?? before.origins.length;
    texts.splice(start.line, count, ...made);
    origins.splice(start.line, count, ...made.map(() => origin));
  }
  return { texts, origins };
}

function compare(a: TextEdit, b: TextEdit): number {
  return a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character;
}

/** What differs from a script, line by line, as edits of it; each changes no more of its line than it must. */
export function editsFrom(tree: Tree, { texts, origins }: EditedLines): TextEdit[] {
  const made = new Map<number, string[]>();
  for (const [i, origin] of origins.entries()) made.set(origin, [...(made.get(origin) ?? []), texts[i]!]);
  return tree.lines.flatMap(({ text }, line): TextEdit[] => {
    const now = made.get(line);
    if (now === undefined)
      return [{ range: { start: { line, character: 0 }, end: { line: line + 1, character: 0 } }, text: "" }];
    const joined = now.join(lineEnd(tree, line));
    if (joined === text) return [];
    const shorter = Math.min(text.length, joined.length);
    let head = 0;
    while (head < shorter && text[head] === joined[head]) head++;
    let tail = 0;
    while (tail < shorter - head && text.at(-1 - tail) === joined.at(-1 - tail)) tail++;
    const range = { start: { line, character: head }, end: { line, character: text.length - tail } };
    return [{ range, text: joined.slice(head, joined.length - tail) }];
  });
}
