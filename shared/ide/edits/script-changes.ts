/** Changes of a script, put together from many parts, as edits that do not overlap: no other line is touched. */
import type { Script } from "../../model/script.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import type { TextEdit } from "../../syntax/span.ts";
import {
  alignedEntries,
  atTheEnd,
  deleteLines,
  headingOf,
  inColumns,
  indentIn,
  indentOf,
  lastSectionOf,
  linesOfNote,
  type NewEntry,
} from "./script-edits.ts";

export type ScriptChange =
  /** What follows the name of an entry, or the bar of kept text; the comment at its end and the note above it stay. */
  | { readonly kind: "value"; readonly line: number; readonly text: string }
  /** An entry with its note, or a line of kept text. */
  | { readonly kind: "delete"; readonly line: number }
  /** A whole new line below this one. */
  | { readonly kind: "below"; readonly line: number; readonly text: string }
  /** A new entry at the end of its section, which is made where it is missing. */
  | { readonly kind: "entry"; readonly section: string; readonly entry: NewEntry }
  /** A new line of kept text at the end of its section. */
  | { readonly kind: "kept"; readonly section: string; readonly text: string }
  | { readonly kind: "drop"; readonly section: string; readonly name: string }
  /** A name is taken out of a `drop`, and the line with it if nothing else stands there. */
  | { readonly kind: "undrop"; readonly line: number; readonly name: string };

/** The lines that a change touches, or after which it writes. */
export function lineOfChange(script: Script, change: ScriptChange): number {
  if ("line" in change) return change.line;
  const target = lastSectionOf(script.tree, change.section);
  if (!target) return script.tree.lines.length - 1;
  return change.kind === "drop" ? lineForDrops(script, change.section) : Math.max(target.line, ...target.entries);
}

/** The edits of all changes together. Several new lines at one place come in the order of the changes, drops first. */
export function editsOf(script: Script, changes: readonly ScriptChange[]): TextEdit[] {
  const { tree } = script;
  const values = new Map<number, Replacement>();
  const gone = new Set<number>();
  const below = new Map<number, string[]>();
  const sections = new Map<string, NewLines>();
  const undropped = new Map<number, string[]>();
  for (const change of changes) {
    if (change.kind === "value") values.set(change.line, replacedValue(script, change.line, change.text));
    else if (change.kind === "delete") for (const line of withNote(script, change.line)) gone.add(line);
    else if (change.kind === "below") push(below, change.line, change.text);
    else if (change.kind === "undrop") push(undropped, change.line, change.name);
    else addTo(sections, change);
  }
  for (const [line, names] of undropped) {
    const left = namesLeft(script, line, names);
    if (left) values.set(line, left);
    else for (const each of withNote(script, line)) gone.add(each);
  }
  const added: string[] = [];
  for (const [section, lines] of sections) placeLines(script, section, lines, below, added);

  const edits: TextEdit[] = [];
  for (const [line, { start, end, text }] of values) {
    if (gone.has(line)) continue;
    // At the end of its line the new lines below belong to the same edit: two at one place could change their order.
    const isLast = end === tree.lines[line]!.text.length;
    const more = isLast ? joined(script, line, below) : "";
    if (isLast) below.delete(line);
    edits.push(edit(line, start, end, text + more));
  }
  for (const line of [...below.keys()]) {
    const { length } = tree.lines[line]!.text;
    if (!gone.delete(line)) edits.push(edit(line, length, length, joined(script, line, below)));
    else edits.push(edit(line, 0, length, below.get(line)!.join(lineEnd(tree, line))));
  }
  edits.push(...deleteLines(script, gone));
  if (added.length > 0) edits.push(atTheEnd(tree, added));
  return edits;
}

interface Replacement {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** New lines of one section, each kind in its order. */
interface NewLines {
  readonly drops: string[];
  readonly entries: NewEntry[];
  readonly kept: string[];
}

type NewLine = Extract<ScriptChange, { section: string }>;

function addTo(sections: Map<string, NewLines>, change: NewLine): void {
  const lines = sections.get(change.section) ?? { drops: [], entries: [], kept: [] };
  sections.set(change.section, lines);
  if (change.kind === "drop") lines.drops.push(change.name);
  else if (change.kind === "entry") lines.entries.push(change.entry);
  else lines.kept.push(change.text);
}

/** Puts the new lines of a section below its own, or makes the section. */
function placeLines(
  script: Script,
  section: string,
  { drops, entries, kept }: NewLines,
  below: Map<number, string[]>,
  added: string[],
): void {
  const { tree } = script;
  const target = lastSectionOf(tree, section);
  const first = target?.entries[0];
  const indent = first === undefined ? indentIn(tree) : indentOf(tree.lines[first]!.text);
  const dropLines = drops.map((name) => `${indent}drop ${name}`);
  const keptLines = kept.map((text) => `${indent}|${text}`);
  if (!target) {
    const lines = [headingOf(section), ...dropLines, ...(entries.length > 0 ? inColumns(entries, indent, 2) : [])];
    added.push([...lines, ...keptLines].join(lineEnd(tree, tree.lines.length - 1)));
    return;
  }
  const last = Math.max(target.line, ...target.entries);
  const atDrops = lineForDrops(script, section);
  below.set(atDrops, [...(below.get(atDrops) ?? []), ...dropLines]);
  const entryLines = entries.length > 0 ? alignedEntries(tree, target, entries) : [];
  below.set(last, [...(below.get(last) ?? []), ...entryLines, ...keptLines]);
  for (const line of [atDrops, last]) if (below.get(line)?.length === 0) below.delete(line);
}

/** The line below which a `drop` is written: the last one of the section, else its name. */
function lineForDrops({ tree }: Script, section: string): number {
  const target = lastSectionOf(tree, section)!;
  return target.entries.findLast((line) => tree.lines[line]!.node.kind === "drop") ?? target.line;
}

/** What is written for the value of a line: its columns are those of the old one, set off from the name if that had none. */
function replacedValue({ tree }: Script, line: number, text: string): Replacement {
  const { node, text: whole } = tree.lines[line]!;
  if (node.kind === "kept") return { start: node.bar + 1, end: whole.length, text };
  if (node.kind !== "entry") throw new Error(`line ${line} holds no entry whose value could be changed`);
  const { head, value } = node;
  if (value.start < value.end) return { ...value, text };
  return { start: head.end, end: head.end, text: `  ${text}` };
}

/** The names that stay in a `drop`; null where none does. */
function namesLeft({ tree }: Script, line: number, names: readonly string[]): Replacement | null {
  const { node } = tree.lines[line]!;
  if (node.kind !== "drop" || node.names.length === 0) return null;
  const left = node.names.filter(({ text }) => !names.includes(text)).map(({ text }) => text);
  if (left.length === 0) return null;
  return { start: node.names[0]!.start, end: node.names.at(-1)!.end, text: left.join(" ") };
}

function withNote(script: Script, line: number): readonly number[] {
  return script.tree.lines[line]!.node.kind === "kept" ? [line] : [line, ...linesOfNote(script, line)];
}

function joined({ tree }: Script, line: number, below: ReadonlyMap<number, readonly string[]>): string {
  const eol = lineEnd(tree, line);
  return (below.get(line) ?? []).map((each) => eol + each).join("");
}

function edit(line: number, start: number, end: number, text: string): TextEdit {
  return { range: { start: { line, character: start }, end: { line, character: end } }, text };
}

function push(lists: Map<number, string[]>, line: number, text: string): void {
  const list = lists.get(line);
  if (list) list.push(text);
  else lists.set(line, [text]);
}
