/** Writes carried lines into a script: into the section that it has, else into one at its end. */
import type { Script } from "../../model/script.ts";
import type { Section } from "../../syntax/tree.ts";
import { alignedEntries } from "../edits/script-edits.ts";
import type { Draft } from "./draft.ts";
import type { Carried, Group } from "./groups.ts";
import { sectionsOf } from "./items.ts";

/** Groups as the text of sections, each after a blank line. */
export function sectionTexts(groups: readonly Group[]): string[] {
  return groups.flatMap(({ note, head, items }) => ["", ...note, head, ...items.flatMap(linesOf)]);
}

function linesOf({ above, text, hasGap }: Carried): string[] {
  return [...(hasGap ? [""] : []), ...above, text];
}

/** The last section of a name, as resolved, in which a script can be written; undefined where it has none. */
export function sectionFor(script: Script, section: string): (Section & { readonly resolved: string }) | undefined {
  return sectionsOf(script).findLast((each) => each.resolved === section && each.known);
}

/** The line after which lines of a section are written; the last line where the script does not have it. */
export function lineForGroup(script: Script, section: string): number {
  const there = sectionFor(script, section);
  return there ? lastOf(there) : script.tree.lines.length - 1;
}

/** Where kept lines are written: before those that are there, or behind them. */
export type KeptPlace = "before" | "behind";

/** Writes groups into a script, whose sections keep their order and their lines. */
export function putGroups(draft: Draft, groups: readonly Group[], keptPlace: KeptPlace): void {
  const fresh: Group[] = [];
  for (const group of groups) {
    const section = sectionFor(draft.script, group.section);
    if (section) putInto(draft, section, group, keptPlace);
    else fresh.push(group);
  }
  if (fresh.length > 0) putAtEnd(draft, sectionTexts(fresh));
}

/** Writes lines, which begin with a blank one, at the end of a script. */
function putAtEnd(draft: Draft, texts: readonly string[]): void {
  const { lines } = draft.script.tree;
  const last = lines.length - 1;
  // A file that ends with a line end has an empty last line, and what is written stands above it.
  const isEnded = lines[last]!.text === "" && last > 0;
  const above = isEnded ? last - 1 : last;
  let visible = above;
  while (visible >= 0 && draft.isRemoved(visible)) visible--;
  const isBlank = visible < 0 || lines[visible]!.text.trim() === "";
  draft.insertAfter(above, isBlank ? texts.slice(1) : texts);
}

function putInto(draft: Draft, section: Section, { note, items }: Group, keptPlace: KeptPlace): void {
  const { script } = draft;
  const { tree } = script;
  const known = new Set(script.noteOf(section.line).lines.map((line) => tree.lines[line]!.text.trim()));
  draft.insertAfter(
    section.line - 1,
    note.filter((text) => !known.has(text.trim())),
  );
  const drops = items.filter(({ kind }) => kind === "drop");
  const isDrop = (line: number) => tree.lines[line]!.node.kind === "drop";
  draft.insertAfter(
    section.entries.findLast(isDrop) ?? section.line,
    drops.flatMap(linesOf).filter((text) => text !== ""),
  );
  const kept = items.filter(({ kind }) => kind === "kept");
  draft.insertAfter(
    keptPlace === "before" ? lineBeforeKept(script, section) : lastOf(section),
    kept.flatMap(linesOf).filter((text) => text !== ""),
  );
  const others = items.filter(({ kind }) => kind === "entry" || kind === "comment");
  const entries = others.filter(({ kind }) => kind === "entry");
  const texts = alignedEntries(tree, section, entries);
  const written = new Map(entries.map((entry, i) => [entry, texts[i]!]));
  const indent = /^[ \t]*/.exec(texts[0] ?? "")![0];
  draft.insertAfter(
    lastOf(section),
    others.flatMap((each) => [
      ...(each.hasGap ? [""] : []),
      ...each.above.map((comment) => indent + comment.trimStart()),
      written.get(each) ?? indent + each.text.trimStart(),
    ]),
  );
}

/** The line after which kept lines come before all that a script has of that dialect: in its first section, below the drops. */
function lineBeforeKept(script: Script, section: Section): number {
  const resolved = sectionsOf(script).find(({ line }) => line === section.line)!.resolved;
  const first = sectionsOf(script).find((each) => each.resolved === resolved && each.known)!;
  const { lines } = script.tree;
  const kept = first.entries.findIndex((line) => lines[line]!.node.kind === "kept");
  const above = kept < 0 ? first.entries : first.entries.slice(0, kept);
  return above.findLast((line) => lines[line]!.node.kind === "drop") ?? first.line;
}

function lastOf(section: Section): number {
  return Math.max(section.line, ...section.entries);
}
