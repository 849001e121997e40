/** The moments of a craft: as it lies in the working tree, and as each commit has it. */
import { dirname, resolve } from "node:path";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Moment } from "../../../shared/ide/history/history.ts";
import { readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { isWordsFile } from "../../../shared/model/file-names.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";
import { isFolder, isThere, nameFrom, realPathOf, toPath } from "../node/disk.ts";
import { finishInGit, NoRevision, pathInTree, type Repository, repositoryAround, splitRevision } from "../node/git.ts";
import { type PastCommit, pastOf } from "../node/git-history.ts";
import { pathAtHead } from "../node/git-renamed.ts";
import { revisionFiles, topOf } from "../node/git-view.ts";
import { CannotRun, type Io } from "./io.ts";
import { openWorkspaces, whyNot } from "./scripts.ts";

/** A commit, or what is not committed yet. */
export interface PastMoment extends Moment {
  readonly commit: Pick<PastCommit, "id" | "author" | "date" | "subject"> | null;
}

/** All that is known of a craft's past. */
export interface Moments {
  /** Later ones first, each before its parents; the first one is how the craft is now. */
  readonly moments: readonly PastMoment[];
  /** What is to be known of them, a sentence each. */
  readonly notes: readonly string[];
  nameOf(file: FilePath): string;
}

const WORKING_TREE = "working tree";

/** The moments of a file of the disk, the working tree first; or of `REV:PATH`, from that revision on back. */
export async function openMoments(argument: string, io: Io): Promise<Moments> {
  if (argument === "-") throw new CannotRun("standard input has no history: name the file of a craft");
  const at = toPath(resolve(io.folder, argument));
  try {
    return isThere(at) ? await ofFile(argument, at, io) : await ofRevision(argument, io);
  } catch (error) {
    if (error instanceof NoRevision) throw new CannotRun(`${argument}: ${error.message}`);
    throw error;
  }
}

async function ofFile(argument: string, at: FilePath, io: Io): Promise<Moments> {
  if (isFolder(at)) throw new CannotRun(`${argument} is a folder: name one craft in it`);
  const nameOf = namesFrom(io);
  const workspaces = openWorkspaces(new Map(), io, nameOf);
  const workspace = await workspaces.around(at);
  const file = workspace.view.realPath(at);
  const answer = workspace.view.read(file);
  if (answer?.kind !== "text") throw new CannotRun(`${argument}: ${whyNot(answer)}`);
  const repository = repositoryAround(dirname(file));
  if (repository.top === null) throw new NoRevision("it lies in no working tree of git");
  const { folder } = repository;
  const own = nameFrom(realPathOf(repository.top), file);
  const inTree = finishInGit(folder, pathAtHead(repository, own, answer.text));
  const core = await workspaces.coreAround(at);
  const commits = finishInGit(folder, pastOf(repository, "HEAD", inTree, core));
  const now: PastMoment = {
    id: WORKING_TREE,
    parents: commits.slice(0, 1).map(({ id }) => id),
    workspace,
    file,
    isCut: false,
    commit: null,
  };
  return { moments: [now, ...commits.map((commit) => momentOf(commit, core))], notes: notesOn(commits), nameOf };
}

async function ofRevision(argument: string, io: Io): Promise<Moments> {
  const repository = repositoryOf(argument, io);
  // In a bare repository nothing lies on the disk: a path alone is meant as that of HEAD.
  const parts = splitRevision(argument) ?? (repository.top === null ? { revision: "HEAD", path: argument } : null);
  if (!parts) throw new CannotRun(`${argument}: there is no such file`);
  const { revision, path } = parts;
  if (/^(:[0-3])?$/.test(revision)) throw new CannotRun(`${argument}: what is staged has no history: name a revision`);
  const inTree = pathInTree(repository, path);
  const files = revisionFiles(repository, revision, inTree);
  const at = `${topOf(repository) === "/" ? "" : topOf(repository)}/${inTree}`;
  if (files.view.read(files.view.realPath(at))?.kind !== "text")
    throw new CannotRun(`${argument}: ${inTree} is no script in “${revision}”`);
  const core = await coreFor(repository, at, files, io);
  const commits = finishInGit(repository.folder, pastOf(repository, revision, inTree, core));
  return { moments: commits.map((commit) => momentOf(commit, core)), notes: notesOn(commits), nameOf: namesFrom(io) };
}

function repositoryOf(argument: string, io: Io): Repository {
  try {
    return repositoryAround(io.folder);
  } catch (error) {
    if (error instanceof NoRevision) throw new CannotRun(`${argument}: there is no such file`);
    throw error;
  }
}

/** Words of the pilot's own are those of the working tree; where there is none, those of the revision. */
async function coreFor(
  repository: Repository,
  at: FilePath,
  files: ReturnType<typeof revisionFiles>,
  io: Io,
): Promise<Core> {
  if (repository.top !== null) return openWorkspaces(new Map(), io, namesFrom(io)).coreAround(at);
  const words = files.files(isWordsFile).map((file) => ({ file, answer: files.view.read(file)! }));
  return makeCore(words.length === 0 ? makeCatalogue() : (await readOwnWords(words)).catalogue);
}

function momentOf({ id, parents, view, file, isCut, author, date, subject }: PastCommit, core: Core): PastMoment {
  return { id, parents, workspace: core.at(view), file, isCut, commit: { id, author, date, subject } };
}

function notesOn(commits: readonly PastCommit[]): string[] {
  if (commits.length === 0) return ["nothing of it has been committed yet"];
  return commits.some(({ isCut }) => isCut) ? ["this is a shallow clone: earlier commits are not in it"] : [];
}

function namesFrom(io: Io): (file: FilePath) => string {
  const folder = realPathOf(io.folder);
  return (file) => nameFrom(folder, file);
}
