/** The distinct sets of modes that the controls can reach, one by one. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import type { DistinctState, Witness } from "./types.ts";

/**
 * The distinct sets of modes, at most `limit`, each with the state that `show` picks for it. Every
 * set that is begun can be reached, so the work grows with what is listed.
 */
export function listImages(
  compiled: Compiled,
  names: readonly string[],
  show: (set: number) => Witness | null,
  limit: number,
): { readonly states: readonly DistinctState[]; readonly complete: boolean } {
  const { diagrams, selected } = compiled;
  const found: { on: readonly string[]; reached: number }[] = [];
  let complete = true;
  const visit = (i: number, reached: number, on: readonly string[]): void => {
    if (found.length === limit) {
      complete = false;
      return;
    }
    if (i === names.length) {
      found.push({ on, reached });
      return;
    }
    const set = selected.get(names[i]!)!;
    const without = diagrams.and(reached, diagrams.not(set));
    const having = diagrams.and(reached, set);
    if (without !== NONE) visit(i + 1, without, on);
    if (having !== NONE) visit(i + 1, having, [...on, names[i]!]);
  };
  visit(0, EVERY, []);
  const states = found.map(({ on, reached }) => ({ on, witness: show(reached)! }));
  return { states, complete };
}
