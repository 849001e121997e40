/** A layout as edits: a line that stays is in none of them, and of the others only the blanks that differ. */
import { isSpace } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Tree } from "../../syntax/tree.ts";
import type { Layout } from "./lay-out.ts";

/** The edits of all lines for which `counts` is true, in order and without overlaps. */
export function layoutEdits(tree: Tree, layout: Layout, counts: (line: number) => boolean): TextEdit[] {
  const { texts, blankBefore, end, isKept } = layout;
  const edits: TextEdit[] = [];
  const last = tree.lines.length - 1;
  for (let line = 0; line <= last; line++) {
    if (!counts(line)) continue;
    const { text } = tree.lines[line]!;
    const laid = texts[line]!;
    if (laid === null) {
      const first = line;
      while (texts[line + 1] === null && counts(line + 1)) line++;
      edits.push(edit({ line: first, character: 0 }, { line: line + 1, character: 0 }, ""));
      continue;
    }
    const own = laid === text ? [] : lineEdits(line, text, laid);
    if (blankBefore[line]) own.unshift(edit({ line, character: 0 }, { line, character: 0 }, end));
    edits.push(...joined(own));
    const is = tree.ends[line]!;
    const due = isKept(line) ? is : line < last ? end : laid === "" ? "" : end;
    if (is === due) continue;
    const at = { line, character: text.length };
    edits.push(edit(at, line < last ? { line: line + 1, character: 0 } : at, due));
  }
  return edits;
}

/** An insertion directly before a replacement is one edit with it, so that their order is not left to the client. */
function joined(edits: readonly TextEdit[]): readonly TextEdit[] {
  const [first, second, ...rest] = edits;
  if (!first || !second || first.range.end.character !== second.range.start.character) return edits;
  return [edit(first.range.start, second.range.end, first.text + second.text), ...rest];
}

/** The edits within one line, each of a stretch of blanks, or of a letter that is spelled in another way. */
export function lineEdits(line: number, from: string, to: string): TextEdit[] {
  const edits: TextEdit[] = [];
  let [i, j] = [0, 0];
  while (i < from.length || j < to.length) {
    if (i < from.length && from.charCodeAt(i) === to.charCodeAt(j)) {
      i++;
      j++;
      continue;
    }
    let [a, b] = [i, j];
    while (a < from.length && isSpace(from.charCodeAt(a))) a++;
    while (b < to.length && isSpace(to.charCodeAt(b))) b++;
    if (a === i && b === j) [a, b] = [Math.min(a + 1, from.length), Math.min(b + 1, to.length)];
    edits.push(edit({ line, character: i }, { line, character: a }, to.slice(j, b)));
    [i, j] = [a, b];
  }
  return edits;
}

function edit(start: TextEdit["range"]["start"], end: TextEdit["range"]["end"], text: string): TextEdit {
  return { range: { start, end }, text };
}
