/** What each mode is on with, over all craft of a handset: the same meaning is one habit, however it is written. */
import { type Craft, type Mode, modeNamed } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Habit, HandsetHabits } from "../../protocol/fleet-change.ts";
import type { Steps } from "../../text/steps.ts";
import { isSameCondition, pairedConditions } from "../compare/conditions.ts";

/** By handset, in order of path, with those modes first that most craft have. A step is one craft. */
export function* habitsOf(workspace: Workspace): Steps<HandsetHabits[]> {
  const found = new Map<FilePath, FoundHandset>();
  for (const file of workspace.view.list()) {
    const craft = workspace.script(file)?.kind === "craft" ? workspace.craft(file) : null;
    yield;
    if (!craft?.handset || craft.script.tree.newer) continue;
    const of = found.get(craft.handset.file) ?? { name: craft.handset.name, modes: new Map(), tests: testsOf(craft) };
    found.set(craft.handset.file, of);
    for (const [name, mode] of namedConditions(craft)) {
      if (mode.condition === null) continue;
      const groups = of.modes.get(name) ?? [];
      of.modes.set(name, groups);
      putIn(groups, workspace, craft, name, mode);
    }
  }
  return [...found].map(([file, { name, modes, tests }]) => ({
    file,
    name,
    modes: [...modes]
      .map(([mode, groups]) => ({
        name: mode,
        habits: groups.map(toHabit).sort((a, b) => b.craft.length - a.craft.length),
      }))
      .sort((a, b) => countOf(b.habits) - countOf(a.habits)),
    tests,
  }));
}

interface FoundHandset {
  readonly name: string;
  readonly modes: Map<string, Group[]>;
  readonly tests: readonly string[];
}

/** Craft with one habit. */
interface Group {
  /** The first of them, with which others are compared; its mode as it was read. */
  readonly file: FilePath;
  readonly texts: Map<string, number>;
  readonly craft: { readonly file: FilePath; readonly name: string }[];
}

function putIn(groups: Group[], workspace: Workspace, craft: Craft, name: string, mode: Mode): void {
  const group =
    groups.find(({ texts }) => texts.has(mode.text)) ?? groups.find((each) => isSame(workspace, each, craft, name));
  const into: Group = group ?? { file: craft.file, texts: new Map(), craft: [] };
  if (!group) groups.push(into);
  into.texts.set(mode.text, (into.texts.get(mode.text) ?? 0) + 1);
  into.craft.push({ file: craft.file, name: craft.name });
}

/** Written otherwise, and on in the same states all the same. */
function isSame(workspace: Workspace, { file }: Group, craft: Craft, name: string): boolean {
  const first = workspace.craft(file)!;
  return isSameCondition(name, modeNamed(first, name)!, modeNamed(craft, name)!, pairedConditions(first, craft));
}

function toHabit({ texts, craft }: Group): Habit {
  const [text] = [...texts].sort(([, a], [, b]) => b - a)[0]!;
  return { text, craft };
}

function countOf(habits: readonly Habit[]): number {
  return habits.reduce((sum, { craft }) => sum + craft.length, 0);
}

/** Modes by their name, outputs as `outputs.NAME`. */
function namedConditions({ modes, outputs }: Craft): (readonly [string, Mode])[] {
  return [...modes, ...[...outputs].map(([name, output]) => [`outputs.${name}`, output] as const)];
}

/** One position of one control each, in the order of the handset. */
function testsOf({ controls }: Craft): string[] {
  return [...controls].flatMap(([name, { value }]) =>
    value?.kind === "control" ? value.positions.map((position) => `${name} is ${position.name}`) : [],
  );
}
