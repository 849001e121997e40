/** Lines that are written into a dialect: facts into their section, codes into theirs; or a dialect that begins. */
import { boardText } from "../../dialect/learn/tokens-for.ts";
import type { Script } from "../../model/script.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Section, Tree } from "../../syntax/tree.ts";
import { atTheEnd, indentIn, indentOf } from "../edits/script-edits.ts";

export interface NewFact {
  readonly section: string;
  /** With its quotes. */
  readonly left: string;
  readonly right: string;
}

/** A left side that is written anew in a line that has it. */
export interface NewLeft {
  readonly line: number;
  readonly left: string;
}

/** A line of `codes`: its name and what it says. */
export interface NewCode {
  readonly name: string;
  readonly says: string;
}

export interface DialectLines {
  readonly fact: NewFact | null;
  readonly lefts: readonly NewLeft[];
  readonly codes: readonly NewCode[];
}

/** Where in its section a fact goes: behind the last, or before the first heading of the section. */
export type FactPlace = "last" | "above headings";

/** The edits that write the lines; null where there is no such place. */
export function dialectEdits(script: Script, lines: DialectLines, place: FactPlace): TextEdit[] | null {
  const { tree } = script;
  const edits: TextEdit[] = [];
  const ends: string[] = [];
  for (const { line, left } of lines.lefts) {
    const cols = leftCols(tree, line);
    if (!cols) return null;
    const at = (character: number) => ({ line, character });
    edits.push({ range: { start: at(cols.start), end: at(cols.end) }, text: left });
  }
  if (lines.codes.length > 0) edits.push(codeEdit(tree, lines.codes));
  if (lines.fact) {
    const { fact } = lines;
    const section = tree.sections.findLast(({ name, title }) => name === fact.section && title === null);
    const behind = section && lineBehind(tree, section, place);
    if (behind === null) return null;
    if (behind === undefined)
      ends.push(`${fact.section}${lineEnd(tree, 0)}${indentIn(tree)}${fact.left}  ${fact.right}`);
    else edits.push(insertion(tree, behind, factLine(tree, section!, fact)));
  }
  if (ends.length > 0) edits.push(atTheEnd(tree, ends));
  return edits;
}

/** The columns of a fact's left side, quotes included; null where several stand there, or none. */
function leftCols(tree: Tree, line: number): { start: number; end: number } | null {
  const found = tree.lines[line];
  if (found?.node.kind !== "fact") return null;
  const { start, end } = found.node.content;
  const match = /^(?:"(?:[^"\\]|\\.)*"|'[^']*')/.exec(found.text.slice(start, end));
  if (!match || /^\s*["']/.test(found.text.slice(start + match[0].length, end))) return null;
  return { start, end: start + match[0].length };
}

/** The line behind which a fact is written; null where the section has no such place. */
function lineBehind(tree: Tree, { line, entries }: Section, place: FactPlace): number | null {
  if (place === "last") return Math.max(line, ...entries);
  const heading = entries.find((each) => /^\s*under\b/.test(tree.lines[each]!.text));
  if (heading === undefined) return null;
  const above = entries.filter((each) => each < heading).at(-1) ?? line;
  return above;
}

function insertion(tree: Tree, line: number, text: string): TextEdit {
  const at = { line, character: tree.lines[line]!.text.length };
  return { range: { start: at, end: at }, text: lineEnd(tree, line) + text };
}

/** With the indent and the columns of the fact above it. */
function factLine(tree: Tree, section: Section, { left, right }: NewFact): string {
  const above = section.entries.findLast((line) => leftCols(tree, line) !== null);
  if (above === undefined) return `${indentIn(tree)}${left}  ${right}`;
  const { text } = tree.lines[above]!;
  const cols = leftCols(tree, above)!;
  const gap = /^\s*/.exec(text.slice(cols.end))![0];
  const column = cols.end + gap.length - cols.start;
  return `${indentOf(text)}${left.padEnd(Math.max(column, left.length + 2))}${right}`;
}

function codeEdit(tree: Tree, codes: readonly NewCode[]): TextEdit {
  const section = tree.sections.findLast(({ name }) => name === "codes");
  const indent = indentIn(tree);
  const lines = codes.map(({ name, says }) => `${indent}${name}  ${says}`);
  if (section) {
    // One that goes on stands behind its other lines.
    const own = section.entries.findLast((line) => tree.lines[line]!.text.trim().split(/\s/, 1)[0] === codes[0]!.name);
    const behind = own ?? Math.max(section.line, ...section.entries);
    return insertion(tree, behind, lines.join(lineEnd(tree, behind)));
  }
  const text = tree.sections.find(({ name }) => name === "text");
  const behind = text ? Math.max(text.line, ...text.entries) : (tree.header ?? 0);
  const eol = lineEnd(tree, behind);
  return insertion(tree, behind, [`${eol}codes`, ...lines].join(eol));
}

/** A dialect that begins, known by a text of the board's. */
export function newDialectText(name: string, knownBy: string | null): string {
  const known = knownBy === null ? "" : `\ntext\n  known-by  ${boardText(knownBy)}\n`;
  return `dialect ${quote(name)}\n${known}`;
}

/** What a text is known by: its first line with words, which most boards write as their greeting. Null without. */
export function greetingOf(text: string): string | null {
  const line = text
    .split(/\r\n|\r|\n/, 20)
    .map((each) => each.trim())
    .find((each) => /\p{L}{3}/u.test(each));
  return line === undefined ? null : line.slice(0, 80).trim();
}
