/** The two sides of `fettle compare`: files, standard input, or files of a revision of git. */
import { resolve } from "node:path";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { type ComparedCraft, comparedCraft, type Side } from "../../../shared/ide/compare/sides.ts";
import { readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";
import { isFolder, isThere, nameFrom, realPathOf, toPath } from "../node/disk.ts";
import { NoRevision, pathInTree, type Repository, repositoryAround, splitRevision } from "../node/git.ts";
import { type RevisionFiles, revisionFiles } from "../node/git-view.ts";
import { CannotRun, type Io } from "./io.ts";
import { inputPath, openWorkspaces, whyNot } from "./scripts.ts";

/** A side with the names under which its files are reported. */
export interface OpenedSide extends Side {
  /** As it was named on the command line. */
  readonly argument: string;
  nameOf(file: FilePath): string;
}

export interface ComparedSides extends ComparedCraft {
  readonly mine: OpenedSide;
  readonly theirs: OpenedSide;
}

/** Opens both sides. An argument is a file if that path exists, else `REV:PATH` of git. */
export async function openSides(first: string, second: string, io: Io): Promise<ComparedSides> {
  if (first === "-" && second === "-") throw new CannotRun("“-” stands for one of the two, as input is read once");
  const open = await openerOf([first, second], io);
  const [mine, theirs] = [await open(first), await open(second)];
  const compared = comparedCraft(mine, theirs);
  if (!compared) throw new Error("a script that was read is gone");
  return { mine, theirs, ...compared };
}

/** Opens the other side of a craft that is open already. */
export async function openOther(argument: string, io: Io): Promise<OpenedSide> {
  if (argument === "-") throw new CannotRun("“-” stands for the craft: name a file or REV:PATH to compare it with");
  return (await openerOf([argument], io))(argument);
}

async function openerOf(all: readonly string[], io: Io): Promise<(argument: string) => Promise<OpenedSide>> {
  const folder = realPathOf(io.folder);
  const held = new Map<FilePath, FileAnswer>();
  const input = inputPath(folder);
  if (all.includes("-")) held.set(input, scriptAnswer(textAnswer(await io.input())));
  const nameOf = (file: FilePath) => (file === input && held.has(input) ? "-" : nameFrom(folder, file));
  const workspaces = openWorkspaces(held, io, nameOf);
  return async (argument) => {
    const at = argument === "-" ? input : toPath(resolve(io.folder, argument));
    if (argument !== "-" && !isThere(at)) return openRevision(argument, io, workspaces.coreAround);
    if (argument !== "-" && isFolder(at)) throw new CannotRun(`${argument} is a folder: name one script in it`);
    const workspace = await workspaces.around(at);
    return named({ workspace, file: workspace.view.realPath(at), argument, nameOf });
  };
}

/** With the name of the script; refused where there is none to compare. */
function named(side: Omit<OpenedSide, "name">): OpenedSide {
  const { workspace, file, argument } = side;
  const script = workspace.script(file);
  if (!script) throw new CannotRun(`${argument}: ${whyNot(workspace.view.read(file))}`);
  if (script.tree.newer)
    throw new CannotRun(`${argument} is written in a newer edition of the language than this program knows`);
  return { ...side, name: argument };
}

async function openRevision(
  argument: string,
  io: Io,
  coreAround: (path: FilePath) => Promise<Core>,
): Promise<OpenedSide> {
  const parts = splitRevision(argument);
  if (!parts) throw new CannotRun(`${argument}: there is no such file`);
  const { revision, path } = parts;
  try {
    const repository = repositoryAround(io.folder);
    const inTree = pathInTree(repository, path);
    const files = revisionFiles(repository, revision, inTree);
    const top = repository.top ?? repository.folder;
    const at = inTree === "" ? top : `${top === "/" ? "" : top}/${inTree}`;
    const where = whereText(revision);
    if (inTree === "" || files.isFolder(at)) throw new CannotRun(`${argument} is a folder: name one script in it`);
    const file = files.view.realPath(at);
    if (files.view.read(file)?.kind === "missing")
      throw new CannotRun(`${argument}: ${inTree} is not ${where}${hereInstead(repository, parts, io)}`);
    const core = repository.top === null ? await coreOf(files) : await coreAround(at);
    // As it can be named again: a path from the top, whatever the working folder.
    const nameOf = (each: FilePath) => `${revision}:${files.nameOf(each)}`;
    return named({ workspace: core.at(files.view), file, argument, nameOf });
  } catch (error) {
    if (error instanceof NoRevision) throw new CannotRun(`${argument}: there is no such file, and ${error.message}`);
    throw error;
  }
}

/** A path from the working folder, as git wants it written: told where that names a file and the path from the top does not. */
function hereInstead(repository: Repository, { revision, path }: { revision: string; path: string }, io: Io): string {
  const isOther = repository.top !== null && pathInTree(repository, `./${path}`) !== pathInTree(repository, path);
  return isOther && isThere(toPath(resolve(io.folder, path))) ? `; from this folder it is ${revision}:./${path}` : "";
}

function whereText(revision: string): string {
  return /^(:[0-3])?$/.test(revision) ? "staged" : `in “${revision}”`;
}

/** Where there is no working tree, the words of the pilot's own are those of the revision. */
async function coreOf(files: RevisionFiles): Promise<Core> {
  const words = files.files(isWordsFile).map((file) => ({ file, answer: files.view.read(file)! }));
  return makeCore(words.length === 0 ? makeCatalogue() : (await readOwnWords(words)).catalogue);
}
