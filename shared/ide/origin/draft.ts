/** A script while lines of it are taken out, rewritten and added; all others stay as they are, byte for byte. */
import type { Script } from "../../model/script.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import type { TextEdit } from "../../syntax/span.ts";

export interface Draft {
  readonly script: Script;
  remove(lines: Iterable<number>): void;
  isRemoved(line: number): boolean;
  rewrite(line: number, text: string): void;
  /** The text of a line as it is by now. */
  textAt(line: number): string;
  /** Adds lines below one that may itself be removed, or at the very top for -1; later calls write below earlier ones. */
  insertAfter(line: number, texts: readonly string[]): void;
  /** The edits of the script as it was: none overlaps another. */
  edits(): TextEdit[];
}

/** A draft of a script in which nothing is changed yet. */
export function draftOf(script: Script): Draft {
  const { tree } = script;
  const removed = new Set<number>();
  const rewritten = new Map<number, string>();
  const added = new Map<number, string[]>();
  return {
    script,
    remove: (lines) => {
      for (const line of lines) removed.add(line);
    },
    isRemoved: (line) => removed.has(line),
    rewrite: (line, text) => void rewritten.set(line, text),
    textAt: (line) => rewritten.get(line) ?? tree.lines[line]!.text,
    insertAfter(line, texts) {
      if (texts.length > 0) added.set(line, [...(added.get(line) ?? []), ...texts]);
    },
    edits() {
      const edits: TextEdit[] = [];
      for (const [line, text] of rewritten) {
        if (!removed.has(line)) edits.push(...rewriting(line, tree.lines[line]!.text, text));
      }
      const count = tree.lines.length;
      let kept = -1;
      let texts = [...(added.get(-1) ?? [])];
      for (let line = 0; line <= count; line++) {
        if (line < count && removed.has(line)) {
          texts.push(...(added.get(line) ?? []));
          continue;
        }
        if (texts.length > 0 || line > kept + 1) edits.push(replaced(script, kept, line, texts));
        kept = line;
        texts = [...(added.get(line) ?? [])];
      }
      return edits.sort(
        (a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
      );
    },
  };
}

/** The edit that puts lines between two that stay: -1 stands for the beginning, the number of lines for the end. */
function replaced({ tree }: Script, before: number, behind: number, texts: readonly string[]): TextEdit {
  const eol = lineEnd(tree, Math.max(0, before));
  const start = { line: before + 1, character: 0 };
  if (behind < tree.lines.length)
    return { range: { start, end: { line: behind, character: 0 } }, text: texts.map((text) => text + eol).join("") };
  const last = tree.lines.length - 1;
  const end = { line: last, character: tree.lines[last]!.text.length };
  if (before < 0) return { range: { start, end }, text: texts.join(eol) };
  // The last line has no end of its own: what follows begins with the end of the line before it.
  const from = { line: before, character: tree.lines[before]!.text.length };
  return { range: { start: from, end }, text: texts.map((text) => eol + text).join("") };
}

/** What differs between two texts of a line, as one replacement. */
function rewriting(line: number, before: string, after: string): TextEdit[] {
  if (before === after) return [];
  let same = 0;
  while (same < before.length && same < after.length && before[same] === after[same]) same++;
  let tail = 0;
  while (tail < before.length - same && tail < after.length - same && before.at(-1 - tail) === after.at(-1 - tail))
    tail++;
  const range = { start: { line, character: same }, end: { line, character: before.length - tail } };
  return [{ range, text: after.slice(same, after.length - tail) }];
}

/** The text of a script after edits of it; a byte-order mark, which no place counts, stays. */
export function textAfter({ tree }: Script, edits: readonly TextEdit[]): string {
  const starts: number[] = [];
  let text = "";
  tree.lines.forEach((line, i) => {
    starts.push(text.length);
    text += line.text + tree.ends[i]!;
  });
  const offset = ({ line, character }: TextEdit["range"]["start"]) => starts[line]! + character;
  const parts = [tree.bom ? "\uFEFF" : ""];
  let reached = 0;
  for (const { range, text: written } of edits) {
    parts.push(text.slice(reached, offset(range.start)), written);
    reached = offset(range.end);
  }
  return parts.join("") + text.slice(reached);
}
