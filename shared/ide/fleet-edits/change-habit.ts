/** A mode put on other positions on many craft at once: what becomes of each of them, and the lines that change. */
import { type Craft, isOutput, modeNamed } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { FleetChangeCraft, FleetChangeLine } from "../../protocol/fleet-change.ts";
import { type Condition, walkCondition } from "../../syntax/condition.ts";
import { printCondition } from "../../syntax/print-value.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Steps } from "../../text/steps.ts";
import { type Difference, differencesOf } from "../compare/compare.ts";
import { wordsOf } from "../compare/words.ts";
import { missingParts } from "../context/missing-parts.ts";
import { newerEdition } from "../edits/script-edits.ts";
import { type CoreChange, few, foundAnew, isGrave, withEdits } from "./change-core.ts";
import { type HabitLines, type HabitTask, habitLines } from "./habit-lines.ts";
import { habitsOf } from "./habits.ts";
import { readCondition, whyNotOn } from "./new-condition.ts";

export interface HabitChange {
  readonly handset: FilePath;
  /** A mode by its name, an output as `outputs.NAME`. */
  readonly mode: string;
  /** The habit that is changed, as `habitsOf` names it; null for any. */
  readonly from: string | null;
  readonly to: string;
  /** Null for what is left out before anybody has looked: craft on which something new would be found. */
  readonly leftOut: readonly FilePath[] | null;
}

/** What becomes of the craft with this habit; a sentence where the condition is none, or no craft has the habit. */
export function* changeHabit(workspace: Workspace, asked: HabitChange): Steps<CoreChange | string> {
  const what = isOutput(asked.mode) ? asked.mode : `modes.${asked.mode}`;
  const read = readCondition(workspace, what, asked.to);
  if (typeof read === "string") return read;
  const files = yield* craftWithHabit(workspace, asked);
  if (files.length === 0) return `No craft with this handset says “${asked.mode}” so any more.`;
  const task: HabitTask = { workspace, what, name: asked.mode, script: read.script };
  const known = files.flatMap((file) => workspace.craft(file) ?? []);
  const same: string[] = [];
  const barred = new Map<FilePath, string>();
  const open: Craft[] = [];
  for (const craft of known) {
    yield;
    const why = whyNotChanged(task, craft, read.condition);
    if (why !== null) barred.set(craft.file, why);
    else if (isSoAlready(task, craft)) same.push(craft.name);
    else open.push(craft);
  }
  const all = yield* habitLines(task, open);
  const tried = withEdits(workspace, all.files);
  const rows = new Map<FilePath, FleetChangeCraft>();
  for (const craft of open) {
    rows.set(craft.file, yield* rowOf(task, craft, { lines: all, tried, read }));
    yield;
  }
  const isOpen = ({ file }: Craft) => rows.get(file)!.notOffered === null;
  const leftOut =
    asked.leftOut ?? open.filter(({ file }) => rows.get(file)!.findings.some(isGrave)).map(({ file }) => file);
  const chosen = open.filter((craft) => isOpen(craft) && !leftOut.includes(craft.file));
  const made = chosen.length === open.length ? all : yield* habitLines(task, chosen);
  return {
    title: `${asked.mode} when ${printCondition(read.condition)}`,
    notes: notesOf(workspace, asked, same, made),
    craft: known.flatMap((craft): FleetChangeCraft[] => {
      const why = barred.get(craft.file) ?? made.refused.get(craft.file);
      if (why !== undefined) return [notOffered(craft, why)];
      const row = rows.get(craft.file);
      if (!row) return [];
      const isChosen = chosen.includes(craft);
      return [{ ...row, chosen: isChosen, lines: row.lines.map((line) => withPlace(line, craft, made, workspace)) }];
    }),
    files: made.files,
  };
}

/** The craft of the handset that have the habit, in order of path. */
function* craftWithHabit(workspace: Workspace, { handset, mode, from }: HabitChange): Steps<FilePath[]> {
  const all = yield* habitsOf(workspace);
  const habits = all.find(({ file }) => file === handset)?.modes.find(({ name }) => name === mode)?.habits ?? [];
  const meant = from === null ? habits : habits.filter(({ text }) => text === from);
  return meant.flatMap(({ craft }) => craft.map(({ file }) => file)).sort();
}

function whyNotChanged({ name }: HabitTask, craft: Craft, condition: Condition): string | null {
  if (craft.script.tree.newer) return newerEdition(craft.script);
  const why = whyNotOn(craft, condition);
  if (why !== null) return why;
  const loop = [...walkCondition(condition)].find((part) => part.kind === "mode" && dependsOn(craft, part.name, name));
  return loop?.kind === "mode"
    ? `“${loop.name}” itself depends on “${name}” on “${craft.name}”, so neither could ever be said.`
    : null;
}

