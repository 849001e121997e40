/** Texts after lines of them were moved, and what a craft says in plain words, by which it is held to be the same. */
import type { Moved } from "../../../shared/ide/origin/move.ts";
import { effectiveCraft } from "../../../shared/ide/reports/effective-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import { edited, type Texts } from "../edits/scripts-edited.ts";

export type Edits = Extract<Moved, { kind: "edits" }>;

/** The texts with the edits made and the new files in them. */
export function after(texts: Texts, { files, creates }: Edits): Record<string, string> {
  const result: Record<string, string> = { ...texts };
  for (const { file, edits } of files) result[file] = edited(texts[file]!, edits);
  for (const { file, text } of creates) result[file] = text;
  return result;
}

/** All that a craft says, without the lines that say it: two that are the same give the same text. */
export function saidBy(craft: Craft, workspace: Workspace): string {
  const { settings, modes, outputs, controls, osd, osdSecond, verbatim, handset } = effectiveCraft(
    craft,
    workspace,
    (file) => file,
  );
  const bare = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(bare);
    if (value === null || typeof value !== "object") return value;
    const left = Object.entries(value).filter(([key]) => !/^(file|line|lines|sources|note)$/.test(key));
    // Fields may be said in another order; then their joined text is another one, and their values are the same.
    const isFields = "value" in value && value.value !== null && typeof value.value === "object";
    return Object.fromEntries(
      left
        .filter(([key]) => !isFields || key !== "text")
        .map(([key, each]) => [key, bare(each)] as const)
        .sort(([a], [b]) => (a < b ? -1 : 1)),
    );
  };
  const filters = [...craft.settings].flatMap(([section, all]) =>
    [...all.values()].flatMap(({ name, items, text }) => (items ? `${section}.${name}: ${text}` : [])),
  );
  const heads = [...craft.sections.keys()].sort();
  return JSON.stringify(
    bare({ settings, modes, outputs, controls, osd, osdSecond, verbatim, handset, filters: filters.sort(), heads }),
    null,
    1,
  );
}

/** The notes of the lines that count, by name. */
export function notesOf(craft: Craft, workspace: Workspace): Map<string, string> {
  const noteOf = ({ file, line }: { readonly file: string; readonly line: number }) =>
    workspace.script(file)!.noteOf(line).text;
  const notes = new Map<string, string>();
  for (const [section, all] of craft.settings) {
    for (const { name, source, items, fieldSources } of all.values()) {
      // Which of the lines of fields is the last one may change: each of them has its note all the same.
      const ofFields = [...new Set([...fieldSources.values()].map(noteOf))].sort();
      const ofLines = (items ?? [{ source }]).map((each) => noteOf(each.source));
      notes.set(`${section}.${name}`, (ofFields.length > 0 ? ofFields : ofLines).join("; "));
    }
  }
  for (const modes of [craft.modes, craft.outputs])
    for (const { name, lines } of modes.values()) notes.set(name, lines.map(({ source }) => noteOf(source)).join("; "));
  for (const places of [craft.osd, craft.osdSecond, craft.controls, craft.adjust])
    for (const { name, source } of places.values()) notes.set(name, noteOf(source));
  return notes;
}

/** Whether all lines of a text stand in another one in the same order, byte for byte with their ends, but for those taken out. */
export function isLeft(left: string, whole: string): boolean {
  const parts = (text: string) => {
    const { lines, ends } = splitLines(text);
    return lines.map((line, i) => line + ends[i]!);
  };
  const all = parts(whole);
  let at = 0;
  return parts(left).every((line) => {
    while (at < all.length && all[at] !== line) at++;
    return at++ < all.length;
  });
}

/** The whole lines from one to another. */
export function lines(start: number, end = start): Range {
  return { start: { line: start, character: 0 }, end: { line: end, character: 1 } };
}
