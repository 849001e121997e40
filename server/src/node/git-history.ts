/** A script and all that it uses, at each commit that a revision leads back to. */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { isScriptFile } from "../../../shared/model/file-names.ts";
import type { FilePath, FileView } from "../../../shared/model/files.ts";
import { planOf } from "../../../shared/model/uses.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import { isThere } from "./disk.ts";
import { git, NoRevision, type Repository, treeOf } from "./git.ts";
import { type Blobs, blobsIn } from "./git-blobs.ts";
import { changesBetween, changesInWorkingTree, type LoggedChange, type LoggedCommit, logOf } from "./git-log.ts";
import { treesOf } from "./git-trees.ts";
import { filesOf, type TreeEntries, topOf } from "./git-view.ts";

/** A commit, with the files as it has them. */
export interface PastCommit extends Omit<LoggedCommit, "changes"> {
  readonly view: FileView;
  /** Where the script stands in it; nothing need be there. */
  readonly file: FilePath;
  /** True where earlier commits are not in this clone. */
  readonly isCut: boolean;
}

/** The commits of one script. */
export interface Past {
  /** Later ones first, each before its parents. Empty where nothing was committed yet. */
  readonly commits: readonly PastCommit[];
}

/** Scripts are looked through so often until nothing of what they use is missing: more than files use one another. */
const MOST_ROUNDS = 24;

/**
 * The commits that a revision leads back to, each with the script under the path that it had there, and with all that
 * it uses read. `file` is its path from the top at the revision; `core` reads scripts.
 * @throws NoRevision where git cannot tell
 */
export function pastOf(repository: Repository, revision: string, file: string, core: Core): Past {
  const { folder } = repository;
  const commit = commitNamed(folder, revision);
  if (commit === null) return { commits: [] };
  const log = logOf(folder, commit, linksOf(repository, commit));
  const trees = treesOf(log);
  const idsByPath = idsOf(log);
  const blobs = blobsIn(folder);
  const cut = cutCommits(folder);
  const top = topOf(repository);
  const pathOf = (inTree: string): FilePath => `${top === "/" ? "" : top}/${inTree}`;
  const renames = renamesOf(folder, log);
  for (let round = 0; ; round++) {
    const due = new Set<string>();
    const readBlob = (id: string) => {
      const known = blobs.get(id);
      if (!known) due.add(id);
      return known;
    };
    const places = placesOf(log, file, { trees, renames, nameIn: (id) => craftName(readBlob(id)) });
    const commits = log.map((each): PastCommit => {
      const place = places.get(each.id) ?? file;
      const { changes: _, ...about } = each;
      const { view } = filesOf(top, trees.get(each.id)!, readBlob, place);
      return { ...about, view, file: view.realPath(pathOf(place)), isCut: cut.has(each.id) };
    });
    for (const each of commits) readUses(each, core);
    if (due.size === 0 || round === MOST_ROUNDS) return { commits };
    blobs.read(alsoAtOtherTimes(due, idsByPath));
  }
}

/**
 * Where HEAD has a file of the working tree: under the same path, under the one that it was renamed from, or where a
 * craft of its name is gone from the working tree. Paths are from the top; `text` is what the file holds.
 */
export function pathAtHead(repository: Repository, file: string, text: string): string {
  const { folder } = repository;
  if (commitNamed(folder, "HEAD") === null) return file;
  const entries = treeOf(repository, "HEAD");
  if (entries.has(file)) return file;
  const renamed = changesInWorkingTree(folder).find(({ path }) => path === file)?.renamedFrom;
  const name = craftName({ kind: "text", text, validUtf8: true });
  if (renamed || name === null) return renamed ?? file;
  const gone = [...entries].filter(([path]) => isScriptFile(path) && !isThere(`${topOf(repository)}/${path}`));
  const blobs = blobsIn(folder);
  blobs.read(gone.map(([, { id }]) => id));
  const same = gone.filter(([, { id }]) => craftName(blobs.get(id)) === name);
  return same.length === 1 ? same[0]![0] : file;
}

/** The whole name of a commit; null for the HEAD of a repository in which nothing has been committed. */
export function commitNamed(folder: string, revision: string): string | null {
  // What begins with a dash is no name of git's, and would be an option.
  if (revision.startsWith("-")) throw new NoRevision(`git knows no revision “${revision}” here`);
  const found = git(folder, ["rev-parse", "--verify", "--quiet", `${revision}^{commit}`]);
  if (found.status === 0) return found.out.toString("utf8").trim();
  if (revision === "HEAD") return null;
  throw new NoRevision(`git knows no revision “${revision}” here`);
}

