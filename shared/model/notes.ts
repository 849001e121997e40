/** The comments that belong to a line, and the findings that they allow. */
import type { Span } from "../syntax/span.ts";
import type { Tree } from "../syntax/tree.ts";
import type { Allowance, Note } from "./script.ts";

const ALLOW = /^\s*allow\s+([a-z][a-z-]*)\s*(?::\s*(.*?)\s*)?$/;

export const NO_NOTE: Note = { text: "", lines: [], allowances: [] };

/**
 * The note of a line: the whole-line comments directly above it and the comment at its end.
 * Commented-out entries are not part of it; `isEntry` recognises them.
 */
export function noteOfLine(tree: Tree, line: number, isEntry: (comment: string) => boolean): Note {
  const lines: number[] = [];
  for (let i = line - 1; i >= 0; i--) {
    const { node } = tree.lines[i]!;
    if (node.kind !== "comment") break;
    if (!isEntry(node.text)) lines.unshift(i);
  }
  const texts = lines.map((each) => commentText(tree, each));
  const own = tree.lines[line]?.comment ? commentText(tree, line) : null;
  if (own !== null) texts.push(own);
  if (texts.length === 0) return NO_NOTE;
  const allowances = [...lines, ...(own === null ? [] : [line])].flatMap((each) => allowanceOf(tree, each) ?? []);
  return {
    text: texts
      .filter((text) => !ALLOW.test(text))
      .map((text) => text.trim())
      .join("\n")
      .trim(),
    lines,
    allowances,
  };
}

/** The `allow` in the comment of a line; null if there is none. */
export function allowanceOf(tree: Tree, line: number): Allowance | null {
  const comment = tree.lines[line]?.comment;
  if (!comment) return null;
  const text = commentText(tree, line);
  if (!text.includes("allow")) return null;
  const found = ALLOW.exec(text);
  if (!found) return null;
  const span: Span = { line, start: comment.start, end: comment.end };
  return { code: found[1]!, reason: found[2] ?? "", span };
}

function commentText(tree: Tree, line: number): string {
  const { text, comment } = tree.lines[line]!;
  return text.slice(comment!.start + 1);
}
