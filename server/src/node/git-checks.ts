/** What git knows of the checks on the bench: for each craft, from the commits that HEAD leads back to. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { FilePath, FileView } from "../../../shared/model/files.ts";
import type { PastChecks } from "../../../shared/model/past.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import type { PastCraft, PastReader } from "../../../shared/rules/lib/past-checks.ts";
import { isFolder, nameFrom } from "./disk.ts";
import { findRepository, finishInGit, type GitSteps, NoRevision, type Repository } from "./git.ts";
import { commitNamed, type Needs, noNeeds, placeBefore, type RepositoryPast, repositoryPast } from "./git-history.ts";
import type { LoggedCommit } from "./git-log.ts";

/** So often what is missing is read and all is looked through again: more than files use one another. */
const MOST_ROUNDS = 24;

/** So many texts are read ahead, all at once; of more only those that are asked for. */
const MOST_AHEAD = 20_000;

/** Looks up crafts one after another; what was read of a repository serves them all. */
export interface CheckedPasts {
  /** Null where git knows nothing of the file. Steps are run in the folder to ask. */
  of(file: FilePath, reader: PastReader): GitSteps<PastChecks | null>;
  /** Something may have been committed: what HEAD is has to be asked anew. */
  lookAgain(): void;
}

/** Whether git may know of a file: looked up without git, so that nobody who has none waits for it. */
export function mayHaveGit(file: FilePath): boolean {
  if (process.env.GIT_DIR) return true;
  for (let folder = dirname(file); ; folder = dirname(folder)) {
    if (existsSync(join(folder, ".git"))) return true;
    if (dirname(folder) === folder) return false;
  }
}

/** The folder in which git is asked of a file: its own, or the nearest around that there is, as a file of the past may lie in none. */
export function folderToAsk(file: FilePath): string {
  let folder = dirname(file);
  while (!isFolder(folder) && dirname(folder) !== folder) folder = dirname(folder);
  return folder;
}

interface Opened {
  readonly repository: Repository;
  /** The commit that HEAD was. */
  readonly head: string;
  readonly past: RepositoryPast;
  /** By the catalogue that asked last, and no earlier one: the same for as long as HEAD and that are. */
  found: { readonly by: Catalogue; readonly checks: Map<FilePath, PastChecks | null> } | null;
}

/** A view of files with what git knows of them, asked for where a rule wants to know. */
export function withPast(view: FileView, pasts: CheckedPasts, reader: PastReader): FileView {
  const past = (file: FilePath) => (mayHaveGit(file) ? finishInGit(folderToAsk(file), pasts.of(file, reader)) : null);
  return { ...view, past };
}

/** Nothing looked up yet; `revision` is what the scripts are committed in last. */
export function makeCheckedPasts(revision = "HEAD"): CheckedPasts {
  const byTop = new Map<FilePath, Opened>();
  const byFolder = new Map<FilePath, Opened | null>();
  const openedAt = function* (folder: FilePath): GitSteps<Opened | null> {
    const repository = yield* findRepository(folder);
    const head = repository.top === null ? null : yield* commitNamed(revision);
    if (head === null) return null;
    const known = byTop.get(repository.top!);
    if (known?.head === head) return known;
    const past = yield* repositoryPast(repository, head);
    const all = [...past.idsByPath.values()].flat();
    if (all.length <= MOST_AHEAD) yield* past.fetch({ ...noNeeds(), blobs: new Set(all) });
    const opened: Opened = { repository, head, past, found: null };
    byTop.set(repository.top!, opened);
    return opened;
  };
  return {
    lookAgain: () => byFolder.clear(),
    *of(file, reader) {
      const folder = folderToAsk(file);
      try {
        if (!byFolder.has(folder)) byFolder.set(folder, yield* openedAt(folder));
        const opened = byFolder.get(folder);
        if (!opened) return null;
        const { catalogue } = reader.core;
        if (opened.found?.by !== catalogue) opened.found = { by: catalogue, checks: new Map() };
        const { checks } = opened.found;
        if (!checks.has(file)) checks.set(file, yield* checksIn(opened, file, reader));
        return checks.get(file)!;
      } catch (error) {
        if (!(error instanceof NoRevision)) throw error;
        byFolder.set(folder, null);
        return null;
      }
    },
  };
}

function* checksIn({ repository, past }: Opened, file: FilePath, reader: PastReader): GitSteps<PastChecks | null> {
  const place = nameFrom(repository.top!, file);
  const [last] = past.log;
  if (!last || !past.trees.get(last.id)?.get(place)) return null;
  for (let round = 0; ; round++) {
    const needs = noNeeds();
    const steps = reader.checks(crafts(past, reader.core, needs)(last, place));
    let next = steps.next();
    for (; !next.done; next = steps.next()) yield;
    if (!(yield* past.fetch(needs)) || round === MOST_ROUNDS) return next.value;
  }
}

/** A craft of a commit, with the paths that were looked at for it: while none of them changes, it is the same one. */
interface Read {
  readonly craft: Craft | null;
  readonly seen: ReadonlySet<string>;
  readonly place: string;
}

/** The craft of commits, each read once, and not anew where nothing of it has changed. */
function crafts(past: RepositoryPast, core: Core, needs: Needs) {
  const { commits } = past;
  const known = new Map<string, PastCraft>();
  const read = (commit: LoggedCommit, place: string): Read => {
    const seen = new Set<string>();
    const view = past.viewOf(commit.id, place, needs, seen);
    const workspace = core.at(view);
    const file = view.realPath(past.pathOf(place));
    const script = workspace.script(file);
    return { craft: script && !script.tree.newer ? workspace.craft(file) : null, seen, place };
  };
  const isSame = (a: LoggedCommit, b: LoggedCommit, { seen }: Read): boolean => {
    if (a.parents[0] === b.id) return !a.changes.some(({ path }) => seen.has(path));
    const [treeA, treeB] = [past.trees.get(a.id)!, past.trees.get(b.id)!];
    return [...seen].every((path) => treeA.get(path)?.id === treeB.get(path)?.id);
  };
  /** The commit that made a craft what it is: earlier ones in a row are passed over while none of them touched it. */
  const maker = (from: LoggedCommit, { seen }: Read): LoggedCommit => {
    let commit = from;
    while (commit.parents.length === 1 && !commit.changes.some(({ path }) => seen.has(path))) {
      const parent = commits.get(commit.parents[0]!);
      if (!parent) break;
      commit = parent;
    }
    return commit;
  };
  const pastCraft = (from: LoggedCommit, of: Read): PastCraft => {
    const commit = maker(from, of);
    const key = `${commit.id} ${of.place}`;
    const found = known.get(key);
    if (found) return found;
    const made: PastCraft = {
      commit: { id: commit.id, author: commit.author, day: commit.date.slice(0, 10), subject: commit.subject },
      craft: of.craft,
      before: () =>
        commit.parents.flatMap((id) => {
          const parent = commits.get(id);
          if (!parent) return [];
          const place = placeBefore(past, commit, id, of.place, needs);
          const isUnchanged = place === of.place && isSame(commit, parent, of);
          return pastCraft(parent, isUnchanged ? of : read(parent, place));
        }),
    };
    known.set(key, made);
    return made;
  };
  return (commit: LoggedCommit, place: string) => pastCraft(commit, read(commit, place));
}
