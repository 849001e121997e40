/**
 * Which scripts, and which files of a pilot's own words, lie in the editor's folders: listed once,
 * and kept true by what the editor tells of changes.
 */
import { isBelow, isHidden, isScriptFile, isWordsFile } from "../../../shared/model/file-names.ts";
import type { FilePath } from "../../../shared/model/files.ts";

/** What a host has found below some folders. */
export interface Listing {
  readonly paths: readonly FilePath[];
  /** True where it gave up: there is more than it looks at. */
  readonly cut: boolean;
}

/** What was done to a file, or to a folder with all that is in it. */
export type FileChange =
  | { readonly kind: "created" | "changed" | "deleted"; readonly path: FilePath }
  | { readonly kind: "moved"; readonly path: FilePath; readonly to: FilePath };

/** The files of the workspace. Paths are those by which the files are really known. */
export interface WorkspaceFiles {
  setFolders(folders: readonly FilePath[]): void;
  /** Once the folders' own real paths are known: nothing can be told from a path before. */
  foldersKnown(): Promise<void>;
  isOutside(path: FilePath): boolean;
  /** A path that an editor uses, below the real path of its folder. */
  belowRealFolder(path: FilePath): FilePath;
  /** The other way round: a real path, below its folder as the editor has it. */
  asEditorHas(path: FilePath): FilePath;
  /** Once all is listed. */
  listed(): Promise<void>;
  /** Whether every script that may use this one is listed: it lies in a folder of the editor, of which all is listed. */
  listsUsersOf(path: FilePath): boolean;
  /** In order of path; the same array until another is there. */
  scripts(): readonly FilePath[];
  words(): readonly FilePath[];
  apply(change: FileChange): void;
}

/** What it asks of its host, and what it tells. */
export interface WorkspaceFilesHost {
  realPath(folder: FilePath): Promise<FilePath>;
  list(folders: readonly FilePath[]): Promise<Listing>;
  /** Whether a path is a folder, and no link to one: a listing leaves those out. */
  isFolder(path: FilePath): Promise<boolean>;
  /** Not everything was listed. */
  cut(): void;
}

