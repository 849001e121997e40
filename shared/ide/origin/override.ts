/** A value of a layer or a handset, written into the craft's own file, where it can be changed for this craft alone. */

import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { mayHold } from "../../model/may-hold.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Position, Range } from "../../syntax/span.ts";
import { type EffectiveEntry, effectiveEntryIn } from "../context/effective-entry.ts";
import { withFile } from "../context/trial.ts";
import { newerEdition, whyNotWritable } from "../edits/script-edits.ts";
import { type ChainStep, chainOf, restOf, type SaidName } from "./chain.ts";
import { type Draft, draftOf, textAfter } from "./draft.ts";
import type { Carried } from "./groups.ts";
import { type Moved, refusal } from "./move.ts";
import { craftAt, saidNameAt, wordsOf } from "./name-at.ts";
import { lineForGroup, putGroups } from "./put-lines.ts";

/** Writes the present value of the name at a position into the craft's own file, with the value selected. */
export function overrideHere(workspace: Workspace, file: FilePath, at: Position, picked: FilePath | undefined): Moved {
  const said = saidNameAt(workspace, file, at);
  if (!said)
    return refusal("There is no name here whose value could be said on the craft: put the cursor on an entry.");
  const craft = craftAt(workspace, file, picked);
  if (!craft) return refusal("No craft uses this file, so there is none on which another value could be said.");
  return overrideOn(workspace, craft, said);
}

/** Why a name cannot be overridden on a craft, in a sentence; null where it can. */
export function whyNotOverridden(workspace: Workspace, craft: Craft, said: SaidName): string | null {
  const made = overrideOn(workspace, craft, said);
  return made.kind === "refused" ? made.message : null;
}

/** The same for a name of a craft. */
export function overrideOn(workspace: Workspace, craft: Craft, said: SaidName): Moved {
  const { script } = craft;
  if (script.tree.newer) return refusal(newerEdition(script));
  if (said.name === "")
    return refusal(
      "Kept lines join, so a line of the craft would come besides those of its layers: say “drop all” there first to begin afresh.",
    );
  const chain = chainOf(craft, said, workspace.catalogue);
  const own = chain.find(
    ({ does, counts, source }) => does === "says" && counts !== "no" && source.file === craft.file,
  );
  if (own)
    return refusal(`“${craft.name}” says ${wordsOf(said)} itself, on line ${own.source.line + 1}: change it there.`);
  const entry = entryOf(craft, chain);
  if (!entry || entry.value === null) return refusal(whyNoValue(craft, chain, said));
  if (section(craft, workspace, said) === undefined)
    return refusal(`A craft cannot say ${wordsOf(said)}: it is the handset's own.`);
  const why = whyNotWritable(workspace, script, lineForGroup(script, said.section));
  if (why !== null) return refusal(why);
  const texts = textsFor(craft, said, entry, effectiveEntryIn(craft, entry));
  const draft = draftOf(script);
  const items = texts.map((rest): Carried => {
    const text = `  ${said.name}  ${rest}`;
    return { name: said.name, kind: "entry", above: [], text, rest, hasGap: false, line: -1 };
  });
  putGroups(draft, [{ section: said.section, head: headOf(said.section), note: [], items }], "behind");
  const range = selected(workspace, draft, said, texts);
  return {
    kind: "edits",
    files: [{ file: craft.file, edits: draft.edits() }],
    creates: [],
    notes: backAgain(craft, said, chain),
    select: range && { file: craft.file, range },
  };
}

/** A name that was taken back counts again once the craft says it: that is more than another way to say the same. */
function backAgain(craft: Craft, said: SaidName, chain: readonly ChainStep[]): string[] {
  const drop = chain.findLast(({ does, counts }) => does === "drops" && counts === "whole");
  if (!drop || chain.some(({ does, counts }) => does === "says" && counts !== "no")) return [];
  const by = craft.scripts.find(({ file }) => file === drop.source.file)!;
  return [
    `Line ${drop.source.line + 1} of “${by.name}” took ${wordsOf(said)} back, so “${craft.name}” had none: with this line it has it again.`,
  ];
}

