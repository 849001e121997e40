/** git, run as a program and never through a shell, as far as scripts of a revision are read by it. */
import { execFile, spawnSync } from "node:child_process";
import type { FileAnswer } from "../../../shared/model/files.ts";
import { MOST_BYTES, tooLarge } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { toPath } from "./disk.ts";

/** Why git gave nothing, in words that follow a name and a colon. */
export class NoRevision extends Error {}

/** The repository around a folder. */
export interface Repository {
  /** The folder in which git is run. */
  readonly folder: string;
  /** The top of the working tree, an absolute path; null where there is none, as in a bare repository. */
  readonly top: string | null;
  /** The way from the top to the folder: empty, or with a `/` at its end. */
  readonly prefix: string;
}

/** A file, a link or a submodule of a revision. */
export interface TreeEntry {
  readonly kind: "file" | "link" | "submodule";
  readonly id: string;
}

/** More than any list of files needs: some hundred thousand names. */
const MOST_LIST_BYTES = 256 * 1024 * 1024;

/**
 * The repository in which a folder stands, as git itself finds it: variables such as GIT_DIR count.
 * @throws NoRevision where there is no git, or no repository
 */
export function repositoryAround(folder: string): Repository {
  return finishInGit(folder, findRepository(folder));
}

/** The same in steps, which are run in that folder. */
export function* findRepository(folder: string): GitSteps<Repository> {
  const found = yield* asking(["rev-parse", "--is-inside-work-tree", "--show-prefix"]);
  if (found.status !== 0) {
    if (/not a git repository/i.test(found.error)) throw new NoRevision("no git repository is around this folder");
    throw new NoRevision(`git does not open the repository: ${found.error}`);
  }
  const [isInside, prefix = ""] = found.out.toString("utf8").split("\n");
  if (isInside !== "true") return { folder, top: null, prefix: "" };
  const top = (yield* asking(["rev-parse", "--show-toplevel"])).out.toString("utf8").replace(/\n$/, "");
  return { folder, top: toPath(top), prefix };
}

/** The part before the colon and the part after it; null where there is none. A colon in braces, as in `HEAD@{10:30}`, is part of a revision. */
export function splitRevision(argument: string): { readonly revision: string; readonly path: string } | null {
  let depth = 0;
  for (let i = 0; i < argument.length; i++) {
    if (argument[i] === "{") depth++;
    else if (argument[i] === "}" && depth > 0) depth--;
    else if (argument[i] === ":" && depth === 0) {
      const rest = argument.slice(i + 1);
      // A stage of the index, as in `:2:craft/jug.fettle`, stands between two colons.
      const stage = i === 0 ? /^[0-3]:/.exec(rest)?.[0] : undefined;
      if (stage) return { revision: `:${stage.slice(0, 1)}`, path: rest.slice(stage.length) };
      return { revision: argument.slice(0, i), path: rest };
    }
  }
  return null;
}

/**
 * A path of a revision from the top of the tree, as git reads it: from the working folder where it begins with `./` or `../`.
 * @throws NoRevision where it leads out of the tree, or is to begin in a working folder that there is not
 */
export function pathInTree({ top, prefix }: Repository, path: string): string {
  const isFromHere = /^\.\.?(\/|$)/.test(path);
  if (isFromHere && top === null) throw new NoRevision("a path that begins with ./ needs a working tree");
  const parts: string[] = [];
  for (const part of `${isFromHere ? prefix : ""}${path}`.split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.pop() === undefined) throw new NoRevision("the path leads out of the repository");
  }
  return parts.join("/");
}

/**
 * Everything that a revision holds, by path from its top. The empty name, or `:N`, is the index: what is staged.
 * @throws NoRevision where there is no such revision, or more than one is meant
 */
export function treeOf(repository: Repository, revision: string): ReadonlyMap<string, TreeEntry> {
  const stage = /^(?::([0-3]))?$/.exec(revision);
  return stage ? indexOf(repository, stage[1] ?? "0") : committed(repository, revision);
}

