/** The scripts of every commit of a log, each as what it changed laid over its first parent. */
import type { TreeEntry } from "./git.ts";
import type { LoggedCommit } from "./git-log.ts";
import type { TreeEntries } from "./git-view.ts";

/** So many layers are looked through before they are put together. */
const MOST_LAYERS = 48;

interface Layer extends TreeEntries {
  readonly depth: number;
}

/** By the name of the commit. `commits` are a log, each before its parents. */
export function treesOf(commits: readonly LoggedCommit[]): ReadonlyMap<string, TreeEntries> {
  const trees = new Map<string, Layer>();
  for (const { id, parents, changes } of commits.toReversed()) {
    const below = trees.get(parents[0] ?? "") ?? EMPTY;
    const own = new Map(changes.map(({ path, entry }) => [path, entry]));
    trees.set(id, own.size === 0 ? below : laidOver(below, own));
  }
  return trees;
}

const EMPTY: Layer = { depth: 0, get: () => undefined, keys: () => [] };

function laidOver(below: Layer, own: ReadonlyMap<string, TreeEntry | null>): Layer {
  const keys = function* () {
    for (const path of below.keys()) if (!own.has(path)) yield path;
    for (const [path, entry] of own) if (entry) yield path;
  };
  if (below.depth >= MOST_LAYERS)
    return flat(new Map([...keys()].map((path) => [path, (own.get(path) ?? below.get(path))!])));
  const get = (path: string): TreeEntry | undefined => {
    const entry = own.get(path);
    return entry === undefined ? below.get(path) : (entry ?? undefined);
  };
  return { depth: below.depth + 1, get, keys };
}

function flat(entries: ReadonlyMap<string, TreeEntry>): Layer {
  return { depth: 1, get: (path) => entries.get(path), keys: () => entries.keys() };
}
