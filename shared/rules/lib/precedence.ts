/** Pairs of modes of a craft, one of which does nothing while the other is on. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

/** The pairs of which the craft sets up both modes, with the reason. */
export function precedencePairs(craft: Craft, workspace: Workspace): { over: string; under: string; reason: string }[] {
  return workspace.catalogue.modeRelations.precedence.flatMap(({ over, under, reason }) =>
    craft.modes.has(over)
      ? under.filter((name) => craft.modes.has(name)).map((name) => ({ over, under: name, reason }))
      : [],
  );
}