function section(craft: Craft, { catalogue }: Workspace, said: SaidName) {
  const spec = catalogue.section(said.section.replace(/\/.*/, ""));
  return spec && mayHold(spec, craft.script.kind) ? spec : undefined;
}

/** The line whose value counts last, or counted until it was taken back. */
function entryOf({ scripts }: Craft, chain: readonly ChainStep[]): Entry | undefined {
  const last =
    chain.findLast(({ does, counts }) => does === "says" && counts !== "no") ??
    chain.findLast(({ does }) => does === "says");
  const script = scripts.find(({ file }) => file === last?.source.file);
  return script?.entries.find(({ line }) => line === last?.source.line);
}

function whyNoValue({ name, scripts }: Craft, chain: readonly ChainStep[], said: SaidName): string {
  const faulty = chain.findLast(({ hasFault }) => hasFault);
  if (!faulty) return `No file of “${name}” says ${wordsOf(said)}: write it as a new line.`;
  const script = scripts.find(({ file }) => file === faulty.source.file);
  return `Line ${faulty.source.line + 1} of “${script?.name ?? "a layer"}” has a fault, so there is no value to begin with: mend it there.`;
}

/** What follows the name on each line: of several that join every one of them, of one field that field alone. */
function textsFor(craft: Craft, said: SaidName, entry: Entry, effective: EffectiveEntry | null): string[] {
  const lines = (effective?.sources ?? []).flatMap(({ source }) => lineAt(craft, source) ?? []);
  if (entry.kind === "mode" || entry.kind === "output") return (lines.length > 0 ? lines : [entry]).map(restOf);
  const setting = craft.settings.get(said.section)?.get(said.name);
  if (setting?.items) return lines.map(restOf);
  if (said.field !== null) {
    const value = (setting?.value ?? entry.value)!;
    const field = value.kind === "fields" ? value.fields.find(({ name }) => name === said.field) : undefined;
    if (field && value.kind === "fields") return [fieldText(craft, said, entry)];
  }
  return [effective && entry.kind === "setting" ? effective.text : restOf(entry)];
}

function fieldText(craft: Craft, { section: of, name, field }: SaidName, entry: Entry): string {
  const setting = craft.settings.get(of)?.get(name);
  const source = setting?.fieldSources.get(field!);
  const script = craft.scripts.find(({ file }) => file === (source?.file ?? ""));
  const from = script?.entries.find(({ line }) => line === source?.line) ?? entry;
  const text = script && script.tree.lines[from.line]!.text;
  const fields = from.value?.kind === "fields" ? from.value.fields : [];
  const index = fields.findLastIndex((each) => each.name === field);
  if (text === undefined || index < 0) return restOf(entry);
  const { nameAt, value } = fields[index]!;
  return text.slice(nameAt.start, fields[index + 1]?.nameAt.start ?? value.end).trim();
}

function lineAt(
  { scripts }: Craft,
  { file, line }: { readonly file: string; readonly line: number },
): Entry | undefined {
  return scripts.find((each) => each.file === file)?.entries.find((each) => each.line === line);
}

function headOf(of: string): string {
  const slash = of.indexOf("/");
  return slash < 0 ? of : `${of.slice(0, slash)} ${quote(of.slice(slash + 1))}`;
}

/** Where the value stands once it is written: behind `when` or `at` what the pilot is to change; of several lines on the first. */
function selected(workspace: Workspace, draft: Draft, said: SaidName, texts: readonly string[]): Range | null {
  const script = readAgain(workspace, draft);
  const own = script?.entries.filter((each) => each.section === said.section && each.name === said.name);
  const line = own?.at(-texts.length)?.line;
  const node = line === undefined ? undefined : script?.tree.lines[line]?.node;
  if (line === undefined || node?.kind !== "entry") return null;
  const lead = /^(when|at|follows) +/.exec(texts[0]!)?.[0].length ?? 0;
  return { start: { line, character: node.value.start + lead }, end: { line, character: node.value.end } };
}

function readAgain(workspace: Workspace, draft: Draft): Script | null {
  return withFile(workspace, draft.script.file, textAfter(draft.script, draft.edits())).script(draft.script.file);
}