/** Whether a mode names another one, itself or by what it names. */
function dependsOn(craft: Craft, name: string, other: string, seen: ReadonlySet<string> = new Set()): boolean {
  if (name === other) return true;
  if (seen.has(name)) return false;
  const condition = modeNamed(craft, name)?.condition;
  if (!condition) return false;
  const next = new Set([...seen, name]);
  return [...walkCondition(condition)].some((part) => part.kind === "mode" && dependsOn(craft, part.name, other, next));
}

function isSoAlready({ workspace, what, script }: HabitTask, craft: Craft): boolean {
  const wanted = workspace.laidOver(craft, script);
  return !differencesOf(craft, wanted, workspace.catalogue).some((each) => each.what === what);
}

interface Tried {
  readonly lines: HabitLines;
  readonly tried: Workspace;
  readonly read: { readonly script: Script; readonly condition: Condition };
}

function* rowOf(task: HabitTask, craft: Craft, { lines, tried, read }: Tried): Steps<FleetChangeCraft> {
  const { workspace, what, name } = task;
  const why = lines.refused.get(craft.file);
  if (why !== undefined) return notOffered(craft, why);
  const after = tried.craft(craft.file)!;
  const differences = differencesOf(craft, after, workspace.catalogue);
  const own = differences.find((each) => each.what === what);
  if (!own) return notOffered(craft, `“${name}” would stay as it is on “${craft.name}”, since a later line wins.`);
  const others = differences.filter((each) => each !== own);
  const words = (each: Difference) => wordsOf(each, craft, after, workspace);
  return {
    file: craft.file,
    name: craft.name,
    notOffered: null,
    chosen: true,
    lines: [lineOf(own, words(own))],
    findings: yield* foundAnew(workspace, tried, craft.file),
    notes: [
      ...others.map((each) => `With it: ${words(each)}.`),
      ...sharedTests(craft, name, read.condition),
      ...missingParts(craft).map(({ message }) => `Not all of this craft is known: ${message}`),
    ],
  };
}

function lineOf({ what, risk, before, after, beforeAt }: Difference, words: string): FleetChangeLine {
  return { what, words, risk, before, after, at: beforeAt, into: null, choice: "none", notTaken: null };
}

function withPlace(line: FleetChangeLine, craft: Craft, { into }: HabitLines, workspace: Workspace): FleetChangeLine {
  const file = into.get(craft.file);
  return { ...line, into: file === undefined || file === craft.file ? null : (workspace.script(file)?.name ?? null) };
}

function notOffered({ file, name }: Craft, why: string): FleetChangeCraft {
  return { file, name, notOffered: why, chosen: false, lines: [], findings: [], notes: [] };
}

/** Other modes that name a position which the new condition names as well. */
function sharedTests(craft: Craft, name: string, condition: Condition): string[] {
  const notes: string[] = [];
  for (const part of walkCondition(condition)) {
    if (part.kind !== "is" || part.negated) continue;
    const isIt = (each: Condition) =>
      each.kind === "is" && !each.negated && each.control === part.control && each.position === part.position;
    const names = [...craft.modes.keys(), ...[...craft.outputs.keys()].map((each) => `outputs.${each}`)].filter(
      (each) => {
        const other = each === name ? null : modeNamed(craft, each)?.condition;
        return other && [...walkCondition(other)].some(isIt);
      },
    );
    if (names.length > 0) notes.push(`${part.control} ${part.position} is also named by ${joinWithAnd(names)}.`);
  }
  return [...new Set(notes)];
}

function notesOf(
  workspace: Workspace,
  { mode }: HabitChange,
  same: readonly string[],
  { into, spared }: HabitLines,
): string[] {
  const layers = new Map<FilePath, number>();
  for (const [craft, file] of into) if (craft !== file) layers.set(file, (layers.get(file) ?? 0) + 1);
  const nameOf = (file: FilePath) => workspace.script(file)?.name ?? file;
  return [
    ...[...layers].map(([file, count]) => `“${nameOf(file)}” is changed once, and ${count} craft follow it.`),
    ...[...spared].map(
      ([file, names]) =>
        `“${nameOf(file)}” stays as it is, since ${few(names)} ${names.length === 1 ? "uses" : "use"} it as well: each craft that is chosen says ${mode} itself.`,
    ),
    ...(same.length > 0 ? [`So already: ${few(same)}.`] : []),
  ];
}
