/** Resolves `use` lines to files, and orders the files of a craft for merging. */
import type { FilePath, FileView } from "./files.ts";
import { type FoundGap, type Gap, gapsInLines, HANDSET_SECTIONS } from "./gaps.ts";
import type { Script, Use } from "./script.ts";

/** Why a path leads to nothing, where all that is wrong is that nothing is there. */
export const NO_SUCH_FILE = "there is no such file";

export type UseTarget =
  | { readonly kind: "script"; readonly script: Script }
  /** The file has not been read yet. */
  | { readonly kind: "unread"; readonly file: string }
  | { readonly kind: "none"; readonly why: string };

/** The files as scripts. */
export interface ScriptLookup {
  readonly view: FileView;
  script(file: FilePath): Script | null;
}

/** The file that a `use` names, resolved relative to the file `from` that contains it. */
export function useTarget(scripts: ScriptLookup, from: string, use: Use): UseTarget {
  if (use.path === null) return { kind: "none", why: "the name of the file cannot be read" };
  const joined = resolvePath(from, use.path);
  if (joined === null) {
    return {
      kind: "none",
      why: "a “use” names a file from the folder of the file it stands in, with / between folders, and never by an absolute path",
    };
  }
  const file = scripts.view.realPath(joined);
  const answer = scripts.view.read(file);
  if (!answer) return { kind: "unread", file };
  switch (answer.kind) {
    case "text": {
      const script = scripts.script(file);
      return script ? { kind: "script", script } : { kind: "none", why: "it cannot be read" };
    }
    case "missing":
      return { kind: "none", why: NO_SUCH_FILE };
    case "outside":
      return { kind: "none", why: "it lies outside the workspace, and a script may only use files inside it" };
    case "unreadable":
      return { kind: "none", why: answer.why };
  }
}

/** Resolves a path relative to the file `from`; null if the path is absolute or leads above the root. */
export function resolvePath(from: string, path: string): string | null {
  let ofFile = resolved.get(from);
  if (!ofFile) {
    if (resolved.size >= MOST_RESOLVED) resolved.clear();
    ofFile = new Map();
    resolved.set(from, ofFile);
  }
  let found = ofFile.get(path);
  if (found === undefined) {
    found = resolvedNow(from, path);
    if (ofFile.size >= MOST_RESOLVED) ofFile.clear();
    ofFile.set(path, found);
  }
  return found;
}

/** Each look at a workspace resolves the same few paths of every file again. */
const resolved = new Map<string, Map<string, string | null>>();
const MOST_RESOLVED = 5000;

function resolvedNow(from: string, path: string): string | null {
  if (path === "" || path.startsWith("/") || path.includes("\\") || /^[A-Za-z][A-Za-z0-9+.-]*:/.test(path)) return null;
  const root = /^([A-Za-z][A-Za-z0-9+.-]*:\/\/[^/]*)?/.exec(from)![0];
  const parts = from.slice(root.length).split("/").slice(0, -1);
  for (const part of path.split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.length > 0 && parts.at(-1) !== "") parts.pop();
    else return null;
  }
  return root + parts.join("/");
}

/** The path of `to` as a `use` in `from` would write it; its full path if no relative one leads there. */
export function pathBetween(from: string, to: string): string {
  const here = from.split("/").slice(0, -1);
  const there = to.split("/");
  let same = 0;
  while (same < here.length && same < there.length - 1 && here[same] === there[same]) same++;
  const path = [...here.slice(same).map(() => ".."), ...there.slice(same)].join("/");
  return resolvePath(from, path) === to ? path : to;
}

/** Whether every file that one of these uses is among them. */
export function usesAreAmong(scripts: readonly Script[]): boolean {
  const files = new Set(scripts.map(({ file }) => file));
  return scripts.every(({ file, uses }) =>
    uses.every(({ path }) => path !== null && files.has(resolvePath(file, path) ?? "")),
  );
}

/** A file of a craft, and the line of the craft's own file that includes it, directly or not. */
export interface Part {
  readonly script: Script;
  readonly viaLine: number;
}

export interface Plan {
  readonly handset: Script | null;
  /** In merge order: the handset and what it uses, the layers as visited, the craft. */
  readonly parts: readonly Part[];
  /** What the files were to say and do not, in merge order. */
  readonly gaps: readonly Gap[];
}

