/** A revision of git as the model asks for it: its files are read through git, and never from the working tree. */
import { isBelow, isHidden, isScriptFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { finishInGit, type Repository, readObject, type TreeEntry, treeOf } from "./git.ts";
import { makeBlobs } from "./git-blobs.ts";
import { ROOT_MARK } from "./workspace-place.ts";

/** The files of a revision under paths as they would have in the working tree. */
export interface RevisionFiles {
  readonly view: FileView;
  /** The folder to which a `use` may lead: the nearest around the file that is marked as a workspace, else the top. */
  readonly root: FilePath;
  /** Whether a path is a folder of the revision. */
  isFolder(path: FilePath): boolean;
  /** Every file whose name matches, below `root`. */
  files(matches: (name: string) => boolean): readonly FilePath[];
  /** A path from the top. */
  nameOf(path: FilePath): string;
}

/** More links than these, one leading to the next, are a circle. */
const MOST_LINKS = 40;

/** What a revision holds, by path from its top. */
export interface TreeEntries {
  get(path: string): TreeEntry | undefined;
  keys(): Iterable<string>;
}

/**
 * A revision as the workspace of one of its files, given by its path from the top.
 * @throws NoRevision where there is no such revision
 */
export function revisionFiles(repository: Repository, revision: string, file: string): RevisionFiles {
  const read = (id: string) => scriptAnswer(readObject(repository, id));
  return filesOf(topOf(repository), treeOf(repository, revision), read, file);
}

/** The same for any of the files of a revision, of which every script is read at once where the first is asked for. */
export function wholeRevision(repository: Repository, revision: string) {
  const entries = treeOf(repository, revision);
  const blobs = makeBlobs();
  const read = (id: string) => {
    const all = () => [id, ...[...entries].flatMap(([path, each]) => (isScriptFile(path) ? [each.id] : []))];
    if (!blobs.get(id)) finishInGit(repository.folder, blobs.read(all()));
    return blobs.get(id);
  };
  return { entries, around: (file: string) => filesOf(topOf(repository), entries, read, file) };
}

/** Where the top of the tree is taken to be: without a working tree any folder will do, as nothing is read from it. */
export function topOf({ top, folder }: Repository): FilePath {
  return top ?? folder;
}

/** The same for entries that are known: `readBlob` gives what an object holds as a script, or undefined while nobody has read it. */
export function filesOf(
  top: FilePath,
  entries: TreeEntries,
  readBlob: (id: string) => FileAnswer | undefined,
  file: string,
): RevisionFiles {
  const pathOf = (inTree: string): FilePath => (top.endsWith("/") ? `${top}${inTree}` : `${top}/${inTree}`);
  const inTree = (path: FilePath): string => path.slice(top.endsWith("/") ? top.length : top.length + 1);
  const root = pathOf(folderOf(file, entries)).replace(/(?<=.)\/$/, "");
  const answers = new Map<FilePath, FileAnswer>();
  const realPaths = new Map<FilePath, FilePath>();

  const realPath = (path: FilePath): FilePath => {
    if (path !== top && !isBelow(path, top)) return path;
    const real = followLinks(inTree(path), entries, readBlob);
    return real.kind === "inside" ? pathOf(real.path) : real.path;
  };
  const read = (path: FilePath): FileAnswer | undefined => {
    if (!isBelow(path, root)) return { kind: "outside" };
    const entry = entries.get(inTree(path));
    if (!entry) return { kind: "missing" };
    if (entry.kind === "submodule") return { kind: "unreadable", why: "it is a repository of its own" };
    // A link that leads on was followed: this one goes in a circle.
    if (entry.kind === "link") return { kind: "missing" };
    return readBlob(entry.id);
  };
  const files = (matches: (name: string) => boolean) =>
    [...entries.keys()]
      .filter((each) => matches(each) && !isHidden(each))
      .map(pathOf)
      .filter((each) => isBelow(each, root))
      .sort();
  return {
    root,
    view: {
      read: (path) => remembered(answers, path, read),
      list: () => files(isScriptFile),
      realPath: (path) => remembered(realPaths, path, realPath),
      listsUsersOf: (path) => isBelow(path, root),
    },
    isFolder: (path) => path === top || [...entries.keys()].some((each) => pathOf(each).startsWith(`${path}/`)),
    files,
    nameOf: inTree,
  };
}

function remembered<T>(known: Map<FilePath, T>, path: FilePath, work: (path: FilePath) => T): T {
  const found = known.get(path);
  if (found !== undefined) return found;
  const now = work(path);
  if (now !== undefined) known.set(path, now);
  return now;
}

/** The nearest folder around a file that holds the mark of a workspace; the top, as an empty path, where none does. */
function folderOf(file: string, entries: TreeEntries): string {
  const parts = file.split("/").slice(0, -1);
  for (; parts.length > 0; parts.pop()) if (entries.get(`${parts.join("/")}/${ROOT_MARK}`)) return parts.join("/");
  return "";
}

type Followed = { readonly kind: "inside" | "outside"; readonly path: string };

/** Where a path leads once every link in it is followed; one in a circle leads nowhere else. */
function followLinks(path: string, entries: TreeEntries, read: (id: string) => FileAnswer | undefined): Followed {
  let due = path.split("/");
  let at: string[] = [];
  for (let links = 0; due.length > 0; ) {
    const [part = "", ...rest] = due;
    due = rest;
    if (part === "" || part === ".") continue;
    if (part === "..") {
      if (at.pop() === undefined) return { kind: "outside", path: "/.." };
      continue;
    }
    const entry = entries.get([...at, part].join("/"));
    if (entry?.kind !== "link" || links++ > MOST_LINKS) {
      at = [...at, part];
      continue;
    }
    const target = read(entry.id);
    if (target?.kind !== "text") return { kind: "inside", path };
    if (target.text.startsWith("/")) return { kind: "outside", path: target.text };
    due = [...target.text.split("/"), ...due];
  }
  return { kind: "inside", path: at.join("/") };
}
