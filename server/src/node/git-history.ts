/** A script and all that it uses, at each commit that a revision leads back to. */
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import { planOf } from "../../../shared/model/uses.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import { asking, type GitSteps, NoRevision, type Repository } from "./git.ts";
import { makeBlobs } from "./git-blobs.ts";
import { changesBetween, type LoggedChange, type LoggedCommit, logOf, treeOfCommit } from "./git-log.ts";
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

/** All commits of scripts that one commit leads back to. */
export interface RepositoryPast {
  /** Later ones first, each before its parents. */
  readonly log: readonly LoggedCommit[];
  /** The same by name. */
  readonly commits: ReadonlyMap<string, LoggedCommit>;
  readonly trees: ReadonlyMap<string, TreeEntries>;
  /** The commits at which a shallow clone ends. */
  readonly cut: ReadonlySet<string>;
  /** What each path ever held, by the names of the objects. */
  readonly idsByPath: ReadonlyMap<string, readonly string[]>;
  /** What an object holds; undefined while it is not read. */
  textOf(id: string, needs: Needs): FileAnswer | undefined;
  /** The absolute path of a file that is given from the top. */
  pathOf(inTree: string): FilePath;
  /** The files of a commit, looked at from one of them; every path that was asked for is added to `seen`. */
  viewOf(commit: string, place: string, needs: Needs, seen?: Set<string>): FileView;
  /** What a commit did to scripts, compared with one of its parents; undefined while nobody has asked git. */
  changesFrom(commit: LoggedCommit, parent: string): readonly LoggedChange[] | undefined;
  /** Asks git for what was needed and not known; false where nothing was. */
  fetch(needs: Needs): GitSteps<boolean>;
}

/** What was asked for and is not known yet. */
export interface Needs {
  readonly blobs: Set<string>;
  readonly changes: Set<readonly [commit: LoggedCommit, parent: string]>;
}

/** Nothing was asked for yet. */
export function noNeeds(): Needs {
  return { blobs: new Set(), changes: new Set() };
}

/** Scripts are looked through so often until nothing of what they use is missing: more than files use one another. */
const MOST_ROUNDS = 24;

/**
 * The commits that one commit leads back to.
 * @throws NoRevision where git cannot tell
 */
export function* repositoryPast(repository: Repository, commit: string): GitSteps<RepositoryPast> {
  const tree = yield* treeOfCommit(commit);
  const links = [...tree].flatMap(([path, { kind }]) => (kind === "link" ? path : []));
  const log = yield* logOf(commit, links);
  const trees = treesOf(log);
  const top = topOf(repository);
  const commits = new Map(log.map((each) => [each.id, each]));
  const compared = new Map<string, readonly LoggedChange[]>();
  const blobs = makeBlobs();
  const idsByPath = idsOf(log);
  return {
    log,
    commits,
    trees,
    cut: yield* cutCommits(log),
    idsByPath,
    pathOf: (inTree) => `${top === "/" ? "" : top}/${inTree}`,
    textOf(id, needs) {
      const known = blobs.get(id);
      if (!known) needs.blobs.add(id);
      return known;
    },
    viewOf(id, place, needs, seen) {
      const tree = trees.get(id)!;
      const get = (path: string) => {
        seen?.add(path);
        return tree.get(path);
      };
      const entries = { get, keys: () => tree.keys() };
      return filesOf(top, entries, (blob) => this.textOf(blob, needs), place).view;
    },
    changesFrom(of, parent) {
      if (of.parents[0] === parent) return of.changes;
      return commits.has(parent) ? compared.get(`${parent} ${of.id}`) : [];
    },
    *fetch(needs) {
      for (const [of, parent] of needs.changes)
        compared.set(`${parent} ${of.id}`, yield* changesBetween(parent, of.id));
      yield* blobs.read(alsoAtOtherTimes(needs.blobs, idsByPath));
      return needs.blobs.size + needs.changes.size > 0;
    },
  };
}

/**
 * The commits that a revision leads back to, each with the script under the path that it had there, and with all that
 * it uses read; later ones first, each before its parents. None where nothing was committed yet. `file` is its path
 * from the top at the revision; `core` reads scripts.
 * @throws NoRevision where git cannot tell
 */
