/** The comments that belong to a line, and the findings that they allow. */
import { spanAt } from "../syntax/span.ts";
import type { Tree } from "../syntax/tree.ts";
import type { Allowance, Note, Script } from "./script.ts";

/** With a reason any word may be the code; without one, “allow time” is a sentence, and a code has a hyphen. */
const ALLOW = /^(\s*allow\s+)(?:([A-Za-z][A-Za-z0-9-]*)\s*:\s*(.*?)|([A-Za-z][A-Za-z0-9]*-[A-Za-z0-9-]+|syntax))\s*$/;

export const NO_NOTE: Note = { text: "", lines: [] };
const NO_ALLOWANCES: readonly Allowance[] = [];

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
  return {
    text: texts
      .filter((text) => !ALLOW.test(text))
      .map((text) => text.trim())
      .join("\n")
      .trim(),
    lines,
  };
}

/** Every `allow` in the comments of a file, in order of line; `sections` are those of the tree, in its order. */
export function allowancesIn(tree: Tree, sections: Script["sections"]): readonly Allowance[] {
  let found: Allowance[] | null = null;
  for (let line = 0; line < tree.lines.length; line++) {
    if (tree.lines[line]!.comment === null) continue;
    const allow = allowIn(tree, line);
    if (!allow) continue;
    found ??= [];
    found.push({ ...allow, ...heldBy(tree, line, sections) });
  }
  return found ?? NO_ALLOWANCES;
}

/** Whether the comment of a line is an `allow`. */
export function isAllow(tree: Tree, line: number): boolean {
  return allowIn(tree, line) !== null;
}

function allowIn(tree: Tree, line: number): Pick<Allowance, "code" | "reason" | "span" | "codeSpan"> | null {
  const comment = tree.lines[line]?.comment;
  if (!comment) return null;
  const text = commentText(tree, line);
  if (!text.includes("allow")) return null;
  const found = ALLOW.exec(text);
  if (!found) return null;
  const [, before, withReason, reason = "", alone] = found;
  const code = withReason ?? alone!;
  const start = comment.start + 1 + before!.length;
  return { code, reason, span: spanAt(line, comment), codeSpan: { line, start, end: start + code.length } };
}

/** What the note holds to which the comment of a line belongs. */
function heldBy(tree: Tree, line: number, sections: Script["sections"]): Pick<Allowance, "holds" | "line" | "section"> {
  let below = line;
  while (tree.lines[below]?.node.kind === "comment") below++;
  const kind = tree.lines[below]?.node.kind;
  if (kind === undefined || kind === "blank") return { holds: "nothing", line: below, section: null };
  if (below === tree.header) return { holds: "file", line: below, section: null };
  const section = sections.find((each) => each.line === below)?.section;
  if (section !== undefined) return { holds: "section", line: below, section };
  return { holds: "line", line: below, section: null };
}

function commentText(tree: Tree, line: number): string {
  const { text, comment } = tree.lines[line]!;
  return text.slice(comment!.start + 1);
}
