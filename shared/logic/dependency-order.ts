/** The order in which conditions can be compiled, and the cycles among them. */

import type { Cycle } from "./condition-faults.ts";
import type { Reference } from "./names.ts";

export interface DependencyOrder {
  /** Every name that is on no cycle, after those to which it refers (a topological order). */
  readonly order: readonly string[];
  readonly cycles: readonly Cycle[];
}

/** Sorts names by their references, and finds cycles; `references` must have every name that it refers to. */
export function dependencyOrder(references: ReadonlyMap<string, readonly Reference[]>): DependencyOrder {
  const order: string[] = [];
  const cycles: Cycle[] = [];
  for (const members of stronglyConnected(references)) {
    const [first] = members;
    if (members.length === 1 && !references.get(first!)!.some(({ to }) => to === first)) order.push(first!);
    else cycles.push(...shortestCycles(members, references));
  }
  return { order, cycles };
}

/**
 * The strongly connected components, each after those that it refers to; linear (Tarjan, "Depth-First
 * Search and Linear Graph Algorithms", SIAM J. Computing 1(2), 1972; from memory).
 */
function stronglyConnected(references: ReadonlyMap<string, readonly Reference[]>): string[][] {
  const index = new Map<string, number>();
  const low = new Map<string, number>();
  const open: string[] = [];
  const isOpen = new Set<string>();
  const groups: string[][] = [];
  const visit = (name: string): number => {
    const own = index.size;
    index.set(name, own);
    open.push(name);
    isOpen.add(name);
    let lowest = own;
    for (const { to } of references.get(name) ?? []) {
      if (!index.has(to)) lowest = Math.min(lowest, visit(to));
      else if (isOpen.has(to)) lowest = Math.min(lowest, index.get(to)!);
    }
    low.set(name, lowest);
    if (lowest === own) {
      const group = open.splice(open.indexOf(name));
      for (const member of group) isOpen.delete(member);
      groups.push(group);
    }
    return lowest;
  };
  for (const name of references.keys()) if (!index.has(name)) visit(name);
  return groups;
}

/** Cycles within a component, each a shortest one through its first member, until every member is on one of them. */
function shortestCycles(members: readonly string[], references: ReadonlyMap<string, readonly Reference[]>): Cycle[] {
  const inside = new Set(members);
  const covered = new Set<string>();
  const cycles: Cycle[] = [];
  for (const start of references.keys()) {
    if (!inside.has(start) || covered.has(start)) continue;
    const cycle = shortestCycle(start, inside, references);
    for (const { from } of cycle.links) covered.add(from);
    cycles.push(cycle);
  }
  return cycles;
}

function shortestCycle(
  start: string,
  inside: ReadonlySet<string>,
  references: ReadonlyMap<string, readonly Reference[]>,
): Cycle {
  const reachedBy = new Map<string, Cycle["links"][number]>();
  const queue = [start];
  for (const name of queue) {
    for (const { to, start: from, end, source } of references.get(name)!) {
      if (!inside.has(to) || reachedBy.has(to)) continue;
      reachedBy.set(to, { from: name, to, source, start: from, end });
      if (to !== start) queue.push(to);
    }
  }
  const links = [reachedBy.get(start)!];
  while (links[0]!.from !== start) links.unshift(reachedBy.get(links[0]!.from)!);
  return { links };
}
