/**
 * The canonical layout of a tree, line by line. It changes blanks, blank lines and line ends, and of no statement what it
 * means: a line that does not parse keeps its bytes behind its indent, and an unresolved merge keeps all of them.
 */

import { columnAt, layOutRun, type Row } from "../../model/rows.ts";
import { cellsOf, type ReadValue } from "../../model/value-cells.ts";
import { conflictsIn } from "../../syntax/conflict-markers.ts";
import { isSpace } from "../../syntax/scanner.ts";
import type { Line, LineEnd, LineNode, Tree } from "../../syntax/tree.ts";
import { blankLines } from "./blank-lines.ts";
import { factParts } from "./fact-row.ts";

export interface Layout {
  /** Each line as it is laid out; null where it is taken out. */
  readonly texts: readonly (string | null)[];
  /** 1 for a line before which a blank one is put. */
  readonly blankBefore: Uint8Array;
  /** The line end of all lines that are not kept. */
  readonly end: LineEnd;
  /** Whether a line belongs to an unresolved merge: it stays as it is, with its line end. */
  isKept(line: number): boolean;
}

/** How the value of an entry was read: null where its name is not known, undefined where its section is not. */
export type Reading = (line: number) => ReadValue | null | undefined;

const INDENT = "  ";

/** A line of a dialect with more characters is a fault, so none is made longer than that. */
const LONGEST_FACT = 4096;

/** A stretch of lines of which one is being typed: it ends no run though it is blank, and nothing becomes of it. */
export interface Typing {
  readonly first: number;
  readonly last: number;
  readonly at: number;
  /** A line that takes no part in the columns of the others; null for none. */
  readonly without: number | null;
}

/** The layout of the lines of a stretch, by their numbers; blank lines and line ends stay. */
export function layOutStretch(tree: Tree, reading: Reading, typing: Typing): ReadonlyMap<number, string> {
  const sectionOf = sectionsByLine(tree);
  const texts = new Map<number, string>();
  const run: Row[] = [];
  for (let i = typing.first; i <= typing.last; i++) {
    const kind = tree.lines[i]!.node.kind;
    if (i === typing.at || i === typing.without || kind === "comment" || kind === "blank") continue;
    const laid = laidLine(tree, i, sectionOf, reading);
    if (typeof laid === "string") texts.set(i, laid);
    else run.push(laid);
  }
  for (const { line, text } of layOutRun(run)) texts.set(line, text);
  return texts;
}

/** The layout of a tree. */
export function layOut(tree: Tree, reading: Reading): Layout {
  const kept = keptLines(tree);
  const isKept = kept ? (line: number) => kept[line] === 1 : () => false;
  const { removed, before } = blankLines(tree, isKept);
  const texts = new Array<string | null>(tree.lines.length);
  const sectionOf = sectionsByLine(tree);
  const indentAt = commentIndents(tree, isKept);
  const startsSection = new Set(tree.sections.map(({ line }) => line));
  let run: Row[] = [];
  const endRun = () => {
    for (const { line, text } of layOutRun(run)) if (!isKept(line)) texts[line] = text;
    run = [];
  };
  for (let i = 0; i < tree.lines.length; i++) {
    const line = tree.lines[i]!;
    texts[i] = isKept(i) ? line.text : removed[i] ? null : "";
    const { kind } = line.node;
    if (before[i] || kind === "blank" || startsSection.has(i)) endRun();
    // The lines of an unresolved merge stay, and so does the column that they share with those around them.
    if (kind === "conflict" || kind === "blank" || (isKept(i) && kind !== "entry")) continue;
    if (kind === "comment") texts[i] = indentAt(i) + line.text.slice(line.comment!.start, endOf(line));
    else {
      const laid = laidLine(tree, i, sectionOf, reading);
      if (typeof laid !== "string") run.push(isKept(i) ? { ...laid, comment: null } : laid);
      else if (!isKept(i)) texts[i] = laid;
    }
  }
  endRun();
  return { texts, blankBefore: before, end: lineEndOf(tree), isKept };
}

/** 1 for the lines of unresolved merges; null without one. */
export function keptLines({ lines }: Tree): Uint8Array | null {
  if (!lines.some(({ node }) => node.kind === "conflict")) return null;
  const kept = new Uint8Array(lines.length);
  for (const { first, last } of conflictsIn(lines.map(({ text }) => text))) kept.fill(1, first, last + 1);
  return kept;
}

/** The name of the section to which each line of one belongs; undefined for a line outside of all. */
function sectionsByLine({ sections, lines }: Tree): readonly (string | undefined)[] {
  const names = new Array<string | undefined>(lines.length);
  for (const { name, entries } of sections) for (const line of entries) names[line] = name;
  return names;
}

/** The line end that most lines outside of unresolved merges have; of two as frequent ones the first. */
export function lineEndOf(tree: Tree): LineEnd {
  const kept = keptLines(tree);
  const counts = new Map<LineEnd, number>();
  for (const [line, end] of tree.ends.entries())
    if (end !== "" && !kept?.[line]) counts.set(end, (counts.get(end) ?? 0) + 1);
  let most: LineEnd | null = null;
  for (const [end, count] of counts) if (most === null || count > counts.get(most)!) most = end;
  return most ?? tree.ends.find((end) => end !== "") ?? "\n";
}

/**
 * The indent of each comment: it stands where the statement stands whose note it is. One by itself belongs to the entries
 * below it, if some come next; else it stays at the margin if it stood there.
 */
