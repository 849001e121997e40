/** When a value changed: the moments at which a name comes to something else than before. */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Steps } from "../../text/steps.ts";
import { differencesOf } from "../compare/compare.ts";
import { isSameValue, type PastValue, pastValue, type ValueName } from "./past-value.ts";

/** The files of a craft at one moment: a commit, or the working tree. */
export interface Moment {
  readonly id: string;
  /** The moments before it; of a merge several. */
  readonly parents: readonly string[];
  readonly workspace: Workspace;
  readonly file: FilePath;
  /** True where what came before is not known. */
  readonly isCut: boolean;
}

/** A moment at which the value became another one. */
export interface ValueChange<M extends Moment = Moment> {
  readonly at: M;
  /** What it was; of a merge, on its first parent. */
  readonly before: PastValue;
  readonly after: PastValue;
  /** Only its spelling changed. */
  readonly isRespelled: boolean;
  /** False on a line of commits whose value a later merge did not keep. */
  readonly isKept: boolean;
}

/** The history of a value. */
export interface ValueHistory<M extends Moment = Moment> {
  readonly now: PastValue;
  /** The last change first. */
  readonly changes: readonly ValueChange<M>[];
}

const NOTHING: PastValue = { kind: "absent" };
const EARLIER: PastValue = {
  kind: "unknown",
  why: "earlier commits are not in this clone",
  text: "",
  source: null,
};

/**
 * The changes of a name's value over moments, later ones first and each before its parents. Every parent of a merge is
 * followed; the merge itself counts only where its value differs from that of every parent.
 */
export function* historyOf<M extends Moment>(moments: readonly M[], name: ValueName): Steps<ValueHistory<M>> {
  const values = new Map<string, PastValue>();
  for (const { id, workspace, file } of moments) {
    values.set(id, pastValue(workspace, file, name));
    yield;
  }
  const byId = new Map(moments.map((moment) => [moment.id, moment]));
  const kept = new Set(moments.slice(0, 1).map(({ id }) => id));
  const changes: ValueChange<M>[] = [];
  for (const at of moments) {
    const after = values.get(at.id)!;
    const befores = at.parents.map((id) => values.get(id) ?? NOTHING);
    const same = at.parents.filter((_, i) => isSameValue(after, befores[i]!));
    const isKept = kept.has(at.id);
    if (isKept) for (const id of same.length > 0 ? same : at.parents) kept.add(id);
    if (same.length > 0) continue;
    const before = befores[0] ?? (at.isCut ? EARLIER : NOTHING);
    if (isSameValue(before, after) || (at.isCut && after.kind !== "said")) continue;
    const isBothSaid = before.kind === "said" && after.kind === "said";
    const isRespelled =
      isBothSaid && (before.meaning === after.meaning || isSameOnCraft(byId.get(at.parents[0] ?? ""), at, name));
    changes.push({ at, before, after, isRespelled, isKept });
  }
  return { now: values.get(moments[0]?.id ?? "") ?? NOTHING, changes };
}

/** Sections of entries whose meaning depends on the rest of the craft: a condition on its controls, a place on its grid. */
const BY_CRAFT = new Set(["modes", "outputs", "osd", "osd-second", "controls", "adjust"]);

/** Whether an entry means the same on the craft of two moments, however it is written. */
function isSameOnCraft(earlier: Moment | undefined, later: Moment, { section, name }: ValueName): boolean {
  if (!BY_CRAFT.has(section)) return false;
  const [before, after] = [earlier, later].map((each) => each?.workspace.craftLike(each.file));
  if (!before || !after) return false;
  return !differencesOf(before, after, later.workspace.catalogue).some(({ what }) => what === `${section}.${name}`);
}
