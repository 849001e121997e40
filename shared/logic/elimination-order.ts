/** Things in a row, so that those that belong together stand close. */

interface CostedOrder {
  readonly order: readonly number[];
  readonly cost: number;
}

/**
 * A row of everything that stands in some group. At each place, what stands before it and has a
 * companion after it weighs something; the row seeks to keep that small: it always takes next
 * what adds least, from every possible start, and the best of those rows wins. (Small is the
 * vertex separation of the graph; the least is hard to find, a small one is enough.) `spend` is told
 * how many things are looked at, and may throw where that takes too long.
 */
export function eliminationOrder(
  groups: readonly (readonly number[])[],
  weight: (thing: number) => number,
  spend: (looks: number) => void,
): readonly number[] {
  const neighbours = new Map<number, Set<number>>();
  for (const group of groups) {
    for (const thing of group) {
      const ofThing = neighbours.get(thing) ?? new Set();
      for (const other of group) if (other !== thing) ofThing.add(other);
      neighbours.set(thing, ofThing);
    }
  }
  let best: CostedOrder | null = null;
  for (const start of neighbours.keys()) {
    const order = greedyOrderFrom(start, neighbours, weight, best?.cost ?? Number.POSITIVE_INFINITY, spend);
    if (order) best = order;
  }
  return best?.order ?? [];
}

/** The row that begins with `start`; null where it costs no less than `most`. */
function greedyOrderFrom(
  start: number,
  neighbours: ReadonlyMap<number, ReadonlySet<number>>,
  weight: (thing: number) => number,
  most: number,
  spend: (looks: number) => void,
): CostedOrder | null {
  const waitingFor = new Map([...neighbours].map(([thing, all]) => [thing, all.size]));
  const placed = new Set<number>();
  const next = new Set<number>([start]);
  let open = 0;
  let cost = 0;
  const added = (thing: number): number => {
    let sum = waitingFor.get(thing)! > 0 ? weight(thing) : 0;
    for (const other of neighbours.get(thing)!) {
      if (placed.has(other) && waitingFor.get(other) === 1) sum -= weight(other);
    }
    spend(neighbours.get(thing)!.size);
    return sum;
  };
  while (placed.size < neighbours.size) {
    // A group that hangs together with none of those placed begins anew.
    if (next.size === 0) for (const thing of neighbours.keys()) if (!placed.has(thing)) next.add(thing);
    let chosen = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const thing of next) {
      const sum = added(thing);
      if (sum < least) {
        least = sum;
        chosen = thing;
      }
    }
    open += least;
    cost += Math.exp(open);
    if (cost >= most) return null;
    placed.add(chosen);
    next.delete(chosen);
    for (const other of neighbours.get(chosen)!) {
      waitingFor.set(other, waitingFor.get(other)! - 1);
      if (!placed.has(other)) next.add(other);
    }
  }
  return { order: [...placed], cost };
}
