/** Makes some names of a craft mean the same as on another craft, and touches nothing else. */

import { baseOf, type Craft, type Mode } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { mayHold } from "../../model/may-hold.ts";
import { mergeCraft } from "../../model/merge.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Condition } from "../../syntax/condition.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { type Difference, differencesOf, nameOf, sectionOf } from "../compare/compare.ts";
import { textWith, withFile } from "../context/trial.ts";
import { type AdoptScope, entryChanges } from "./adopt-entries.ts";
import { isHandsetWanted, notInThisFile, otherHandsetEdits } from "./adopt-handset.ts";
import { keptChanges } from "./adopt-kept.ts";
import type { FileEdits } from "./osd-write.ts";
import { editsOf, lineOfChange, type ScriptChange } from "./script-changes.ts";
import { whyNotWritable } from "./script-edits.ts";
import { statedIn } from "./stated.ts";

/** Something that was asked for and is not the same afterwards, with the reason in a sentence. */
export interface NotAdopted {
  readonly what: string;
  /** True where it is written all the same, and comes to something else only through what it depends on. */
  readonly isWritten: boolean;
  readonly message: string;
}

export type Adoption =
  /** The edits are those of one file, or none where all that was asked for is the same already. */
  | { readonly kind: "edits"; readonly files: readonly FileEdits[]; readonly left: readonly NotAdopted[] }
  | { readonly kind: "refused"; readonly message: string };

/**
 * The edits of one file after which `mine` has in each of `whats` (as in `Difference.what`) what `theirs` has. `into` is
 * the file of `mine`, or a layer or the handset that it uses. A line that says it there is changed in its value alone;
 * what earlier files say is overridden or dropped. Where all differences are asked for, what would differ anew because
 * of them is made the same as well. Refused only where nothing of it can be done.
 */
export function adoptEdits(
  workspace: Workspace,
  mine: Craft,
  theirs: Craft,
  whats: readonly string[],
  into: FilePath,
): Adoption {
  if (!mine.scripts.some(({ file }) => file === into))
    return { kind: "refused", message: `“${mine.name}” is not made of ${into}, so nothing is written there.` };
  const differences = differencesOf(mine, theirs, workspace.catalogue);
  const differing = new Set(differences.map(({ what }) => what));
  const asked = new Set(whats.filter((what) => differing.has(what)));
  if (asked.size === 0) return { kind: "edits", files: [], left: [] };
  const task: Task = { workspace, mine, theirs, into, asked, differing, differences };
  const forced = new Map<string, Difference>();
  let attempt = attemptOf(task, forced);
  for (let round = 0; round < MOST_ROUNDS && asked.size === differing.size; round++) {
    const anew = attempt.remaining.filter(({ what }) => !asked.has(what) && !forced.has(what));
    if (anew.length === 0) break;
    for (const each of anew) forced.set(each.what, each);
    attempt = attemptOf(task, forced);
  }
  const left = [...attempt.left, ...stillOther(attempt, asked, theirs)];
  if (attempt.edits.length > 0) return { kind: "edits", files: [{ file: into, edits: attempt.edits }], left };
  const [first, ...others] = left;
  const more = others.length > 0 ? ` The same holds for ${others.length} more, each for a reason of its own.` : "";
  return { kind: "refused", message: `${first?.message ?? "There is nothing to take."}${more}` };
}

/** How often what differs anew is made the same too: conditions that name each other may need it more than once. */
const MOST_ROUNDS = 3;

interface Task {
  readonly workspace: Workspace;
  readonly mine: Craft;
  readonly theirs: Craft;
  readonly into: FilePath;
  readonly asked: ReadonlySet<string>;
  /** All that differs before anything is changed, and the names of it. */
  readonly differences: readonly Difference[];
  readonly differing: ReadonlySet<string>;
}

interface Attempt {
  readonly edits: readonly TextEdit[];
  readonly left: readonly NotAdopted[];
  /** What differs once the edits are made. */
  readonly remaining: readonly Difference[];
}

/** The edits for all that is asked, and for what is `forced` besides, with what is the case once they are made. */
function attemptOf(task: Task, forced: ReadonlyMap<string, Difference>): Attempt {
  const { workspace, mine, theirs, into, asked, differing } = task;
  const handset = isHandsetWanted(mine, theirs, into, asked, differing)
    ? otherHandsetEdits(workspace, mine, theirs, into)
    : null;
  const taken = Array.isArray(handset) ? (handset as readonly TextEdit[]) : null;
  const craft = taken ? workspace.craftLike(mine.file, theirs.handset!.file)! : mine;
  const now = taken ? differencesOf(craft, theirs, workspace.catalogue) : task.differences;
  // What only another handset makes differ is put right too; what it makes the same is done.
  const open = now.filter(({ what }) => asked.has(what) || !differing.has(what));
  for (const [what, difference] of forced) if (!open.some((each) => each.what === what)) open.push(difference);

  const scope = scopeOf(craft, into, workspace);
  const changes: ScriptChange[] = [];
  const left: NotAdopted[] = [];
  for (const { what } of inOrderOf(theirs, open, workspace)) {
    const isHandset = what === "handset.name" || (what.startsWith("transmitter.") && scope.script.kind !== "handset");
    const wanted = typeof handset === "string" && isHandset ? handset : changesFor(task, scope, what);
    const why = typeof wanted === "string" ? wanted : notWritable(workspace, scope.script, wanted);
    if (why !== null) left.push({ what, isWritten: false, message: why });
    else changes.push(...(wanted as readonly ScriptChange[]));
  }
  const edits = [...(taken ?? []), ...editsOf(scope.script, changes)];
  return {
    edits,
    left,
    remaining: edits.length === 0 ? now : remainingAfter(task, scope.script, edits, taken !== null),
  };
}

