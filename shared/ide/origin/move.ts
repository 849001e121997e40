/** Lines of a craft that go into one of its layers, or into a new one; the effective craft stays the same. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Range, TextEdit } from "../../syntax/span.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatCount } from "../context/format.ts";
import { withFiles } from "../context/trial.ts";
import { fileForNewLayer } from "../edits/new-layer-file.ts";
import { newerEdition, whyNotWritable } from "../edits/script-edits.ts";
import { lineForUse, writeUse } from "../edits/use-line.ts";
import { type Draft, draftOf, textAfter } from "./draft.ts";
import { groupsOf, takeOut } from "./groups.ts";
import { putIntoLayer } from "./into-layer.ts";
import { fieldsOf, type Item } from "./items.ts";
import { sectionTexts } from "./put-lines.ts";
import { changesOf, newFindings, tried } from "./same-craft.ts";
import { type Taken, takenIn } from "./selection.ts";

/** The edits of a move; the files that it makes; and what is to be known of it, a sentence each. */
export type Moved =
  | {
      readonly kind: "edits";
      readonly files: readonly { readonly file: FilePath; readonly edits: readonly TextEdit[] }[];
      readonly creates: readonly { readonly file: FilePath; readonly text: string }[];
      readonly notes: readonly string[];
      /** What is to be selected once they are made; null where nothing is. */
      readonly select: { readonly file: FilePath; readonly range: Range } | null;
    }
  /** Why nothing is moved, in a sentence. */
  | Refusal;

export type Edits = Extract<Moved, { kind: "edits" }>;

export interface Refusal {
  readonly kind: "refused";
  readonly message: string;
}

/** A refusal with its reason. */
export function refusal(message: string): Refusal {
  return { kind: "refused", message };
}

/** Moves the entries of a selection in a craft's own file into a new layer of that name, which the craft uses from then on. */
export function extractLayer(workspace: Workspace, file: FilePath, range: Range, name: string): Moved {
  const chosen = chosenIn(workspace, file, range);
  if ("kind" in chosen) return chosen;
  const { craft, taken } = chosen;
  const { script } = craft;
  if (name.trim() === "" || /[\r\n]/.test(name)) return refusal("A layer needs a name: one line, and not empty.");
  const place = fileForNewLayer(workspace, script, name.trim());
  if (!place) return refusal(`Every file name for a layer “${name}” is taken: choose another name.`);
  const why = whyNotWritable(workspace, script, Math.max(0, lineForUse(script)));
  if (why !== null) return refusal(why);
  const eol = lineEnd(script.tree, 0);
  const texts = [`layer ${quote(name.trim())}`, ...sectionTexts(groupsOf(script, taken)), ""];
  const creates = [{ file: place.file, text: texts.join(eol) }];
  const draft = draftOf(script);
  takeOut(draft, taken);
  const use = writeUse(script, place.file);
  const added = use.text.split(eol);
  if (use.range.start.character > 0) draft.insertAfter(use.range.start.line, added.slice(1));
  else draft.insertAfter(-1, added.slice(0, -1));
  return finished(workspace, craft, [draft], creates, notesOn(taken));
}

/** Moves the entries of a selection in a craft's own file into a layer that it uses. */
export function moveIntoLayer(workspace: Workspace, file: FilePath, range: Range, layerFile: FilePath): Moved {
  const chosen = chosenIn(workspace, file, range);
  if ("kind" in chosen) return chosen;
  const { craft, taken } = chosen;
  const layer = craft.scripts.find((each) => each.file === layerFile && each.kind === "layer");
  if (!layer) return refusal(`“${craft.name}” does not use that layer (any more): use it first.`);
  const why = layer.tree.newer ? newerEdition(layer) : whyNotWritable(workspace, layer, layer.tree.lines.length - 1);
  if (why !== null) return refusal(why);
  const later = whyOverridden(craft, layer, taken);
  if (later !== null) return refusal(later);
  const [from, into] = [draftOf(craft.script), draftOf(layer)];
  const entryAt = (line: number) => craft.script.entries.find((each) => each.line === line);
  const cannot = putIntoLayer(into, groupsOf(craft.script, taken), entryAt, workspace.catalogue);
  if (cannot !== null) return refusal(cannot);
  takeOut(from, taken);
  return finished(workspace, craft, [from, into], [], notesOn(taken));
}

interface Chosen {
  readonly craft: Craft;
  readonly taken: Taken;
}

function chosenIn(workspace: Workspace, file: FilePath, range: Range): Chosen | Refusal {
  const script = workspace.script(file);
  const craft = script && !script.tree.newer ? workspace.craft(file) : null;
  if (script?.tree.newer) return refusal(newerEdition(script));
  if (!craft) return refusal("Lines go from a craft into a layer, and this file is no craft.");
  const why = whyNotWritable(workspace, craft.script, range.start.line);
  if (why !== null) return refusal(why);
  const taken = takenIn(craft.script, range, workspace.catalogue);
  return typeof taken === "string" ? refusal(taken) : { craft, taken };
}

