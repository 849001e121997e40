/** Counts the distinct sets of modes that the controls can reach, without enumerating states. */
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import { eliminationOrder } from "./elimination-order.ts";
import { makeAbstraction, refineClasses, supportOf, valueClasses } from "./quantify.ts";

export interface ImageCount {
  readonly total: number;
  /** How many of the distinct answers contain a set; it must be one of those counted. */
  having(set: number): number;
}

interface Mode {
  readonly set: number;
  readonly support: readonly number[];
}

interface GroupCount {
  readonly total: number;
  /** In the order of `modes`: how many of the answers contain the mode. */
  readonly having: readonly number[];
  readonly modes: readonly Mode[];
}

/**
 * The number of distinct membership vectors: for each state, in which of the sets it is. Null where
 * counting takes more than `mostSteps` steps; in the worst case the work is exponential in the number
 * of variables that sets share. Exact up to 2^53, above that rounded as a double is.
 *
 * Sets that share no variable, directly or through others, are counted apart and the counts
 * multiplied. Within such a group the sets are decided one after another, each both ways, over the
 * states that remain. Before each decision, values that no undecided set distinguishes are merged
 * by existential abstraction; a variable that no undecided set depends on is thereby eliminated (as
 * in bucket elimination), and equal remainders are counted once.
 */
export function countImages(diagrams: Diagrams, sets: Iterable<number>, mostSteps: number): ImageCount | null {
  return diagrams.withBudget(mostSteps, () => countGroups(diagrams, sets));
}

function countGroups(diagrams: Diagrams, sets: Iterable<number>): ImageCount {
  const groups = groupsOf(diagrams, distinct(diagrams, sets)).map((modes) => countGroup(diagrams, modes));
  const total = groups.reduce((product, group) => product * group.total, 1);
  const having = new Map([
    [NONE, 0],
    [EVERY, total],
  ]);
  for (const group of groups) {
    const others = total / group.total;
    group.modes.forEach(({ set }, i) => {
      having.set(set, group.having[i]! * others);
      having.set(diagrams.not(set), (group.total - group.having[i]!) * others);
    });
  }
  return { total, having: (set) => having.get(set)! };
}

/** The sets without constants and repetitions; of a set and its complement only one. */
function distinct(diagrams: Diagrams, sets: Iterable<number>): readonly Mode[] {
  const kept = new Set<number>();
  for (const set of sets) if (set > EVERY && !kept.has(diagrams.not(set))) kept.add(set);
  return [...kept].map((set) => ({ set, support: supportOf(diagrams, set) }));
}

/** Partitions the sets into groups that share no variable (connected components, by union-find). */
function groupsOf(diagrams: Diagrams, modes: readonly Mode[]): readonly (readonly Mode[])[] {
  const parent = diagrams.widths.map((_, level) => level);
  const root = (level: number): number => {
    let at = level;
    while (parent[at] !== at) at = parent[at]!;
    return at;
  };
  for (const { support } of modes) for (const level of support) parent[root(level)] = root(support[0]!);
  const groups = new Map<number, Mode[]>();
  for (const mode of modes) {
    const at = root(mode.support[0]!);
    groups.set(at, [...(groups.get(at) ?? []), mode]);
  }
  return [...groups.values()];
}

/** Most sets in one group; larger groups are not counted. */
const MOST_TOGETHER = 1000;

/** Entries of the memo table below: no state remains, and every set is decided. */
const NOWHERE = 0;
const END = 1;

function countGroup(diagrams: Diagrams, group: readonly Mode[]): GroupCount {
  // A set that is not constant has both answers.
  if (group.length === 1) return { total: 2, having: [1], modes: group };
  // The walk below recurses once a set.
  if (group.length > MOST_TOGETHER) diagrams.giveUp();
  const modes = byLastVariable(diagrams, group);
  const abstractions = abstractionsOf(diagrams, modes);
  const complements = modes.map(({ set }) => diagrams.not(set));
  const memo = modes.map(() => new Map<number, number>());
  const places: { readonly step: number; readonly yes: number; readonly no: number }[] = [];
  const counts = [0, 1];
  const visit = (step: number, reached: number): number => {
    if (reached === NONE) return NOWHERE;
    if (step === modes.length) return END;
    const abstracted = abstractions[step]!(reached);
    const earlier = memo[step]!.get(abstracted);
    if (earlier !== undefined) return earlier;
    const yes = visit(step + 1, diagrams.and(abstracted, modes[step]!.set));
    const no = visit(step + 1, diagrams.and(abstracted, complements[step]!));
    const place = counts.length;
    counts.push(counts[yes]! + counts[no]!);
    places.push({ step, yes, no });
    memo[step]!.set(abstracted, place);
    return place;
  };
  const first = visit(0, EVERY);

  // From the root: how many paths lead to each entry, and thus through its yes branch. An entry has
  // a larger number than those to which it leads, so descending numbers are a topological order.
  const ways = new Array<number>(counts.length).fill(0);
  ways[first] = 1;
  const having = new Array<number>(modes.length).fill(0);
  for (let place = counts.length - 1; place > END; place--) {
    const { step, yes, no } = places[place - END - 1]!;
    ways[yes]! += ways[place]!;
    ways[no]! += ways[place]!;
    having[step]! += ways[place]! * counts[yes]!;
  }
  return { total: counts[first]!, having, modes };
}

/** Sorts sets by the last of their variables in the elimination order, so that few variables are open at any time. */
function byLastVariable(diagrams: Diagrams, modes: readonly Mode[]): readonly Mode[] {
  const turns = new Map(
    eliminationOrder(
      modes.map(({ support }) => support),
      (level) => Math.log(diagrams.widths[level]!),
      (looks) => diagrams.spendSteps(1 + (looks >> 4)),
    ).map((level, turn) => [level, turn]),
  );
  const lastTurn = ({ support }: Mode): number => Math.max(...support.map((level) => turns.get(level)!));
  const sorted = modes.map((mode) => ({ mode, turn: lastTurn(mode) })).sort((a, b) => a.turn - b.turn);
  return sorted.map(({ mode }) => mode);
}

/** For each step, the abstraction that merges all values that no set from that step on distinguishes. */
function abstractionsOf(diagrams: Diagrams, order: readonly Mode[]): readonly ((set: number) => number)[] {
  const joint: Int32Array[] = diagrams.widths.map((width) => new Int32Array(width));
  const steps = joint.reduce((sum, { length }) => sum + length, 0) >> 4;
  const abstractions = order.toReversed().map(({ set }) => {
    diagrams.spendSteps(steps);
    valueClasses(diagrams, set).forEach((classes, level) => {
      if (classes) joint[level] = refineClasses(joint[level]!, classes);
    });
    return makeAbstraction(
      diagrams,
      joint.map((classes) => (classes.every((each, value) => each === value) ? null : classes)),
    );
  });
  return abstractions.reverse();
}
