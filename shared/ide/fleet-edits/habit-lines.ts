/** Where the lines of a new habit are written: in the layer that has them now, or in each craft. */
import { type Craft, modeNamed } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Steps } from "../../text/steps.ts";
import { adoptEdits } from "../edits/adopt.ts";
import type { FileEdits } from "../edits/osd-write.ts";

export interface HabitTask {
  readonly workspace: Workspace;
  /** Of a mode as `Difference.what` has it, and as conditions name it. */
  readonly what: string;
  readonly name: string;
  /** A layer that says the mode as it is to be. */
  readonly script: Script;
}

export interface HabitLines {
  readonly files: readonly FileEdits[];
  /** By craft the file in which its mode is said from now on. */
  readonly into: ReadonlyMap<FilePath, FilePath>;
  /** By craft why nothing can be written for it. */
  readonly refused: ReadonlyMap<FilePath, string>;
  /** Layers that stay as they are, since craft that are left out use them as well. */
  readonly spared: ReadonlyMap<FilePath, readonly string[]>;
}

/**
 * The edits after which these craft, and no other, have the new habit. A layer is changed once where every craft whose
 * mode it says is among them; else each of those craft says it itself, and what is left out is not touched.
 */
export function* habitLines(task: HabitTask, crafts: readonly Craft[]): Steps<HabitLines> {
  const chosen = new Set(crafts.map(({ file }) => file));
  const byFile = new Map<FilePath, Craft[]>();
  for (const craft of crafts) {
    const file = saidIn(craft, task.name);
    byFile.set(file, [...(byFile.get(file) ?? []), craft]);
  }
  const files: FileEdits[] = [];
  const into = new Map<FilePath, FilePath>();
  const refused = new Map<FilePath, string>();
  const spared = new Map<FilePath, readonly string[]>();
  for (const [file, of] of byFile) {
    const isOwn = of.length === 1 && of[0]!.file === file;
    yield;
    const others = isOwn ? [] : yield* otherFollowers(task, file, chosen);
    if (others.length > 0) spared.set(file, others);
    const shared = isOwn || others.length > 0 ? null : editsFor(task, of[0]!, file);
    if (shared && typeof shared !== "string") {
      files.push(...shared);
      for (const craft of of) into.set(craft.file, file);
      continue;
    }
    for (const craft of of) {
      yield;
      const own = editsFor(task, craft, craft.file);
      if (typeof own === "string") refused.set(craft.file, own);
      else {
        files.push(...own);
        into.set(craft.file, craft.file);
      }
    }
  }
  return { files, into, refused, spared };
}

/** The last file of those that say a mode: its lines are the ones that count. */
export function saidIn(craft: Craft, name: string): FilePath {
  return modeNamed(craft, name)?.lines.at(-1)?.source.file ?? craft.file;
}

/** The names of all craft whose mode a file says, of whatever handset, but for those that are chosen. */
function* otherFollowers(
  { workspace, name }: HabitTask,
  file: FilePath,
  chosen: ReadonlySet<FilePath>,
): Steps<readonly string[]> {
  const names: string[] = [];
  for (const each of workspace.craftFilesWith(file)) {
    const craft = chosen.has(each) ? null : workspace.craft(each);
    if (craft && modeNamed(craft, name) && saidIn(craft, name) === file) names.push(craft.name);
    yield;
  }
  return names;
}

/** The edits of one file for one craft; a sentence where they cannot be made, or would not do. */
function editsFor({ workspace, what, script }: HabitTask, craft: Craft, into: FilePath): readonly FileEdits[] | string {
  const made = adoptEdits(workspace, craft, workspace.laidOver(craft, script), [what], into);
  if (made.kind === "refused") return made.message;
  const [left] = made.left;
  return left ? left.message : made.files;
}