function notesOn({ along }: Taken): string[] {
  if (along.length === 0) return [];
  const isOne = along.length === 1;
  const shown = along.slice(0, MOST_LINES).map((line) => `${line + 1}`);
  const more = along.length - shown.length;
  const lines = joinWithAnd([...shown, ...(more > 0 ? [`${more} more`] : [])]);
  return [
    `${isOne ? "Line" : "Lines"} ${lines} went along: without ${isOne ? "it" : "them"} the craft would be another one.`,
  ];
}

const MOST_LINES = 5;

/** Why what is taken would not count in a layer: another one lies over it and says the same. */
function whyOverridden(craft: Craft, layer: Script, taken: Taken): string | null {
  const over = craft.scripts.slice(craft.scripts.indexOf(layer) + 1).filter(({ file }) => file !== craft.file);
  for (const item of taken.items) {
    for (const script of over) {
      const found = overridingLine(script, item, taken.words.get(item.line));
      if (found)
        return `“${script.name}” lies over “${layer.name}” and ${found.does}, on line ${found.line + 1}: in “${layer.name}” it would not count the same on “${craft.name}”. Move it to “${script.name}” instead, or to a new layer.`;
    }
  }
  return null;
}

/** The line of a file that says again, or takes back, what an item says or takes back. */
function overridingLine(
  { entries, drops, kept }: Script,
  { section, kind, entry, names }: Item,
  words: ReadonlySet<string> | undefined,
): { readonly does: string; readonly line: number } | null {
  const own = entries.find((each) => {
    if (each.section !== section) return false;
    if (entry) return each.name === entry.name && sharesFields(each, entry);
    return kind === "drop" && (names === null || (names.includes(each.name) && words?.has(each.name) !== false));
  });
  if (own) return { does: `says ${own.name} itself`, line: own.line };
  const drop = drops.find(
    (each) => each.section === section && (each.all || each.names.some(({ text }) => text === entry?.name)),
  );
  if (drop && kind !== "drop") return { does: `drops ${entry?.name ?? "the kept lines"}`, line: drop.line };
  const line = kept.find(({ dialect }) => `verbatim/${dialect}` === section)?.source.line;
  return line === undefined ? null : { does: "keeps lines of the same board", line };
}

function sharesFields(a: Parameters<typeof fieldsOf>[0], b: Parameters<typeof fieldsOf>[0]): boolean {
  const [one, other] = [fieldsOf(a), fieldsOf(b)];
  return !one || !other || one.some((field) => other.includes(field));
}

/** The move, if the craft is the same after it. */
export function finished(
  workspace: Workspace,
  craft: Craft,
  drafts: readonly Draft[],
  creates: readonly { readonly file: FilePath; readonly text: string }[],
  notes: readonly string[],
): Moved {
  const after = tried(workspace, drafts, creates);
  const [change] = changesOf(craft, after.craftLike(craft.file), workspace);
  if (change !== undefined) return refusal(whyAnother(craft, change));
  return {
    kind: "edits",
    files: drafts
      .map((draft) => ({ file: draft.script.file, edits: draft.edits() }))
      .filter(({ edits }) => edits.length > 0),
    creates,
    notes,
    select: null,
  };
}

/** Findings of a craft that a move brings, a sentence each: as a rule there are none. */
export function findingsBrought(workspace: Workspace, file: FilePath, { files, creates }: Edits): string[] {
  const texts = files.map((each) => [each.file, textAfter(workspace.script(each.file)!, each.edits)] as const);
  const made = creates.map((each) => [each.file, each.text] as const);
  const after = withFiles(workspace, new Map([...texts, ...made]));
  const found = newFindings(workspace, after, file).filter(({ severity }) => severity !== "hint");
  const more = found.length - MOST_FINDINGS;
  return [
    ...found.slice(0, MOST_FINDINGS).map(({ code, message }) => `A finding is new, ${code}: ${message}`),
    ...(more > 0 ? [`Besides, ${formatCount(more, "more finding")} ${more === 1 ? "is" : "are"} new.`] : []),
  ];
}

const MOST_FINDINGS = 3;

function whyAnother({ name }: Craft, change: ReturnType<typeof changesOf>[number]): string {
  if (typeof change === "string") return `“${name}” would be another craft after it: it would differ in “${change}”.`;
  const { what, before, after } = change;
  const said = (text: string | null) => (text === null ? "nothing" : `“${text}”`);
  return `“${name}” would be another craft after it: ${what} would be ${said(after)} and not ${said(before)}.`;
}