/** Links that are no scripts by their name: they may lead to a folder of scripts. */
function linksOf(repository: Repository, commit: string): string[] {
  return [...treeOf(repository, commit)].flatMap(([path, { kind }]) => (kind === "link" ? path : []));
}

/** The commits at which a shallow clone ends, by git's own list of them. */
function cutCommits(folder: string): ReadonlySet<string> {
  const found = git(folder, ["rev-parse", "--git-path", "shallow"]);
  try {
    const list = readFileSync(resolve(folder, found.out.toString("utf8").trim()), "utf8");
    return new Set(list.split("\n"));
  } catch {
    return new Set();
  }
}

/** What each path ever held, by the names of the objects. */
function idsOf(log: readonly LoggedCommit[]): ReadonlyMap<string, readonly string[]> {
  const ids = new Map<string, string[]>();
  for (const { changes } of log) {
    for (const { path, entry } of changes) {
      if (!entry || entry.kind === "submodule") continue;
      const known = ids.get(path);
      if (known) known.push(entry.id);
      else ids.set(path, [entry.id]);
    }
  }
  return ids;
}

/** With each object all that its path held at other times, as that will be asked for next. */
function alsoAtOtherTimes(due: ReadonlySet<string>, idsByPath: ReadonlyMap<string, readonly string[]>): Set<string> {
  const all = new Set(due);
  for (const ids of idsByPath.values()) if (ids.some((id) => due.has(id))) for (const id of ids) all.add(id);
  return all;
}

/** Asks for every file that the script uses, so that what is not read yet is known of. */
function readUses({ view, file }: PastCommit, core: Core): void {
  const workspace = core.at(view);
  const script = workspace.script(file);
  if (script) planOf(workspace, script, null);
}

/** What a commit renamed, compared with one of its parents. */
type Renames = (commit: LoggedCommit, parent: string) => readonly LoggedChange[];

function renamesOf(folder: string, log: readonly LoggedCommit[]): Renames {
  const asked = new Map<string, readonly LoggedChange[]>();
  const listed = new Set(log.map(({ id }) => id));
  return (commit, parent) => {
    if (commit.parents[0] === parent) return commit.changes;
    const key = `${parent} ${commit.id}`;
    let changes = asked.get(key);
    if (!changes) {
      changes = listed.has(parent) ? changesBetween(folder, parent, commit.id) : [];
      asked.set(key, changes);
    }
    return changes;
  };
}

interface Ways {
  readonly trees: ReadonlyMap<string, TreeEntries>;
  readonly renames: Renames;
  /** What a craft is called in an object; null where it is none, or is not read yet. */
  nameIn(id: string): string | null;
}

/** Under which path each commit has the script, followed from the last one back. */
function placesOf(log: readonly LoggedCommit[], file: string, ways: Ways): ReadonlyMap<string, string> {
  const places = new Map<string, string>();
  const [last] = log;
  if (last) places.set(last.id, file);
  for (const commit of log) {
    const place = places.get(commit.id);
    if (place === undefined) continue;
    for (const parent of commit.parents)
      if (!places.has(parent)) places.set(parent, placeBefore(commit, parent, place, ways));
  }
  return places;
}

/** Where the parent has it: in the same place, where it was renamed from, or where a craft of its name went away. */
function placeBefore(commit: LoggedCommit, parent: string, place: string, { trees, renames, nameIn }: Ways): string {
  const [before, now] = [trees.get(parent), trees.get(commit.id)];
  if (!before || !now || before.get(place)) return place;
  const entry = now.get(place);
  if (!entry) return place;
  const changes = renames(commit, parent);
  const renamed = changes.find((each) => each.path === place)?.renamedFrom;
  if (renamed) return renamed;
  const name = nameIn(entry.id);
  if (name === null) return place;
  const gone = changes.filter(({ path, entry: left }) => left === null && nameIn(before.get(path)?.id ?? "") === name);
  return gone.length === 1 ? gone[0]!.path : place;
}

function craftName(answer: ReturnType<Blobs["get"]>): string | null {
  if (answer?.kind !== "text") return null;
  return /^\s*craft\s+("(?:[^"\\]|\\.)*")/m.exec(answer.text)?.[1] ?? null;
}