export function* pastOf(repository: Repository, revision: string, file: string, core: Core): GitSteps<PastCommit[]> {
  const commit = yield* commitNamed(revision);
  if (commit === null) return [];
  const past = yield* repositoryPast(repository, commit);
  for (let round = 0; ; round++) {
    const needs = noNeeds();
    const places = placesOf(past, file, needs);
    const commits = past.log.map((each): PastCommit => {
      const place = places.get(each.id) ?? file;
      const { changes: _, ...about } = each;
      const view = past.viewOf(each.id, place, needs);
      return { ...about, view, file: view.realPath(past.pathOf(place)), isCut: past.cut.has(each.id) };
    });
    for (const each of commits) {
      readUses(each, core);
      yield;
    }
    if (!(yield* past.fetch(needs)) || round === MOST_ROUNDS) return commits;
  }
}

/** The whole name of a commit; null for the HEAD of a repository in which nothing has been committed. */
export function* commitNamed(revision: string): GitSteps<string | null> {
  // What begins with a dash is no name of git's, and would be an option.
  if (revision.startsWith("-")) throw new NoRevision(`git knows no revision “${revision}” here`);
  const found = yield* asking(["rev-parse", "--verify", "--quiet", `${revision}^{commit}`]);
  if (found.status === 0) return found.out.toString("utf8").trim();
  if (revision === "HEAD") return null;
  throw new NoRevision(`git knows no revision “${revision}” here`);
}

/**
 * The commits at which a shallow clone ends: those without a parent here that have one by what is written in them,
 * which git leaves out only where it is asked for the object itself.
 */
function* cutCommits(log: readonly LoggedCommit[]): GitSteps<ReadonlySet<string>> {
  const found = yield* asking(["rev-parse", "--is-shallow-repository"]);
  if (found.out.toString("utf8").trim() !== "true") return new Set();
  const ends = log.filter(({ parents }) => parents.length === 0).map(({ id }) => id);
  const cut = new Set<string>();
  for (const id of ends) {
    const object = yield* asking(["cat-file", "commit", id]);
    if (/^parent /m.test(object.out.toString("utf8").split("\n\n", 1)[0] ?? "")) cut.add(id);
  }
  return cut;
}

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
function alsoAtOtherTimes(due: ReadonlySet<string>, idsByPath: RepositoryPast["idsByPath"]): Set<string> {
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

/** Under which path each commit has the script, followed from the last one back. */
function placesOf(past: RepositoryPast, file: string, needs: Needs): ReadonlyMap<string, string> {
  const places = new Map<string, string>();
  const [last] = past.log;
  if (last) places.set(last.id, file);
  for (const commit of past.log) {
    const place = places.get(commit.id);
    if (place === undefined) continue;
    for (const parent of commit.parents)
      if (!places.has(parent)) places.set(parent, placeBefore(past, commit, parent, place, needs));
  }
  return places;
}

/** Where the parent has it: in the same place, where it was renamed from, or where a craft of its name went away. */
export function placeBefore(
  past: RepositoryPast,
  commit: LoggedCommit,
  parent: string,
  place: string,
  needs: Needs,
): string {
  const [before, now] = [past.trees.get(parent), past.trees.get(commit.id)];
  if (!before || !now || before.get(place)) return place;
  const entry = now.get(place);
  if (!entry) return place;
  const changes = past.changesFrom(commit, parent);
  if (!changes) {
    needs.changes.add([commit, parent]);
    return place;
  }
  const renamed = changes.find((each) => each.path === place)?.renamedFrom;
  if (renamed) return renamed;
  const nameIn = (id: string | undefined) => (id === undefined ? null : craftName(past.textOf(id, needs)));
  const name = nameIn(entry.id);
  if (name === null) return place;
  const gone = changes.filter(({ path, entry: left }) => left === null && nameIn(before.get(path)?.id) === name);
  return gone.length === 1 ? gone[0]!.path : place;
}

/** What a craft is called, as it is written; null where a text is no craft. */
export function craftName(answer: FileAnswer | undefined): string | null {
  if (answer?.kind !== "text") return null;
  return /^\s*craft\s+("(?:[^"\\]|\\.)*")/m.exec(answer.text)?.[1] ?? null;
}
