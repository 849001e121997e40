/** Canonical layout of scripts and dialects: as text, or as the edits that lead there. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { mayHold } from "../../model/may-hold.ts";
import { readEntry } from "../../model/read-entry.ts";
import type { Entry, Script } from "../../model/script.ts";
import { print } from "../../syntax/parse.ts";
import type { Position, Range, TextEdit } from "../../syntax/span.ts";
import type { Tree } from "../../syntax/tree.ts";
import { type Layout, layOut, lineEndOf, type Reading } from "./lay-out.ts";
import { layoutEdits } from "./layout-edits.ts";
import { editsBehind } from "./typed-line.ts";

/**
 * The whole text of a tree in canonical layout. Laid out again it is the same; what it means, each comment and each text
 * in quotes stay. A text that must not be rewritten (`whyNotFormatted`) is given back as it is.
 */
export function formatted(tree: Tree, catalogue: Catalogue): string {
  if (whyNotFormatted(tree)) return print(tree);
  return printLayout(tree, layOut(tree, readingOf(tree, catalogue)));
}

/** The same of a script, whose entries are read already. */
export function formattedScript(script: Script): string {
  const { tree } = script;
  return whyNotFormatted(tree) ? print(tree) : printLayout(tree, layOut(tree, readingIn(script)));
}

/** The edits that lay a script out: all of it, or the lines of a range, as they are laid out with all others. */
export function formatEdits(script: Script, range: Range | null): TextEdit[] {
  const { tree } = script;
  if (whyNotFormatted(tree)) return [];
  return layoutEdits(tree, layOut(tree, readingIn(script)), linesIn(range));
}

/** Why the text of a tree is never laid out, in words that follow its name and a colon; null where it may be. */
export function whyNotFormatted(tree: Tree): string | null {
  if (tree.newer)
    return "it is written in a newer edition of the language than this tool reads, so it is not rewritten: update the tool";
  if (tree.lines.some(({ text }) => text.includes("\0")))
    return "it holds bytes that no text has, so it is not rewritten: it is no script";
  return null;
}

/**
 * The edits that a line end brings at a position: they lay out the line that was left, in the columns of its run. The
 * lines around it move with it where they stood in columns; a run that is laid out in another way is left to its writer,
 * and so are comments, kept text and lines with a fault.
 */
export function typedEdits(script: Script, at: Position): TextEdit[] {
  return whyNotFormatted(script.tree) ? [] : editsBehind(script.tree, readingIn(script), at);
}

/** Whether the lines of a tree end in several ways, and the name of the line end that it gets. */
export function lineEndsOf(tree: Tree): { readonly mixed: boolean; readonly name: "LF" | "CRLF" | "CR" } {
  const mixed = new Set(tree.ends.filter((end) => end !== "")).size > 1;
  const end = lineEndOf(tree);
  return { mixed, name: end === "\r\n" ? "CRLF" : end === "\r" ? "CR" : "LF" };
}

function printLayout(tree: Tree, { texts, blankBefore, end, isKept }: Layout): string {
  const last = tree.lines.length - 1;
  let text = tree.bom ? "\uFEFF" : "";
  for (let line = 0; line <= last; line++) {
    const laid = texts[line]!;
    if (laid === null) continue;
    if (blankBefore[line]) text += end;
    text += laid + (isKept(line) ? tree.ends[line]! : line < last || laid !== "" ? end : "");
  }
  return text;
}

/** Lines that a range touches; one that ends where a line begins does not touch that line. */
function linesIn(range: Range | null): (line: number) => boolean {
  if (!range) return () => true;
  const { start, end } = range;
  const last = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
  return (line) => line >= start.line && line <= last;
}

/** Entries as the script has read them. */
function readingIn({ tree, entries }: Script): Reading {
  const byLine = new Array<Entry | undefined>(tree.lines.length);
  for (const entry of entries) byLine[entry.line] = entry;
  return (line) => {
    const entry = byLine[line];
    // A name that is not known has no pieces.
    return entry?.pieces.length === 0 ? null : entry;
  };
}

/** Entries as they are read from the tree alone. */
function readingOf(tree: Tree, catalogue: Catalogue): Reading {
  const specs = tree.sections.map(({ name }) => catalogue.section(name));
  const specOf = new Array<(typeof specs)[number]>(tree.lines.length);
  for (const [i, { entries }] of tree.sections.entries()) {
    const spec = specs[i];
    if (spec && mayHold(spec, tree.kind)) for (const line of entries) specOf[line] = spec;
  }
  return (line) => {
    const { node, text } = tree.lines[line]!;
    const spec = specOf[line];
    if (!spec || node.kind !== "entry") return undefined;
    const read = readEntry(text, node.head, node.value, spec, catalogue);
    return read.pieces.length === 0 ? null : read;
  };
}