function committed({ folder }: Repository, revision: string): ReadonlyMap<string, TreeEntry> {
  // What begins with a dash is no name of git's, and would be an option.
  if (revision.startsWith("-")) throw new NoRevision(`git knows no revision “${revision}” here`);
  const found = git(folder, ["rev-parse", "--verify", `${revision}^{tree}`]);
  if (found.status !== 0) throw new NoRevision(whyNone(folder, revision, found.error));
  const id = found.out.toString("utf8").trim();
  return entriesIn(list(folder, ["ls-tree", "-r", "-z", "--full-tree", id]), ([mode = "", , object = ""]) => ({
    mode,
    id: object,
  }));
}

/** Whether nothing has been committed yet. */
export function isUnborn(folder: string): boolean {
  return git(folder, ["rev-parse", "--verify", "--quiet", "HEAD"]).status !== 0;
}

function whyNone(folder: string, revision: string, error: string): string {
  if (/ambiguous/i.test(error)) return `several revisions begin with “${revision}”: write more of it`;
  if (revision.includes("..")) return `“${revision}” is several revisions, and one is compared`;
  if (/^(HEAD|@)/.test(revision) && isUnborn(folder)) return "nothing has been committed in this repository yet";
  const isShallow = git(folder, ["rev-parse", "--is-shallow-repository"]).out.toString("utf8").trim() === "true";
  const why = isShallow ? ": this clone holds the latest commits only, and “git fetch --unshallow” gets the rest" : "";
  return `git knows no revision “${revision}” here${why}`;
}

function indexOf({ folder, top }: Repository, stage: string): ReadonlyMap<string, TreeEntry> {
  if (top === null) throw new NoRevision("nothing is staged where there is no working tree");
  return entriesIn(list(folder, ["ls-files", "-s", "-z", "--full-name", ":/"]), ([mode = "", id = "", at]) =>
    at === stage ? { mode, id } : null,
  );
}

function list(folder: string, args: readonly string[]): string {
  const { status, out, error } = git(folder, args);
  if (status !== 0) throw new NoRevision(`git cannot list its files: ${error}`);
  return out.toString("utf8");
}

/** Records as git lists them: some words, a tab and a path, which a NUL ends. */
export function entriesIn(
  listed: string,
  read: (words: readonly string[]) => { readonly mode: string; readonly id: string } | null,
): ReadonlyMap<string, TreeEntry> {
  const entries = new Map<string, TreeEntry>();
  for (const record of listed.split("\0")) {
    const tab = record.indexOf("\t");
    const entry = tab < 0 ? null : read(record.slice(0, tab).split(/ +/));
    if (entry) entries.set(record.slice(tab + 1), { kind: kindOf(entry.mode), id: entry.id });
  }
  return entries;
}

/** What git is asked in a step of work that takes several. */
export interface GitCall {
  readonly args: readonly string[];
  readonly mostBytes?: number;
  readonly input?: string;
}

/**
 * Work in which git is asked now and then: whoever runs it may wait for git or not. A step without a question is a
 * pause, in which others may have their turn.
 */
export type GitSteps<T> = Generator<GitCall | undefined, T, Ran | undefined>;

/** Asks git one question. */
export function* asking(args: readonly string[], more: Omit<GitCall, "args"> = {}): GitSteps<Ran> {
  return (yield { args, ...more })!;
}

/** Runs all steps at once, in a folder. That git cannot be run is told to the steps, which may know what to do without it. */
export function finishInGit<T>(folder: string, steps: GitSteps<T>): T {
  for (let next = steps.next(); ; ) {
    if (next.done) return next.value;
    const call = next.value;
    let ran: Ran | undefined;
    try {
      ran = call && git(folder, call.args, call.mostBytes, call.input);
    } catch (error) {
      next = steps.throw(error);
      continue;
    }
    next = steps.next(ran);
  }
}

/** So long work goes on before others have their turn. */
const SLICE_MS = 10;

/** The same while others are served: nobody waits for git, and pauses are taken. */
export async function waitInGit<T>(folder: string, steps: GitSteps<T>): Promise<T> {
  let since = performance.now();
  for (let next = steps.next(); ; ) {
    if (next.done) return next.value;
    const call = next.value;
    if (!call && performance.now() - since <= SLICE_MS) {
      next = steps.next();
      continue;
    }
    let ran: Ran | undefined;
    try {
      if (call) ran = await gitBeside(folder, call);
      else await new Promise((resolve) => setImmediate(resolve));
    } catch (error) {
      next = steps.throw(error);
      continue;
    } finally {
      since = performance.now();
    }
    next = steps.next(ran);
  }
}

