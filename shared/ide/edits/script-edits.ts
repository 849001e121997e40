/** Edits that write lines into a script or delete them; all other lines stay as they are. */
import { isAllow } from "../../model/notes.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { LineNode, Section, Tree } from "../../syntax/tree.ts";

/** An entry to be written: its name, and the text after it. */
export interface NewEntry {
  readonly name: string;
  readonly rest: string;
}

/** Why a script must not be changed at a line, in a sentence; null where it may be. */
export function whyNotWritable(workspace: Workspace, script: Script, line: number): string | null {
  if (script.tree.newer) return newerEdition(script);
  const answer = workspace.view.read(script.file);
  if (answer?.kind !== "text") return `The file of “${script.name}” cannot be read, so nothing is written to it.`;
  if (answer.text.includes("\0")) return `“${script.name}” holds bytes that are no text, so it is not rewritten.`;
  if (!answer.validUtf8)
    return `“${script.name}” holds bytes that are no UTF-8 text, so it is not rewritten: save it as UTF-8 first.`;
  if (inConflict(script.tree, line))
    return `Line ${line + 1} of “${script.name}” stands in an unresolved merge: keep the side that is right and remove the markers first.`;
  return null;
}

/** Why a script of a newer edition is not rewritten, in a sentence. */
export function newerEdition({ name }: Script): string {
  return `“${name}” is written in a newer edition of the language, so this tool does not rewrite it: update the tool.`;
}

/** Whether a line is part of a merge conflict: a marker, or a line of either side. */
function inConflict({ lines }: Tree, line: number): boolean {
  for (let i = Math.min(line, lines.length - 1); i >= 0; i--) {
    const { node, text } = lines[i]!;
    if (node.kind === "conflict") return i === line || text.startsWith("<");
  }
  return false;
}

/** The line after which a new entry of a section is written; the last line where the section does not exist yet. */
export function lineForEntry({ tree }: Script, section: string): number {
  const target = lastSectionOf(tree, section);
  return target ? Math.max(target.line, ...target.entries) : tree.lines.length - 1;
}

/** The last part of a section as resolved, `pack/NAME` for a named pack; undefined where the script has none. */
export function lastSectionOf(tree: Tree, section: string): Section | undefined {
  const slash = section.indexOf("/");
  const name = slash < 0 ? section : section.slice(0, slash);
  const title = slash < 0 ? null : section.slice(slash + 1);
  return tree.sections.findLast((each) => each.name === name && each.title === title);
}

/** The line that begins a section: `pack "NAME"` for `pack/NAME`. */
export function headingOf(section: string): string {
  const slash = section.indexOf("/");
  return slash < 0 ? section : `${section.slice(0, slash)} ${quote(section.slice(slash + 1))}`;
}

/**
 * The edits that write entries after the last entry of their section, aligned like those around it. Missing
 * sections are added at the end of the file, each after a blank line.
 */
export function appendEntries(script: Script, bySection: ReadonlyMap<string, readonly NewEntry[]>): TextEdit[] {
  const { tree } = script;
  const edits: TextEdit[] = [];
  const newSections: string[] = [];
  for (const [section, entries] of bySection) {
    const target = lastSectionOf(tree, section);
    const line = lineForEntry(script, section);
    const eol = lineEnd(tree, line);
    if (!target) newSections.push([headingOf(section), ...inColumns(entries, indentIn(tree), 2)].join(eol));
    else
      edits.push(
        insertion(
          line,
          tree,
          alignedEntries(tree, target, entries)
            .map((each) => eol + each)
            .join(""),
        ),
      );
  }
  if (newSections.length > 0) edits.push(atTheEnd(tree, newSections));
  return edits;
}

/** The edit that writes an entry directly below the name of its section, which the script has. */
export function firstEntry(script: Script, section: string, entry: NewEntry): TextEdit {
  const { tree } = script;
  const target = tree.sections.find((each) => each.name === section && each.title === null)!;
  const [text] = alignedEntries(tree, target, [entry]);
  return insertion(target.line, tree, lineEnd(tree, target.line) + text!);
}

/** The edit that adds sections at the end of a file. */
export function atTheEnd(tree: Tree, sections: readonly string[]): TextEdit {
  const line = tree.lines.length - 1;
  const eol = lineEnd(tree, line);
  const body = sections.join(eol + eol);
  const { text } = tree.lines[line]!;
  if (text !== "") return insertion(line, tree, `${text.trim() === "" ? eol : eol + eol}${body}`);
  const gap = line > 0 && tree.lines[line - 1]!.text.trim() !== "" ? eol : "";
  return insertion(line, tree, `${gap}${body}${eol}`);
}

function insertion(line: number, { lines }: Tree, text: string): TextEdit {
  const at = { line, character: lines[line]!.text.length };
  return { range: { start: at, end: at }, text };
}

