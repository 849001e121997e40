/** A repository's .gitattributes and configuration, read and written byte for byte. */
import {
  chmodSync,
  closeSync,
  existsSync,
  lstatSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmdirSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { git, NoRevision, repositoryAround } from "./git.ts";
import { makeFolder, removeQuietly, writeAtomically } from "./write-file.ts";

const NO_WORKING_TREE =
  "no working tree is around this folder, as in a bare repository, and only there git shows diffs: go to one";

/** The files of a repository that are written. */
export interface SetUpPlaces {
  readonly top: string;
  /** The configuration, which all working trees of a repository share. */
  readonly config: string;
  /** Where attributes are kept: .gitattributes at the top, or a file of git's own where git does not read that one. */
  readonly attributes: string;
  /** True where .gitattributes is a link, which git does not follow. */
  readonly isLinked: boolean;
}

/**
 * The places of the repository around a folder.
 * @throws NoRevision where there is none, or no working tree
 */
export function setUpPlaces(folder: string): SetUpPlaces {
  const { top } = repositoryAround(folder);
  if (top === null) throw new NoRevision(NO_WORKING_TREE);
  const pathOf = (name: string) =>
    resolve(folder, git(folder, ["rev-parse", "--git-path", name]).out.toString("utf8").replace(/\n$/, ""));
  const usual = join(top, ".gitattributes");
  const isLinked = lstatSync(usual, { throwIfNoEntry: false })?.isSymbolicLink() === true;
  const config = pathOf("config");
  return {
    top,
    config: existsSync(config) ? realpathSync(config) : config,
    attributes: isLinked ? pathOf("info/attributes") : usual,
    isLinked,
  };
}

/** A file of attributes as the configuration names it: from there, so that a repository may be moved as a whole. */
export function nameFromConfig({ config }: SetUpPlaces, file: string): string {
  return relative(dirname(config), file).replaceAll("\\", "/");
}

/** The file that the configuration names. */
export function fileFromConfig({ config }: SetUpPlaces, name: string): string {
  return resolve(dirname(config), name);
}

/** All bytes of a file, one character each; null where there is none, or a folder. */
export function bytesOf(path: string): string | null {
  return statSync(path, { throwIfNoEntry: false })?.isFile() ? readFileSync(path, "latin1") : null;
}

/** Why a file cannot be written, before anything is; null where it can. */
export function whyNotWritten(path: string): string | null {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) return null;
  if (!found.isFile()) return "it is no file";
  return (found.mode & 0o200) === 0 ? "it is read-only" : null;
}

/** Writes a file whole or not at all, one byte a character, with the rights that it had. */
export function writeBytes(path: string, text: string): void {
  makeFolder(dirname(path));
  writeAtomically(path, Buffer.from(text, "latin1"));
}

/**
 * Changes the configuration whole or not at all, under git's own lock, as git does it itself: what `change` makes of its
 * text. Gives both texts.
 * @throws NoRevision where git is writing it at this moment
 */
export function changeConfig(
  path: string,
  change: (text: string) => string,
): { readonly before: string; readonly after: string } {
  const lock = `${path}.lock`;
  let opened: number;
  try {
    opened = openSync(lock, "wx");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    throw new NoRevision(`git is writing its configuration: if it is not, remove ${lock}`);
  }
  try {
    closeSync(opened);
    const before = bytesOf(path) ?? "";
    const after = change(before);
    if (after !== before) {
      writeLike(lock, path, after);
      renameSync(lock, path);
    } else unlinkSync(lock);
    return { before, after };
  } catch (error) {
    removeQuietly(lock);
    throw error;
  }
}

function writeLike(path: string, model: string, text: string): void {
  writeFileSync(path, text, "latin1");
  const mode = statSync(model, { throwIfNoEntry: false })?.mode;
  if (mode !== undefined) chmodSync(path, mode & 0o7777);
}

/** Removes a file, and its folder in git's own where nothing else is in it. */
export function removeFile(path: string): void {
  unlinkSync(path);
  if (dirname(path).endsWith("info")) {
    try {
      rmdirSync(dirname(path));
    } catch {
      // Something else is in it.
    }
  }
}

/** What git makes of the attributes of a script: the drivers of its diffs and of its merges. */
export function driversOf(top: string): { readonly diff: string; readonly merge: string } {
  const told = git(top, ["check-attr", "diff", "merge", "--", "any.fettle"]).out.toString("utf8");
  const of = (name: string) => new RegExp(`^any\\.fettle: ${name}: (.*)$`, "m").exec(told)?.[1] ?? "unspecified";
  return { diff: of("diff"), merge: of("merge") };
}
