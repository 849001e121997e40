/** Lines as they are carried from one script to another: by section, each with the comments that belong to it. */
import { isAllow } from "../../model/notes.ts";
import type { Script } from "../../model/script.ts";
import type { Draft } from "./draft.ts";
import { sectionsOf } from "./items.ts";
import type { Taken } from "./selection.ts";

/** A line that is carried, with the comment lines above it. */
export interface Carried {
  /** Of an entry its name, of a `drop` its words; empty for kept text. */
  readonly name: string;
  readonly kind: "entry" | "drop" | "kept" | "comment";
  readonly above: readonly string[];
  /** The whole line, with its indent and the comment at its end. */
  readonly text: string;
  /** Of an entry what follows its name, with the comment at the line's end. */
  readonly rest: string;
  /** A blank line stands above it. */
  readonly hasGap: boolean;
  /** The line in the script that it comes from; of a comment that of the comment. */
  readonly line: number;
}

/** The lines of one section. */
export interface Group {
  /** As resolved. */
  readonly section: string;
  /** The line with the section's name. */
  readonly head: string;
  /** The comments above that line, where the section is carried whole. */
  readonly note: readonly string[];
  readonly items: readonly Carried[];
}

/** What is taken of a script, section by section; sections of one name are joined. */
export function groupsOf(script: Script, taken: Taken): Group[] {
  const { tree } = script;
  const byName = new Map<string, Group>();
  const itemAt = new Map(taken.items.map((item) => [item.line, item]));
  for (const section of sectionsOf(script)) {
    const isWhole = taken.whole.has(section.line);
    const own = section.entries.flatMap((line) => itemAt.get(line) ?? []);
    if (own.length === 0 && !isWhole) continue;
    const items: Carried[] = [];
    let reached = section.line;
    for (const { line, kind, entry, names } of own) {
      const words = taken.words.get(line);
      const above = words ? [] : isWhole ? commentsBetween(script, reached, line) : script.noteOf(line).lines;
      const { text, node } = tree.lines[line]!;
      const from = above[0] ?? line;
      items.push({
        name: entry ? entry.name : (names ?? ["all"]).filter((name) => !words || words.has(name)).join(" "),
        kind,
        above: above.map((each) => tree.lines[each]!.text),
        text: words ? dropText(text, [...words]) : text,
        rest: node.kind === "entry" ? text.slice(node.value.start) : "",
        hasGap: items.length > 0 && hasBlank(script, reached + 1, from),
        line,
      });
      reached = line;
    }
    for (const line of isWhole ? trailingComments(script, section.line, own.at(-1)?.line ?? section.line) : []) {
      const text = tree.lines[line]!.text;
      items.push({ name: "", kind: "comment", above: [], text, rest: "", hasGap: false, line });
    }
    const before = byName.get(section.resolved);
    const note = isWhole ? script.noteOf(section.line).lines.map((line) => tree.lines[line]!.text) : [];
    byName.set(section.resolved, {
      section: section.resolved,
      head: before?.head ?? headText(script, section.line, isWhole),
      note: [...(before?.note ?? []), ...note],
      items: [...(before?.items ?? []), ...items],
    });
  }
  return [...byName.values()];
}

/** The line of a section's name; with the comment at its end only where the section goes whole. */
function headText({ tree }: Script, line: number, isWhole: boolean): string {
  const { text, comment } = tree.lines[line]!;
  return comment && !isWhole ? text.slice(0, comment.start).trimEnd() : text;
}

function dropText(text: string, words: readonly string[]): string {
  return `${/^[ \t]*/.exec(text)![0]}drop ${words.join(" ")}`;
}

function commentsBetween({ tree }: Script, above: number, line: number): number[] {
  const found: number[] = [];
  for (let i = above + 1; i < line; i++) if (tree.lines[i]!.node.kind === "comment") found.push(i);
  return found;
}

/** Indented comments right behind the last line of a section: they can be nothing else's note. */
function trailingComments({ tree }: Script, head: number, last: number): number[] {
  const found: number[] = [];
  for (let i = last + 1; i < tree.lines.length && last > head; i++) {
    const { node, text } = tree.lines[i]!;
    if (node.kind !== "comment" || !/^[ \t]/.test(text)) break;
    found.push(i);
  }
  const below = tree.lines[(found.at(-1) ?? last) + 1]?.node.kind;
  return below === undefined || below === "blank" ? found : [];
}

function hasBlank({ tree }: Script, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (tree.lines[i]!.node.kind === "blank") return true;
  return false;
}

/** Takes lines out of a script: with their notes, with the names of sections that go whole, and with no blank lines doubled. */
export function takeOut(draft: Draft, taken: Taken): void {
  const { script } = draft;
  const { tree } = script;
  const gone = new Set<number>();
  for (const section of sectionsOf(script)) {
    if (!taken.whole.has(section.line)) continue;
    for (const line of [...script.noteOf(section.line).lines, section.line]) gone.add(line);
    const own = section.entries.at(-1) ?? section.line;
    for (const line of commentsBetween(script, section.line, own)) gone.add(line);
    for (const line of trailingComments(script, section.line, own)) gone.add(line);
  }
  for (const { line, names } of taken.items) {
    const words = taken.words.get(line);
    if (words) draft.rewrite(line, withoutWords(script, line, words));
    else if (names !== undefined) gone.add(line);
  }
  for (const { line } of taken.items)
    if (!taken.words.has(line)) for (const each of noteThatGoes(script, line, gone)) gone.add(each);
  draft.remove(gone);
  draft.remove(spareBlanks(tree.lines, gone));
}

/** A `drop` without some of its words. */
export function withoutWords({ tree }: Script, line: number, words: ReadonlySet<string>): string {
  const { text, node } = tree.lines[line]!;
  if (node.kind !== "drop") return text;
  const left = node.names.filter((word) => !words.has(word.text)).map((word) => word.text);
  const [first, last] = [node.names[0]!, node.names.at(-1)!];
  return text.slice(0, first.start) + left.join(" ") + text.slice(last.end);
}

/**
 * The note lines that leave with an entry. One below a blank line, with entries that stay directly below this one, heads
 * that group and stays, but for what it accepts on this entry alone.
 */
function noteThatGoes(script: Script, line: number, gone: ReadonlySet<number>): readonly number[] {
  const { tree } = script;
  const { lines } = script.noteOf(line);
  let above = line - 1;
  while (tree.lines[above]?.node.kind === "comment") above--;
  if (tree.lines[above]?.node.kind !== "blank") return lines;
  let below = line + 1;
  while (gone.has(below)) below++;
  const kind = tree.lines[below]?.node.kind;
  return kind === "entry" || kind === "comment" ? lines.filter((each) => isAllow(tree, each)) : lines;
}

/** Of the blank lines on both sides of what goes, those of one side. */
export function spareBlanks(lines: Script["tree"]["lines"], gone: ReadonlySet<number>): number[] {
  const spare: number[] = [];
  const isBlank = (line: number) => lines[line]?.node.kind === "blank";
  for (const line of [...gone].sort((a, b) => a - b)) {
    if (gone.has(line + 1)) continue;
    let above = line;
    while (gone.has(above)) above--;
    const isBelowHead = lines[above]?.node.kind === "section";
    if (!isBlank(above) && !isBelowHead && above >= 0) continue;
    const isLast = line + 1 >= lines.length - 1;
    if (isLast && isBlank(above)) spare.push(above);
    else for (let below = line + 1; isBlank(below) && below < lines.length - 1; below++) spare.push(below);
  }
  return spare;
}
