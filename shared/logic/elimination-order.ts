/** An order in which variables are eliminated when the distinct states are counted. */

interface CostedOrder {
  readonly order: readonly number[];
  readonly cost: number;
}

/**
 * An order of all variables that occur in some group; the members of a group are neighbours of each
 * other. At each place of an order, the variables before it with a neighbour at or after it are open,
 * and the cost of the place is the exponential of their total weight. The order keeps the sum of the
 * costs small: from every possible start it greedily takes the variable that adds least, and the
 * cheapest of these orders is given. (With equal weights, the largest number of open variables is the
 * vertex separation of the order; a minimum is NP-hard to find, and a small one suffices.) For n
 * variables with d neighbours each it takes up to n² · n · d visits; `spend` gets their number as they
 * are made, and may throw.
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

/** The greedy order that begins with `start`; null where it costs no less than `most`. */
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
    // No neighbour of those placed is left: another connected component begins.
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