function commentIndents(tree: Tree, isKept: (line: number) => boolean): (line: number) => string {
  const { lines, sections } = tree;
  const starts = new Set(sections.map(({ line }) => line));
  const [first] = sections;
  // Of each line the next one that is no comment, and the next that is no blank line either.
  const noted = new Int32Array(lines.length + 1).fill(lines.length);
  const beyond = new Int32Array(lines.length + 1).fill(lines.length);
  for (let i = lines.length - 1; i >= 0; i--) {
    const kind = isKept(i) ? "conflict" : lines[i]!.node.kind;
    noted[i] = kind === "comment" ? noted[i + 1]! : i;
    beyond[i] = kind === "comment" || kind === "blank" ? beyond[i + 1]! : i;
  }
  const isBody = (line: number) => {
    const { node, text } = lines[line]!;
    return BODY.has(node.kind) || (node.kind === "stray" && indentOf(text) > 0);
  };
  const isMargin = (line: number) => {
    const { kind } = lines[line]!.node;
    return kind === "use" || starts.has(line) || line === tree.header;
  };
  return (line) => {
    const isInside = first !== undefined && line > first.line;
    const [below, next] = [noted[line]!, beyond[line]!];
    if (below < lines.length && !isKept(below)) {
      if (isBody(below)) return INDENT;
      if (isMargin(below)) return "";
      const isApart = lines[below]!.node.kind === "blank" && next < lines.length && !isKept(next);
      if (isInside && isApart && BODY.has(lines[next]!.node.kind)) return INDENT;
    }
    return isInside && indentOf(lines[line]!.text) > 0 ? INDENT : "";
  };
}

const BODY: ReadonlySet<LineNode["kind"]> = new Set(["entry", "drop", "kept", "fact"]);

/** A statement as it is laid out, or as a row of its run. */
function laidLine(tree: Tree, at: number, sectionOf: readonly (string | undefined)[], reading: Reading): string | Row {
  const line = tree.lines[at]!;
  const { node, text } = line;
  const row = (head: string, cells: Row["cells"] = []): Row => ({ line: at, head, cells, comment: commentOf(line) });
  switch (node.kind) {
    case "header":
    case "use":
    case "section":
      // With a fault it may be another statement that lost its indent.
      return isSound(tree, at) ? row(statementText(line)) : text.slice(0, endOf(line));
    case "kept":
      return `${INDENT}${text.slice(node.bar)}`;
    case "drop": {
      const words = text.slice(node.word.start, contentEnd(line)).split(/[ \t]+/);
      return row(`${INDENT}${words.join(" ")}`);
    }
    case "entry": {
      const { head, value } = node;
      const read = sectionOf[at] === undefined ? null : reading(at);
      if (read === null || (head.end === value.start && head.end < value.end && !read?.value)) return asWritten(line);
      const name = `${INDENT}${head.text}`;
      return value.start < value.end ? row(name, cellsOf(text, value, read ?? null)) : row(name);
    }
    case "fact": {
      const section = sectionOf[at];
      // The “#” of a slot that stands outside of quotes begins a comment that was not meant as one.
      const isSlot = line.comment?.start === node.content.end;
      if (section === undefined || isSlot || text.length > LONGEST_FACT - 100) return asWritten(line);
      const parts = factParts(section, text, node.content);
      if (!parts) return asWritten(line);
      const left = `${INDENT}${parts.left}`;
      return parts.isRow ? row(left, [{ name: null, text: parts.right }]) : row(`${left} ${parts.right}`);
    }
    default:
      return asWritten(line);
  }
}

/** A line whose parts are not sure: only its indent, and the blanks at its end. */
function asWritten(line: Line): string {
  const indent = indentOf(line.text);
  return (indent > 0 ? INDENT : "") + line.text.slice(indent, endOf(line));
}

function isSound(tree: Tree, at: number): boolean {
  const { node, issues } = tree.lines[at]!;
  if (issues.length > 0 && issues.some(({ code }) => code === "syntax")) return false;
  return node.kind === "header" ? at === tree.header : true;
}

/** A header, a `use` or the name of a section, with one space between its words. */
function statementText(line: Line): string {
  const { node, text } = line;
  if (node.kind === "section")
    return node.name.text + (node.title ? ` ${text.slice(node.title.start, node.title.end)}` : "");
  if (node.kind === "use" && node.path) return `use ${text.slice(node.path.start, node.path.end)}`;
  if (node.kind !== "header" || !node.name) return text.slice(0, contentEnd(line));
  const behind = text.slice(node.name.end, contentEnd(line)).split(/[ \t]+/);
  return [node.word.text, text.slice(node.name.start, node.name.end), ...behind.filter((word) => word !== "")].join(
    " ",
  );
}

function commentOf(line: Line): Row["comment"] {
  if (!line.comment) return null;
  const { start } = line.comment;
  return { text: line.text.slice(start, endOf(line)), column: columnAt(line.text, start) };
}

/** Behind the last character that is no blank. */
function endOf({ text }: Line): number {
  let end = text.length;
  while (end > 0 && isSpace(text.charCodeAt(end - 1))) end--;
  return end;
}

/** The same, without the comment. */
function contentEnd({ text, comment }: Line): number {
  let end = comment ? comment.start : text.length;
  while (end > 0 && isSpace(text.charCodeAt(end - 1))) end--;
  return end;
}

function indentOf(text: string): number {
  let indent = 0;
  while (indent < text.length && isSpace(text.charCodeAt(indent))) indent++;
  return indent;
}