/**
 * The files of a craft, or of a layer or a handset by itself, in merge order. Of several handsets the last one that a `use` names takes
 * part, with all it uses; `handset`, if given, replaces it.
 */
export function planOf(scripts: ScriptLookup, craft: Script, handset: Script | null): Plan {
  if (craft.kind === "handset")
    return { handset: craft, ...handsetParts(scripts, { script: craft, viaLine: craft.tree.header ?? 0 }) };
  const layers: Part[] = [];
  const gaps: Gap[] = [];
  const visited = new Set<string>();
  const open = new Set<string>();
  let last: Part | null = null;
  const visit = (script: Script, viaLine: number): void => {
    visited.add(script.file);
    open.add(script.file);
    for (const use of script.uses) {
      const target = useTarget(scripts, script.file, use);
      const via = script === craft ? use.line : viaLine;
      const gap = gapAt(script, use, target, open);
      if (gap) gaps.push({ ...gap, before: layers.length });
      if (target.kind !== "script") continue;
      if (target.script.kind === "handset") last = { script: target.script, viaLine: via };
      else if (target.script.kind === "layer" && !visited.has(target.script.file)) visit(target.script, via);
    }
    open.delete(script.file);
    if (script !== craft) gaps.push(...numbered(gapsInLines(script), script, layers.length));
    layers.push({ script, viaLine });
  };
  const header = craft.tree.header ?? 0;
  visit(craft, header);
  const chosen: Part | null = handset ? { script: handset, viaLine: header } : last;
  if (!chosen) return { handset: null, parts: layers, gaps };
  const below = handsetParts(scripts, chosen);
  const raised = gaps.map((gap) => ({ ...gap, before: gap.before + below.parts.length }));
  return { handset: chosen.script, parts: [...below.parts, ...layers], gaps: [...below.gaps, ...raised] };
}

function handsetParts(scripts: ScriptLookup, { script, viaLine }: Part): Pick<Plan, "parts" | "gaps"> {
  const parts: Part[] = [];
  const gaps: Gap[] = [];
  const visited = new Set<string>();
  const open = new Set<string>();
  const visit = (each: Script): void => {
    visited.add(each.file);
    open.add(each.file);
    for (const use of each.uses) {
      const target = useTarget(scripts, each.file, use);
      const gap = gapAt(each, use, target, open);
      if (gap) gaps.push({ ...gap, before: parts.length });
      if (target.kind === "script" && target.script.kind === "handset" && !visited.has(target.script.file))
        visit(target.script);
    }
    open.delete(each.file);
    gaps.push(...numbered(gapsInLines(each), each, parts.length));
    parts.push({ script: each, viaLine });
  };
  visit(script);
  return { parts, gaps };
}

/** What a `use` line leaves out: null where it gives what it names. `open` are the files that are being visited. */
function gapAt(script: Script, use: Use, target: UseTarget, open: ReadonlySet<string>): FoundGap | null {
  const about = {
    sections: script.kind === "handset" ? HANDSET_SECTIONS : null,
    name: null,
    source: { file: script.file, line: use.line },
    path: use.path,
  };
  if (target.kind === "unread") return { ...about, why: "unread", words: "" };
  if (target.kind === "none") return { ...about, why: "missing", words: target.why };
  const { kind, tree, file } = target.script;
  if (tree.newer) return { ...about, why: "newer", words: "" };
  if (kind === "craft" || (script.kind === "handset" && kind !== "handset"))
    return { ...about, why: "kind", words: kind };
  return open.has(file) ? { ...about, why: "cycle", words: "" } : null;
}

/** The gaps of a part's own lines. Some put in doubt what the part itself says: a value beyond its limits, a header. */
function numbered(found: readonly FoundGap[], { tree }: Script, part: number): readonly Gap[] {
  return found.map((gap) => ({ ...gap, before: gap.name !== null || tree.header === null ? part + 1 : part }));
}

/** Whether `target` uses `script`, directly or through other files: a `use` of it would be circular. */
export function leadsBack(scripts: ScriptLookup, script: Script, target: Script): boolean {
  const visited = new Set<string>();
  const pending = [target];
  for (let each = pending.pop(); each; each = pending.pop()) {
    if (each.file === script.file) return true;
    if (visited.has(each.file)) continue;
    visited.add(each.file);
    for (const use of each.uses) {
      const next = useTarget(scripts, each.file, use);
      if (next.kind === "script") pending.push(next.script);
    }
  }
  return false;
}
