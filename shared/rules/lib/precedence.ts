/** Pairs of modes of a craft, one of which does nothing while the other is on. */
import type { ModeRelations } from "../../catalogue/specs.ts";
import { holdsFor } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

interface Pair {
  readonly over: string;
  readonly under: string;
  readonly reason: string;
  /** Where going before the other is what `over` is there for. */
  readonly kind: ModeRelations["precedence"][number]["kind"];
}

/** The pairs of which the craft sets up both modes, as far as the precedence holds for it. */
export function precedencePairs(craft: Craft, workspace: Workspace): Pair[] {
  return workspace.catalogue.modeRelations.precedence.flatMap((each) => {
    const { over, under, reason, kind } = each;
    if (!craft.modes.has(over) || !holdsFor(craft, each)) return [];
    return under.filter((name) => craft.modes.has(name)).map((name) => ({ over, under: name, reason, kind }));
  });
}
