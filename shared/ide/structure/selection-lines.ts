/** The runs of whole lines around a line: the entry with its note, the block, the section, the file. */
import type { Script } from "../../model/script.ts";
import type { Section } from "../../syntax/tree.ts";

/** Lines from the first to the last, both included. */
export interface LineRun {
  readonly first: number;
  readonly last: number;
}

/** The runs of lines around a line, the shortest first; the last is the file. */
export function linesAround(script: Script, line: number): LineRun[] {
  const { lines } = script.tree;
  const runs: LineRun[] = [];
  const kind = kindAt(script, line);
  if (kind === "comment") runs.push(runOf(script, line, (each) => kindAt(script, each) === "comment"));
  if (kind !== "blank") {
    const noted = statementBelow(script, line);
    // The note above a section's name belongs to all of the section.
    if (noted !== null && kindAt(script, noted) !== "section")
      runs.push({ first: noteStart(script, noted), last: noted });
  }
  const section = sectionAround(script, line);
  if (kind !== "blank" && kind !== "section") runs.push(blockAround(script, line, section));
  runs.push(...headingGroup(script, line));
  if (section) {
    if (line > section.line && section.body) runs.push(section.body);
    runs.push({ first: section.line, last: section.last }, { first: section.noteStart, last: section.last });
  }
  if (kind === "use") runs.push({ first: script.tree.uses[0]!, last: script.tree.uses.at(-1)! });
  runs.push({ first: 0, last: lines.length - 1 });
  return runs.sort((a, b) => a.last - a.first - (b.last - b.first));
}

function kindAt({ tree }: Script, line: number): string | undefined {
  return tree.lines[line]?.node.kind;
}

/** The longest run of lines around one of which all are so. */
function runOf({ tree }: Script, line: number, isSo: (line: number) => boolean): LineRun {
  let [first, last] = [line, line];
  while (first > 0 && isSo(first - 1)) first--;
  while (last < tree.lines.length - 1 && isSo(last + 1)) last++;
  return { first, last };
}

/** The statement that a line is, or to which the comment on it belongs; null where it is or has none. */
function statementBelow(script: Script, line: number): number | null {
  let below = line;
  while (kindAt(script, below) === "comment") below++;
  const kind = kindAt(script, below);
  return kind === undefined || kind === "blank" || kind === "conflict" ? null : below;
}

/** The first of the comments directly above a line; the line itself where there are none. */
function noteStart(script: Script, line: number): number {
  let first = line;
  while (first > 0 && kindAt(script, first - 1) === "comment") first--;
  return first;
}

interface SectionRun extends LineRun {
  readonly line: number;
  /** The first line of its note. */
  readonly noteStart: number;
  /** What stands below its name; null where nothing does. */
  readonly body: LineRun | null;
}

/** The section in which a line stands, its note included; null above the first one and in the blank lines between two. */
function sectionAround(script: Script, line: number): SectionRun | null {
  const { sections } = script.tree;
  const index = sections.findLastIndex((each) => noteStart(script, each.line) <= line);
  if (index < 0) return null;
  const run = sectionRun(script, sections[index]!, sections[index + 1]);
  return line <= run.last ? run : null;
}

function sectionRun(script: Script, { line }: Section, next: Section | undefined): SectionRun {
  let last = next ? noteStart(script, next.line) - 1 : script.tree.lines.length - 1;
  while (last > line && kindAt(script, last) === "blank") last--;
  let first = line + 1;
  while (first < last && kindAt(script, first) === "blank") first++;
  const body = first <= last ? { first, last } : null;
  return { line, first: line, last, noteStart: noteStart(script, line), body };
}

/** The lines without a blank one between them; in a section those below its name, and not beyond it. */
function blockAround(script: Script, line: number, section: SectionRun | null): LineRun {
  const isBelow = section !== null && line > section.line;
  const run = runOf(script, line, (each) => {
    if (isBelow) return each > section.line && each <= section.last && kindAt(script, each) !== "blank";
    return kindAt(script, each) !== "blank" && kindAt(script, each) === kindAt(script, line);
  });
  return isBelow ? run : { first: noteStart(script, run.first), last: run.last };
}

/** In a dialect, the lines below a heading of the board with their `under`. */
function headingGroup(script: Script, line: number): LineRun[] {
  if (script.kind !== "dialect") return [];
  const section = script.tree.sections.findLast((each) => each.line < line);
  if (!section || line > (section.entries.at(-1) ?? -1)) return [];
  const isUnder = (each: number) => /^\s+under(?![\w-])/.test(script.tree.lines[each]!.text);
  const first = section.entries.findLast((each) => each <= line && isUnder(each));
  if (first === undefined) return [];
  const next = section.entries.find((each) => each > line && isUnder(each));
  const last = section.entries.findLast((each) => next === undefined || each < next)!;
  return line <= last ? [{ first, last }] : [];
}