/** A file of a craft that is to be changed, between those before it and those behind it. */
export function scopeOf(craft: Craft, into: FilePath, { catalogue }: Workspace): AdoptScope {
  const at = craft.scripts.findIndex(({ file }) => file === into);
  const parts = craft.scripts.slice(0, at).map((script) => ({ script, viaLine: 0 }));
  return {
    script: craft.scripts[at]!,
    base: mergeCraft(craft.script, { handset: craft.handset, parts, gaps: [] }, catalogue, craft.coreMemo),
    later: craft.scripts.slice(at + 1),
  };
}

/** The changes for one name; a sentence where it cannot be taken. */
function changesFor(task: Task, scope: AdoptScope, what: string): readonly ScriptChange[] | string {
  const { workspace, mine, theirs, differing } = task;
  const [section, name] = [sectionOf(what), nameOf(what)];
  const spec = workspace.catalogue.section(baseOf(section));
  if (!(spec && mayHold(spec, scope.script.kind)))
    return scope.script.kind === "handset"
      ? `A handset's file holds nothing of “${baseOf(section)}”: take “${name}” into the craft or a layer.`
      : notInThisFile(mine, name, differing);
  if (section === "verbatim") {
    const kept = theirs.kept.filter(({ dialect }) => dialect === name);
    return keptChanges(
      scope,
      name,
      kept.map(({ text }) => text),
    );
  }
  const wanted = statedIn(theirs, section, name);
  if (wanted?.kind === "faulty")
    return `The line that says “${name}” on the other side has a fault, so there is no value to take.`;
  return entryChanges(scope, section, name, wanted);
}

/** Why one of the lines that changes touch must not be changed; null where all may be. */
export function notWritable(workspace: Workspace, script: Script, changes: readonly ScriptChange[]): string | null {
  for (const change of changes) {
    const why = whyNotWritable(workspace, script, lineOfChange(script, change));
    if (why !== null) return why;
  }
  return null;
}

/** In the order of the catalogue's sections and, in each, of the other craft's lines: so new lines come to stand. */
function inOrderOf(theirs: Craft, differences: readonly Difference[], { catalogue }: Workspace): Difference[] {
  const rank = new Map(catalogue.sections.map(({ name }, i) => [name, i]));
  const files = new Map(theirs.scripts.map(({ file }, i) => [file, i]));
  const keys = differences.map((difference) => {
    const { what, afterAt } = difference;
    const section = rank.get(baseOf(sectionOf(what))) ?? -1;
    return { difference, section, file: files.get(afterAt?.file ?? "") ?? files.size, line: afterAt?.line ?? 0 };
  });
  keys.sort((a, b) => a.section - b.section || a.file - b.file || a.line - b.line);
  return keys.map(({ difference }) => difference);
}

/** What differs once the edits are made. */
function remainingAfter(
  { workspace, mine, theirs }: Task,
  script: Script,
  edits: readonly TextEdit[],
  isOtherHandset: boolean,
): readonly Difference[] {
  const tried = withFile(workspace, script.file, textWith(script, edits));
  // A handset that only stands in for the craft's own stays.
  const isOwn = isOtherHandset || workspace.craftLike(mine.file) === mine;
  const craft = isOwn ? tried.craftLike(mine.file) : tried.craftLike(mine.file, mine.handset?.file);
  return craft ? differencesOf(craft, theirs, workspace.catalogue) : [];
}

/** What was asked for, was written, and still differs: it depends on more than its own line. */
function stillOther({ left, remaining }: Attempt, asked: ReadonlySet<string>, theirs: Craft): NotAdopted[] {
  const known = new Set(left.map(({ what }) => what));
  const others = new Set(remaining.map(({ what }) => what));
  return remaining.flatMap(({ what }) => {
    if (!asked.has(what) || known.has(what)) return [];
    const mode = theirs.modes.get(nameOf(what)) ?? theirs.outputs.get(nameOf(what));
    const named = mode ? modesNamed(mode).filter((each) => others.has(`modes.${each}`)) : [];
    const message =
      named.length > 0
        ? `“${nameOf(what)}” is written as on the other side, and names ${named.map((each) => `“${each}”`).join(", ")}, which is another here: take that too.`
        : `“${nameOf(what)}” is written as on the other side; what it depends on differs, so it still comes to something else here.`;
    return [{ what, isWritten: true, message }];
  });
}

/** The modes that the lines of a mode name, each once. */
function modesNamed({ lines }: Mode): string[] {
  const namesIn = (condition: Condition): string[] => {
    if (condition.kind === "mode") return [condition.name];
    if (condition.kind === "not") return namesIn(condition.part);
    return condition.kind === "and" || condition.kind === "or" ? condition.parts.flatMap(namesIn) : [];
  };
  return [...new Set(lines.flatMap(({ condition }) => (condition ? namesIn(condition) : [])))];
}