/** Entries with the indent and the columns of the last block of entries in a section. */
export function alignedEntries(tree: Tree, section: Section, entries: readonly NewEntry[]): string[] {
  const last = section.entries.at(-1);
  if (last === undefined) return inColumns(entries, indentIn(tree), 2);
  const run: (LineNode & { kind: "entry" })[] = [];
  let spacing = "";
  for (let i = last; i > section.line && tree.lines[i]!.node.kind !== "blank"; i--) {
    const { node, text } = tree.lines[i]!;
    if (node.kind !== "entry" || node.value.start >= node.value.end) continue;
    if (run.length === 0) spacing = text.slice(node.head.end, node.value.start);
    run.push(node);
  }
  const indent = indentOf(tree.lines[last]!.text);
  if (run.length === 0) return inColumns(entries, indent, 2);
  if (spacing.includes("\t")) return entries.map(({ name, rest }) => `${indent}${name}${spacing}${rest}`);
  const columns = new Set(run.map((node) => node.value.start));
  const gap = Math.min(...run.map((node) => node.value.start - node.head.end));
  const width = columns.size === 1 ? run[0]!.value.start - indent.length : 0;
  // Several that do not fit the columns of those above get columns of their own.
  const longest = Math.max(...entries.map(({ name }) => name.length));
  const own = entries.length > 1 && longest >= width ? longest + Math.max(1, gap) : width;
  return entries.map(({ name, rest }) => {
    const blanks = name.length < own ? own - name.length : Math.max(1, gap);
    return `${indent}${name}${" ".repeat(blanks)}${rest}`;
  });
}

/** Entries in columns of their own. */
export function inColumns(entries: readonly NewEntry[], indent: string, gap: number): string[] {
  const width = Math.max(...entries.map(({ name }) => name.length)) + gap;
  return entries.map(({ name, rest }) => `${indent}${name.padEnd(width)}${rest}`);
}

/** The indent of the file's first entry; two spaces where it has none. */
export function indentIn(tree: Tree): string {
  const first = tree.sections.find((section) => section.entries.length > 0)?.entries[0];
  return first === undefined ? "  " : indentOf(tree.lines[first]!.text);
}

/** The blanks with which a line begins. */
export function indentOf(text: string): string {
  return /^[ \t]*/.exec(text)![0];
}

/**
 * The edit that writes `drop NAME` into a section: after its last drop, else directly below its
 * name. Drops act before entries wherever they stand.
 */
export function writeDrop(script: Script, section: string, name: string): TextEdit {
  const { tree } = script;
  const target = lastSectionOf(tree, section);
  if (!target)
    return atTheEnd(tree, [
      `${headingOf(section)}${lineEnd(tree, tree.lines.length - 1)}${indentIn(tree)}drop ${name}`,
    ]);
  const drops = target.entries.filter((line) => tree.lines[line]!.node.kind === "drop");
  const line = drops.at(-1) ?? target.line;
  const first = target.entries[0];
  const indent = first === undefined ? indentIn(tree) : indentOf(tree.lines[first]!.text);
  return insertion(line, tree, `${lineEnd(tree, line)}${indent}drop ${name}`);
}

/** The line after which `writeDrop` writes. */
export function lineForDrop({ tree }: Script, section: string): number {
  const target = lastSectionOf(tree, section);
  if (!target) return tree.lines.length - 1;
  return target.entries.findLast((line) => tree.lines[line]!.node.kind === "drop") ?? target.line;
}

/** The edits that delete whole lines. */
export function deleteLines({ tree }: Script, lines: Iterable<number>): TextEdit[] {
  const sorted = [...new Set(lines)].sort((a, b) => a - b);
  const runs: { first: number; last: number }[] = [];
  for (const line of sorted) {
    const run = runs.at(-1);
    if (run?.last === line - 1) run.last = line;
    else runs.push({ first: line, last: line });
  }
  const lengthOf = (line: number) => tree.lines[line]!.text.length;
  return runs.map(({ first, last }) => {
    const whole = last + 1 < tree.lines.length;
    if (whole) return deletion({ line: first, character: 0 }, { line: last + 1, character: 0 });
    // The last line has no line end of its own: that of the line before it is deleted instead.
    const start = first > 0 ? { line: first - 1, character: lengthOf(first - 1) } : { line: 0, character: 0 };
    return deletion(start, { line: last, character: lengthOf(last) });
  });
}

function deletion(start: TextEdit["range"]["start"], end: TextEdit["range"]["end"]): TextEdit {
  return { range: { start, end }, text: "" };
}

/**
 * The comment lines that are deleted with an entry: its note. A comment after a blank line, with more
 * entries directly below this one, is the heading of the group and stays, except for its `allow` lines,
 * which apply to this entry only.
 */
export function linesOfNote(script: Script, line: number): readonly number[] {
  const { tree } = script;
  const { lines } = script.noteOf(line);
  let above = line - 1;
  while (tree.lines[above]?.node.kind === "comment") above--;
  const below = tree.lines[line + 1]?.node.kind;
  const heads = tree.lines[above]?.node.kind === "blank" && (below === "entry" || below === "comment");
  return heads ? lines.filter((each) => isAllow(tree, each)) : lines;
}