/** No folders yet. */
export function makeWorkspaceFiles(host: WorkspaceFilesHost): WorkspaceFiles {
  let folders: readonly { readonly given: FilePath; readonly real: FilePath }[] = [];
  let known: Promise<void> = Promise.resolve();
  let isKnown = true;
  let listing: Promise<void> | null = null;
  /** Set while the folders are being listed: a change that is told meanwhile may be of one already passed. */
  let meanwhile: FileChange[] | null = null;
  /** Set while all that lies in the folders is listed. */
  let isWhole = false;
  const paths = new Set<FilePath>();
  /** Told to be made or changed: an editor tells of a folder that is called like a script as of a script. */
  const unsure = new Set<FilePath>();
  let surely: Promise<unknown> = Promise.resolve();
  let inOrder: { readonly scripts: readonly FilePath[]; readonly words: readonly FilePath[] } | null = null;
  let parents: ReadonlySet<FilePath> | null = null;

  const belowRealFolder = (path: FilePath) => {
    const folder = folders.find(({ given }) => isBelow(path, given));
    return folder ? folder.real + path.slice(folder.given.length) : path;
  };
  const asEditorHas = (path: FilePath) => {
    const folder = folders.find(({ real }) => isBelow(path, real));
    return folder ? folder.given + path.slice(folder.real.length) : path;
  };
  const isListed = (path: FilePath) =>
    (isScriptFile(path) || isWordsFile(path)) &&
    folders.some(({ real }) => isBelow(path, real) && !isHidden(path.slice(real.length)));
  const add = (path: FilePath) => {
    if (paths.has(path) || !isListed(path)) return;
    paths.add(path);
    inOrder = parents = null;
  };
  /** A file, or a folder with all below it. */
  const remove = (path: FilePath): FilePath[] => {
    parents ??= parentsOf(paths);
    if (!paths.has(path) && !parents.has(path)) return [];
    const gone = [...paths].filter((each) => isBelow(each, path));
    for (const each of gone) paths.delete(each);
    inOrder = parents = null;
    return gone;
  };
  const apply = (change: FileChange) => {
    // What was deleted and made again in one moment, an editor tells as changed.
    if (change.kind === "created" || change.kind === "changed") {
      add(change.path);
      if (paths.has(change.path)) unsure.add(change.path);
      return;
    }
    const gone = remove(change.path);
    if (change.kind !== "moved") return;
    for (const path of gone) add(change.to + path.slice(change.path.length));
    if (gone.length > 0) return;
    add(change.to);
    // A folder of which nothing is known comes from elsewhere, or was told to be deleted before: what is in it is listed.
    if (listing && !isScriptFile(change.to) && !isWordsFile(change.to)) listing = listing.then(list);
  };
  const list = async (): Promise<void> => {
    await known;
    const asked = folders;
    const changes: FileChange[] = [];
    meanwhile = changes;
    const found = await host.list(asked.map(({ real }) => real));
    // The folders may be others by now: then they are listed anew.
    if (asked !== folders) return;
    for (const path of found.paths) add(path);
    meanwhile = null;
    for (const change of changes) apply(change);
    isWhole = !found.cut;
    if (found.cut) host.cut();
  };
  const makeSure = (): Promise<unknown> => {
    const asked = [...unsure];
    unsure.clear();
    const drop = async (path: FilePath) => {
      if (!(await host.isFolder(path)) || !paths.delete(path)) return;
      inOrder = parents = null;
    };
    if (asked.length > 0) surely = Promise.all([surely, ...asked.map(drop)]);
    return surely;
  };
  const sorted = () => {
    if (!inOrder) {
      const all = [...paths].sort();
      inOrder = { scripts: all.filter(isScriptFile), words: all.filter(isWordsFile) };
    }
    return inOrder;
  };

  return {
    setFolders(given) {
      const now = given.map((folder) => ({ given: folder, real: folder }));
      folders = now;
      // A workspace may be opened through a link, while its files are known by their real paths.
      isKnown = false;
      known = Promise.all(given.map(host.realPath)).then((real) => {
        if (folders !== now) return;
        folders = given.map((folder, i) => ({ given: folder, real: real[i]! }));
        isKnown = true;
      });
      listing = meanwhile = null;
      isWhole = false;
      paths.clear();
      unsure.clear();
      inOrder = parents = null;
    },
    foldersKnown: () => known,
    isOutside: (path) => folders.length > 0 && !folders.some(({ real }) => isBelow(path, real)),
    belowRealFolder,
    asEditorHas,
    async listed() {
      for (let begun: Promise<void> | null = null; begun === null || begun !== listing; ) {
        listing ??= list();
        begun = listing;
        await begun;
        await makeSure();
      }
    },
    listsUsersOf: (path) => isWhole && paths.has(path),
    scripts: () => sorted().scripts,
    words: () => sorted().words,
    apply(told) {
      // Where the file really lies cannot be told yet; the listing that follows finds it as it is by then.
      if (!isKnown) return;
      const change =
        told.kind === "moved"
          ? { ...told, path: belowRealFolder(told.path), to: belowRealFolder(told.to) }
          : { ...told, path: belowRealFolder(told.path) };
      meanwhile?.push(change);
      apply(change);
    },
  };
}

/** Every folder in which, or below which, some of these files lie. */
function parentsOf(paths: Iterable<FilePath>): Set<FilePath> {
  const parents = new Set<FilePath>();
  for (const path of paths) {
    let end = path.lastIndexOf("/");
    while (end > 0 && !parents.has(path.slice(0, end))) {
      parents.add(path.slice(0, end));
      end = path.lastIndexOf("/", end - 1);
    }
  }
  return parents;
}
