/** The two states between which `fettle check --since` and `--staged` look for what a change brought. */
import { dirname, resolve } from "node:path";
import { findingsSince } from "../../../shared/ide/changes/since.ts";
import { type OwnWords, readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { isBelow, isScriptFile, isWordsFile } from "../../../shared/model/file-names.ts";
import { type FileAnswer, type FilePath, type FileView, memoryFiles } from "../../../shared/model/files.ts";
import type { FlownCraft } from "../../../shared/model/flown.ts";
import type { RuleLevels } from "../../../shared/model/rule-levels.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { withHabits } from "../../../shared/rules/lib/fleet-habits.ts";
import { flownIn } from "../../../shared/rules/lib/flown.ts";
import { pastReader } from "../../../shared/rules/lib/past-checks.ts";
import {
  isFolder,
  isSkipped,
  isThere,
  listScripts,
  nameFrom,
  readScriptFile,
  realPathOf,
  toPath,
} from "../node/disk.ts";
import { isUnborn, NoRevision, type Repository, repositoryAround, unmergedPaths } from "../node/git.ts";
import { makeCheckedPasts, withPast } from "../node/git-checks.ts";
import { type RevisionFiles, wholeRevision } from "../node/git-view.ts";
import { CannotRun, type Io } from "./io.ts";
import { tellProblems } from "./own-words.ts";
import {
  type CoreOfWords,
  type FilesAt,
  type Opened,
  openScripts,
  openWorkspaces,
  readTogether,
  type Scripts,
  whyNot,
} from "./scripts.ts";

/** What is looked at, and against which state it is held. */
export interface ChangeAsked {
  readonly paths: readonly string[];
  /** A revision; where none is named, the last commit. */
  readonly since: string | undefined;
  /** What is staged is looked at, in place of the working tree. */
  readonly staged: boolean;
  readonly handset: string | undefined;
  readonly levels: RuleLevels;
  /** The paths of craft that are flown at the same time. */
  readonly together: readonly string[];
}

export interface Change {
  /** The scripts as they are now. */
  readonly scripts: Scripts;
  /** What a reader is told that the findings are new since. */
  readonly words: string;
  /** The findings that the earlier state did not have. */
  findings(): readonly Finding[];
}

type Revision = ReturnType<typeof wholeRevision>;

/** Opens both states. A revision that there is not, or no repository, is refused in words. */
export async function openChange(asked: ChangeAsked, io: Io): Promise<Change> {
  const option = asked.since === undefined ? "--staged" : `--since ${asked.since}`;
  if (asked.paths.includes("-"))
    throw new CannotRun(`“-” has no earlier state, so ${option} has nothing to hold it to`);
  try {
    const repository = repositoryAround(io.folder);
    if (repository.top === null) throw new NoRevision("no working tree is around this folder, as in a bare repository");
    const { top } = repository;
    const earlier = earlierOf(repository, asked);
    const scripts = asked.staged ? await openStaged(repository, top, asked, io) : await openWorkingTree(top, asked, io);
    const states = await Promise.all(
      [...byWorkspace(scripts.opened)].map(async ([now, files]) => ({
        now,
        files,
        before: await workspaceBefore(earlier, now, files[0]!, top, scripts, asked),
      })),
    );
    return {
      scripts,
      words: asked.since === undefined ? "the last commit" : asked.since,
      findings: () => states.flatMap(({ before, now, files }) => findingsSince(before, now, files, scripts.handset)),
    };
  } catch (error) {
    if (error instanceof NoRevision) throw new CannotRun(`${option}: ${error.message}`);
    throw error;
  }
}

/** The earlier state; null where nothing has been committed yet, so that all is new. */
function earlierOf(repository: Repository, { since }: ChangeAsked): Revision | null {
  if (since === undefined) return isUnborn(repository.folder) ? null : wholeRevision(repository, "HEAD");
  // The empty name and `:N` would be the index, which is no revision.
  if (/^(:[0-3])?$/.test(since)) throw new NoRevision(`git knows no revision “${since}” here`);
  return wholeRevision(repository, since);
}

/** The scripts of the working tree. Those of another repository in it, such as a submodule, are in no revision of this one. */
function openWorkingTree(top: FilePath, { paths, handset, levels, together }: ChangeAsked, io: Io): Promise<Scripts> {
  const nameOf = (file: string) => nameFrom(realPathOf(io.folder), file);
  const filesAt: FilesAt = (at, _path, refused) => {
    const stranger = `${nameOf(at)}: it belongs to another repository than the working folder, or to none`;
    if (isFolder(at)) {
      const real = realPathOf(at);
      if (!isBelow(top, real) && !isInRepository(`${real}/.`, top)) {
        refused.push(stranger);
        return [];
      }
      const report = (below: string, why: string) => refused.push(`${below}: the folder cannot be read: ${why}`);
      return listScripts(at, report).filter((each) => isInRepository(realPathOf(each), top));
    }
    if (!isThere(at) || isInRepository(realPathOf(at), top)) return [at];
    refused.push(stranger);
    return [];
  };
  return openScripts(paths, io, { handset, levels, filesAt, pasts: makeCheckedPasts(), together });
}

function isInRepository(file: FilePath, top: FilePath): boolean {
  if (!isBelow(file, top)) return false;
  for (let each = dirname(file); each !== top && isBelow(each, top); each = dirname(each))
    if (isThere(`${each}/.git`)) return false;
  return true;
}

/** The scripts as they are staged, and with them everything that they use. */
async function openStaged(repository: Repository, top: FilePath, asked: ChangeAsked, io: Io): Promise<Scripts> {
  const open = unmergedPaths(repository).find(isScriptFile);
  if (open !== undefined) throw new NoRevision(`${open} is in conflict: resolve it and stage it first`);
  const staged = wholeRevision(repository, "");
  const folder = realPathOf(io.folder);
  const nameOf = (file: string) => nameFrom(folder, file);
  const handset = asked.handset === undefined ? undefined : heldHandset(asked.handset, io);
  const workspaces = new Map<FilePath, { readonly workspace: Workspace; readonly core: CoreOfWords }>();
  const pasts = makeCheckedPasts();
  let wordsFaulty = false;
  let flown: readonly FlownCraft[] = [];
  const around = async (inTree: string) => {
    const files = staged.around(inTree);
    const known = workspaces.get(files.root);
    if (known) return known;
    const words = await wordsOf(files);
    tellProblems(words.problems, io, nameOf);
    wordsFaulty ||= words.problems.some(({ severity }) => severity === "error");
    const core = { core: makeCore(words.catalogue), key: words.key };
    const held = { ...withHandset(files.view, handset), together: () => flown, isPatient: true };
    const past = withPast(held, pasts, pastReader(makeCore(words.catalogue)));
    const view = withHabits(past, core.core, files.view.list);
    const opened = { workspace: core.core.at(view, asked.levels), core };
    workspaces.set(files.root, opened);
    return opened;
  };
  if (asked.together.length > 0) {
    const disk = openWorkspaces(new Map(), io, nameOf);
    const workspaceAround = async (file: FilePath) =>
      isBelow(file, top) ? (await around(file.slice(top.length + 1))).workspace : disk.around(file);
    flown = await readTogether(asked.together, io, workspaceAround);
  }
  const refused: string[] = [];
  const found = new Map<string, Workspace>();
  const inIndex = [...staged.entries.keys()].filter((path) => isScriptFile(path) && !path.split("/").some(isSkipped));
  for (const path of asked.paths) {
    const at = toPath(resolve(io.folder, path));
    const real = isBelow(at, top) ? at : realPathOf(at);
    const inTree = real === top ? "" : isBelow(real, top) ? real.slice(top.length + 1) : null;
    if (inTree !== null && staged.entries.has(inTree)) {
      const { workspace } = await around(inTree);
      const file = workspace.view.realPath(`${top}/${inTree}`);
      const answer = workspace.view.read(file);
      if (answer?.kind === "text") found.set(file, workspace);
      else refused.push(`${path}: ${whyNot(answer)}`);
      continue;
    }
    const below = inIndex.filter((each) => inTree === "" || (inTree !== null && each.startsWith(`${inTree}/`)));
    if (below.length === 0 && (inTree === null || !isFolder(at))) refused.push(`${path}: it is not staged`);
    for (const each of below) {
      const { workspace } = await around(each);
      const file = workspace.view.realPath(`${top}/${each}`);
      if (workspace.view.read(file)?.kind === "text") found.set(file, workspace);
    }
  }
  return {
    opened: [...found].map(([file, workspace]) => ({ file, workspace })),
    refused,
    wordsFaulty,
    handset: handset?.file,
    nameOf,
    coreOf: (workspace) => [...workspaces.values()].find((each) => each.workspace === workspace)!.core,
  };
}

/** The earlier state of a workspace. It is read by what reads the present one, where own words are the same, so that what is equal is judged once. */
async function workspaceBefore(
  earlier: Revision | null,
  now: Workspace,
  file: FilePath,
  top: FilePath,
  scripts: Scripts,
  { levels, since }: ChangeAsked,
): Promise<Workspace> {
  const present = scripts.coreOf(now);
  if (earlier === null) return present.core.at(memoryFiles({}), levels);
  const files = earlier.around(file.slice(top.length + 1));
  const words = await wordsOf(files);
  const core = words.key === present.key ? present.core : makeCore(words.catalogue);
  const { handset } = scripts;
  const view =
    handset === undefined ? files.view : withHandset(files.view, { file: handset, answer: now.view.read(handset)! });
  const past = withPast(view, makeCheckedPasts(since), pastReader(makeCore(words.catalogue)));
  const together = flownBefore(now.view.together?.() ?? [], core.at(past), files.root);
  return core.at({ ...withHabits(past, core, view.list), together: () => together, isPatient: true }, levels);
}

/** The craft that fly together as they were; those of other workspaces are taken as they are. */
function flownBefore(now: readonly FlownCraft[], before: Workspace, root: FilePath): readonly FlownCraft[] {
  return now.flatMap((craft) => (isBelow(craft.file, root) ? flownIn(before, [craft.file]) : craft));
}

function wordsOf(files: RevisionFiles): Promise<OwnWords> {
  return readOwnWords(files.files(isWordsFile).map((file) => ({ file, answer: files.view.read(file)! })));
}

interface HeldHandset {
  readonly file: FilePath;
  readonly answer: FileAnswer;
}

/** The handset that stands in, as the disk has it: a revision without it is judged by that one. */
function heldHandset(path: string, io: Io): HeldHandset {
  const file = realPathOf(toPath(resolve(io.folder, path)));
  const answer = scriptAnswer(readScriptFile(file));
  if (answer.kind !== "text") throw new CannotRun(`${path}: ${whyNot(answer)}`);
  return { file, answer };
}

function withHandset(view: FileView, handset: HeldHandset | undefined): FileView {
  if (!handset) return view;
  return {
    ...view,
    read(path) {
      const answer = view.read(path);
      return path === handset.file && answer?.kind !== "text" ? handset.answer : answer;
    },
  };
}

function byWorkspace(opened: readonly Opened[]): ReadonlyMap<Workspace, readonly FilePath[]> {
  const files = new Map<Workspace, FilePath[]>();
  for (const { file, workspace } of opened) files.set(workspace, [...(files.get(workspace) ?? []), file]);
  return files;
}
