/** Files that use one another in a circle. */
import { oncePer, type Remembering } from "./memo.ts";
import type { Script } from "./script.ts";
import { type ScriptLookup, useTarget } from "./uses.ts";

type Lookup = ScriptLookup & Remembering;

/** By file, the number of the circle that it is in; a file in no circle has one to itself. */
const circlesIn = oncePer((_: Lookup) => new Map<string, number>());

/** Whether two files, one of which uses the other, are in one circle, that is, whether the other leads back to the first. */
export function inOneCircle(scripts: Lookup, one: Script, other: Script): boolean {
  const known = circlesIn(scripts, undefined);
  if (!known.has(one.file)) findCircles(scripts, one, known);
  return known.get(one.file) === known.get(other.file);
}

interface Visit {
  readonly script: Script;
  /** In which order the file was reached, and the earliest file that it leads back to. */
  readonly order: number;
  earliest: number;
  nextUse: number;
}

/**
 * Finds the circles among all that a file uses, each file and each `use` looked at once: Tarjan's strongly connected
 * components (SIAM J. Comput. 1 (1972) 146–160; from memory), without recursion, since layers may lie deep.
 */
function findCircles(scripts: Lookup, from: Script, known: Map<string, number>): void {
  const open = new Map<string, Visit>();
  // Files that are in no circle yet, in the order in which they were reached.
  const stack: Visit[] = [];
  const path: Visit[] = [];
  const enter = (script: Script) => {
    const order = stack.length;
    const visit = { script, order, earliest: order, nextUse: 0 };
    open.set(script.file, visit);
    stack.push(visit);
    path.push(visit);
  };
  enter(from);
  for (let visit = path.at(-1); visit; visit = path.at(-1)) {
    const use = visit.script.uses[visit.nextUse++];
    if (use) {
      const target = useTarget(scripts, visit.script.file, use);
      if (target.kind !== "script" || known.has(target.script.file)) continue;
      const reached = open.get(target.script.file);
      if (reached) visit.earliest = Math.min(visit.earliest, reached.order);
      else enter(target.script);
      continue;
    }
    path.pop();
    const user = path.at(-1);
    if (user) user.earliest = Math.min(user.earliest, visit.earliest);
    if (visit.earliest < visit.order) continue;
    // All that was reached since, and is in no circle yet, leads back to this file.
    const circle = known.size;
    for (const { script } of stack.splice(visit.order)) {
      known.set(script.file, circle);
      open.delete(script.file);
    }
  }
}
