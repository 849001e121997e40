/** Which craft a file is a part of, known again as long as no file says anything else of what it uses. */
import type { FilePath } from "./files.ts";
import type { Script } from "./script.ts";
import { planOf, resolvePath, type ScriptLookup } from "./uses.ts";

/** How the files of a workspace hang together. */
export interface Users {
  /** The craft of which a file is a part, in order of path; none for a file that nobody uses. */
  of(file: FilePath): readonly FilePath[];
  /** The files of a craft in the order in which they are merged; none for what is no craft of the workspace. */
  partsOf(craft: FilePath): readonly FilePath[];
}

/** What of a file makes a difference to that, as it was when it was looked at. */
interface Watched {
  readonly file: FilePath;
  script: Script | null;
  readonly shape: string;
}

interface Known extends Users {
  readonly list: readonly FilePath[];
  readonly watched: readonly Watched[];
  /** The real paths that `use` lines led to, by the paths that they name. */
  readonly real: ReadonlyMap<FilePath, FilePath>;
}

/**
 * Gives the users of the files of a workspace: those that were worked out last, where they are still right. Of a
 * thousand craft that takes as long to see as the craft are many; a key in a layer that all of them use has most of
 * its time for the rest.
 */
export function makeUsersKeeper(): (scripts: ScriptLookup) => Users {
  let known: Known | null = null;
  return (scripts) => {
    if (!known || !isRight(known, scripts)) known = usersIn(scripts);
    return known;
  };
}

function isRight({ list, watched, real }: Known, scripts: ScriptLookup): boolean {
  const { view } = scripts;
  const now = view.list();
  if (now !== list && (now.length !== list.length || now.some((file, i) => file !== list[i]))) return false;
  for (const [path, leadsTo] of real) if (view.realPath(path) !== leadsTo) return false;
  for (const each of watched) {
    const script = scripts.script(each.file);
    if (script === each.script) continue;
    if (shapeOf(script) !== each.shape) return false;
    each.script = script;
  }
  return true;
}

/** What a file is, and what it uses: all that the plan of a craft takes from it, but for what is in its lines. */
function shapeOf(script: Script | null): string {
  return script ? [script.kind, ...script.uses.map(({ path }) => path ?? "")].join("\n") : "";
}

function usersIn(scripts: ScriptLookup): Known {
  const list = scripts.view.list();
  const users = new Map<FilePath, FilePath[]>();
  const parts = new Map<FilePath, readonly FilePath[]>();
  for (const file of list) {
    const script = scripts.script(file);
    if (script?.kind !== "craft") continue;
    const files = [...new Set(planOf(scripts, script, null).parts.map((part) => part.script.file))];
    parts.set(file, files);
    for (const part of files) {
      const others = users.get(part);
      if (others) others.push(file);
      else users.set(part, [file]);
    }
  }
  const { watched, real } = watchedFrom(list, scripts);
  return { list, watched, real, of: (file) => users.get(file) ?? [], partsOf: (craft) => parts.get(craft) ?? [] };
}

/** The files of the workspace, and what they lead to. */
function watchedFrom(list: readonly FilePath[], scripts: ScriptLookup): Pick<Known, "watched" | "real"> {
  const watched = new Map<FilePath, Watched>();
  const real = new Map<FilePath, FilePath>();
  const due = [...list];
  for (let file = due.pop(); file !== undefined; file = due.pop()) {
    if (watched.has(file)) continue;
    const script = scripts.script(file);
    watched.set(file, { file, script, shape: shapeOf(script) });
    for (const { path } of script?.uses ?? []) {
      const named = path === null ? null : resolvePath(file, path);
      if (named === null || real.has(named)) continue;
      const leadsTo = scripts.view.realPath(named);
      real.set(named, leadsTo);
      due.push(leadsTo);
    }
  }
  return { watched: [...watched.values()], real };
}
