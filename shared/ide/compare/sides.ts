/** The two sides of a comparison as craft, wherever they were read from, and what is to be known of them. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { NOT_UNDERSTOOD } from "../../model/line-faults.ts";
import { mergeCraft } from "../../model/merge.ts";
import type { Script } from "../../model/script.ts";
import { planOf, type ScriptLookup } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { missingParts } from "../context/missing-parts.ts";
import { areWrittenAlike, pairedConditions } from "./conditions.ts";

/** A script among the files that it uses. */
export interface Side {
  readonly workspace: Workspace;
  readonly file: FilePath;
  /** What the side is called in notes, such as “Tankard at HEAD”. */
  readonly name: string;
  /** True for a text that lies nowhere: its handset may be in a file that is not here. */
  readonly isAlone?: boolean;
}

export interface ComparedCraft {
  readonly before: Craft;
  readonly after: Craft;
  /** What is to be known of the comparison, a sentence each. */
  readonly notes: readonly string[];
}

/**
 * Both sides as craft: a layer or a handset by itself as if it were one. A layer that names no handset, and a craft whose
 * handset is missing, has that of the other side, else that of a craft that uses the layer. Null where one of them has no text.
 */
export function comparedCraft(mine: Side, theirs: Side): ComparedCraft | null {
  const [a, b] = [mine, theirs].map(({ workspace, file }) => workspace.craftLike(file));
  if (!a || !b) return null;
  const stand = standIn(a, mine) ?? standIn(b, theirs) ?? userOf(a, mine) ?? userOf(b, theirs);
  const [before, after] = [withHandset(a, mine, stand), withHandset(b, theirs, stand)];
  const notes = [...sideNotes(mine, a, before), ...sideNotes(theirs, b, after), ...controlNotes(before, after)];
  return { before, after, notes: [...new Set(notes)] };
}

/** A craft whose handset may stand in, with the files among which it was read. */
interface Stand {
  readonly craft: Craft;
  readonly workspace: Workspace;
}

function standIn(craft: Craft, { workspace }: Side): Stand | null {
  return craft.handset ? { craft, workspace } : null;
}

function userOf({ script }: Craft, { workspace, file }: Side): Stand | null {
  if (script.kind !== "layer") return null;
  for (const each of workspace.craftFilesWith(file)) {
    const craft = workspace.craft(each)!;
    if (craft.handset !== null) return { craft, workspace };
  }
  return null;
}

/** A layer by itself, or a craft whose handset is not there, with the handset of another. */
function withHandset(craft: Craft, side: Side, stand: Stand | null): Craft {
  const { workspace } = side;
  const handset = stand?.craft.handset;
  if (!stand || !handset || !mayLackHandset(craft, side)) return craft;
  const files = new Set(stand.craft.scripts.filter(({ kind }) => kind === "handset").map(({ file }) => file));
  const from = (file: FilePath): Workspace => (files.has(file) ? stand.workspace : workspace);
  const both: ScriptLookup = {
    view: {
      ...workspace.view,
      read: (file) => from(file).view.read(file),
      realPath: (file) => from(file).view.realPath(file),
    },
    script: (file) => from(file).script(file),
  };
  return mergeCraft(craft.script, planOf(both, craft.script, handset), workspace.catalogue, craft.coreMemo);
}

/** A layer need not name a handset, and the one that a craft names may not be there. A craft that names none has none. */
function mayLackHandset({ handset, script, gaps }: Craft, { isAlone }: Side): boolean {
  return handset === null && (isAlone === true || script.kind === "layer" || gaps.some(({ path }) => path !== null));
}

function sideNotes({ name }: Side, asRead: Craft, compared: Craft): string[] {
  const missing = missingParts(asRead).map(({ message }) => `${name}: ${message}`);
  const partial =
    asRead.script.kind === "layer"
      ? [`${name} is a layer, and says only part of a craft: what it does not say counts as not there.`]
      : [];
  const faults = faultNotes(name, asRead.script);
  const stands =
    !asRead.handset && compared.handset ? [`${name} has no handset here: “${compared.handset.name}” stands in.`] : [];
  return [...missing, ...faults, ...partial, ...stands];
}

/** Lines of a side's own file that are not understood: what they were to say is on neither side of any difference. */
function faultNotes(name: string, script: Script): string[] {
  const lines = [...new Set(script.issues.flatMap(({ code, span }) => (NOT_UNDERSTOOD.has(code) ? [span.line] : [])))];
  const [first] = lines;
  if (first === undefined) return [];
  return lines.length === 1
    ? [`${name}: line ${first + 1} has a fault, so what it was to say is not known.`]
    : [
        `${name}: ${lines.length} lines have a fault, the first is line ${first + 1}, so what they were to say is not known.`,
      ];
}

/** Where nothing is in the same states, conditions can only be compared as they are written. */
function controlNotes(before: Craft, after: Craft): string[] {
  if (areWrittenAlike(before, after) || pairedConditions(before, after)) return [];
  if (before.controls.size + after.controls.size === 0) return [];
  return [
    "The controls differ, so conditions are compared as they are written: the same words may mean another position, and other words the same.",
  ];
}
