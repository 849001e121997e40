/** How many distinct sets of modes the controls can reach, without going through the states. */
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import { eliminationOrder } from "./elimination-order.ts";
import { makeAbstraction, refineClasses, supportOf, valueClasses } from "./quantify.ts";

export interface ImageCount {
  readonly total: number;
  /** How many of the answers say yes of a set that was among those counted. */
  having(set: number): number;
}

interface Mode {
  readonly set: number;
  readonly support: readonly number[];
}

interface GroupCount {
  readonly total: number;
  /** In the order of `modes`: how many answers say yes. */
  readonly having: readonly number[];
  readonly modes: readonly Mode[];
}

/**
 * How many distinct lists of yes and no the sets give over all states; null where that would take
 * more than `mostSteps` steps of work, as it may where very many sets hang together through very many
 * variables. Exact up to 2^53, a double's rounding above.
 *
 * Sets that share no variable, however indirectly, are counted apart and multiplied. Within such a
 * group one set after another is decided both ways. Values between which no set still to come
 * tells are made alike, which takes a variable out once nothing asks it (bucket elimination), and
 * equal remains are counted once.
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

/** One of each set that is neither empty nor everything, and of a set and its opposite only one. */
function distinct(diagrams: Diagrams, sets: Iterable<number>): readonly Mode[] {
  const kept = new Set<number>();
  for (const set of sets) if (set > EVERY && !kept.has(diagrams.not(set))) kept.add(set);
  return [...kept].map((set) => ({ set, support: supportOf(diagrams, set) }));
}

/** Groups that share no variable with each other. */
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

/** Sets that are counted in one group. */
const MOST_TOGETHER = 1000;

/** Places of the walk below: no state is left, and nothing is left to decide. */
const NOWHERE = 0;
const END = 1;

function countGroup(diagrams: Diagrams, group: readonly Mode[]): GroupCount {
  // Of a set that is neither empty nor everything there are both answers.
  if (group.length === 1) return { total: 2, having: [1], modes: group };
  // The walk below goes one call deeper with each set.
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

  // Back from the start: how many ways lead to each place, and so through its yes. A place is
  // numbered after those to which it leads.
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

/** Each set as soon as all its variables have had their turn, so that few variables are open at any time. */
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

/** For each step, what makes alike all values between which no set from there on tells. */
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
