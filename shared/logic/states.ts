/** Lists the distinct sets of modes that the controls can reach. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import type { DistinctState, Witness } from "./switchboard-types.ts";

/**
 * The distinct sets of modes, at most `limit`, each with the state that `show` picks for it; those
 * found within `budget.states`. A depth-first search decides one mode after another and follows only
 * branches that some state reaches, so the work is proportional to what is listed.
 */
export function listImages(
  compiled: Compiled,
  names: readonly string[],
  show: (set: number) => Witness | null,
  limit: number,
): { readonly states: readonly DistinctState[]; readonly complete: boolean } {
  const { diagrams, selected, budget } = compiled;
  const found: { on: readonly string[]; reached: number }[] = [];
  const list = (): boolean => {
    // Branches still to be followed, the next one last.
    const begun: { i: number; reached: number; on: readonly string[] }[] = [{ i: 0, reached: EVERY, on: [] }];
    for (let next = begun.pop(); next; next = begun.pop()) {
      const { i, reached, on } = next;
      if (found.length === limit) return false;
      if (i === names.length) {
        found.push({ on, reached });
        continue;
      }
      const set = selected.get(names[i]!)!;
      const without = diagrams.and(reached, diagrams.not(set));
      const having = diagrams.and(reached, set);
      if (having !== NONE) begun.push({ i: i + 1, reached: having, on: [...on, names[i]!] });
      if (without !== NONE) begun.push({ i: i + 1, reached: without, on });
    }
    return true;
  };
  const complete = diagrams.withBudget(budget.states, list) === true;
  const states = found.map(({ on, reached }) => ({ on, witness: show(reached)! }));
  return { states, complete };
}