/** As `git`, as a process that is not waited for. */
function gitBeside(folder: string, { args, mostBytes = MOST_LIST_BYTES, input }: GitCall): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const options = {
      cwd: folder,
      maxBuffer: mostBytes,
      windowsHide: true,
      encoding: "buffer" as const,
      env: environment(),
    };
    const child = execFile("git", [...args], options, (error, stdout, stderr) => {
      const code = (error as NodeJS.ErrnoException | null)?.code as string | number | undefined;
      if (code === "ENOENT") return reject(new NoRevision(NO_GIT));
      const isTooMuch = code === "ERR_CHILD_PROCESS_STDIO_MAXBUFFER";
      const status = error ? (typeof code === "number" ? code : null) : 0;
      resolve({ status, out: stdout, error: firstLine(stderr), isTooMuch });
    });
    // Whoever ends before it has read everything is told of by its status.
    child.stdin?.on("error", () => {});
    child.stdin?.end(input ?? "");
  });
}

/** What git says is looked at, so it has to say it in one language. */
function environment() {
  return { ...process.env, LC_ALL: "C" };
}

const NO_GIT = "git was not found: a revision is read through it";

/** The first line of what git said, without its own “fatal:”. */
function firstLine(stderr: Buffer): string {
  const [said = ""] = stderr.toString("utf8").trim().split("\n");
  return said.replace(/^(fatal|error): /, "");
}

/** Modes of git's tree objects (gitformat-index): 120000 is a symbolic link, 160000 a submodule. */
export function kindOf(mode: string): TreeEntry["kind"] {
  if (mode === "120000") return "link";
  return mode === "160000" ? "submodule" : "file";
}

/** The text of a file of git's store; too much of it, or what cannot be read, is told as the reason why. */
export function readObject({ folder }: Repository, id: string): FileAnswer {
  const { status, out, error, isTooMuch } = git(folder, ["cat-file", "blob", id], MOST_BYTES + 1);
  if (isTooMuch) return tooLarge(MOST_BYTES * 1.05);
  if (status !== 0) return { kind: "unreadable", why: `git cannot read it: ${error}` };
  return textAnswer(out);
}

/** The paths that both sides of a merge changed and nobody has settled: of these nothing is staged. */
export function unmergedPaths({ folder }: Repository): readonly string[] {
  const listed = list(folder, ["ls-files", "-u", "-z", "--full-name", ":/"]);
  return [...new Set(listed.split("\0").flatMap((record) => record.split("\t")[1] ?? []))];
}

/** How git shows conflicts around a folder (merge.conflictStyle); as it does by itself where nothing is set. */
export function conflictStyle(folder: string): "merge" | "diff3" | "zdiff3" {
  try {
    const style = git(folder, ["config", "--get", "merge.conflictStyle"]).out.toString("utf8").trim();
    return style === "diff3" || style === "zdiff3" ? style : "merge";
  } catch {
    return "merge";
  }
}

export interface Ran {
  readonly status: number | null;
  readonly out: Buffer;
  /** The first line of what git said, without its own “fatal:”. */
  readonly error: string;
  readonly isTooMuch: boolean;
}

/**
 * Runs git in a folder; what it says is in English, and its status tells whether it did.
 * @throws NoRevision where git is not there, or cannot be started
 */
export function git(folder: string, args: readonly string[], mostBytes = MOST_LIST_BYTES, input?: string): Ran {
  const { status, stdout, stderr, error } = spawnSync("git", args, {
    cwd: folder,
    maxBuffer: mostBytes,
    ...(input !== undefined && { input }),
    windowsHide: true,
    env: environment(),
  });
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  if (code === "ENOENT") throw new NoRevision(NO_GIT);
  const isTooMuch = code === "ENOBUFS";
  if (error && !isTooMuch) throw new NoRevision(`git could not be run: ${error.message}`);
  return { status, out: stdout, error: firstLine(stderr), isTooMuch };
}
