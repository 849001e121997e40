/** Tours that are found without trying them all: one that looks no further than its next movements, and the best of many beginnings. */
import type { Step, TourPart } from "./tour-part.ts";
import { beginWalk, type Walk } from "./tour-walk.ts";

/** Charges steps of work; false once there are none left. */
export type Spend = (steps: number) => boolean;

/** A step that may come next, the more pressing ones with lower ranks. */
interface NextStep extends Step {
  readonly rank: number;
}

/** The steps that may come next with so many movements to spare, those that a hand would do first before others. */
export function nextSteps(walk: Walk, slack: number): readonly NextStep[] {
  const steps = walk.part.controls.flatMap((_, c) => stepsOf(walk, c, slack));
  return steps.sort((a, b) => a.rank - b.rank);
}

/** Those of one control. Of places that are alike the first one that is new, or the first one that is not, stands for all. */
function stepsOf(walk: Walk, c: number, slack: number): NextStep[] {
  const { controls, alike } = walk.part;
  const { places, springs, start } = controls[c]!;
  const seen = new Set<number>();
  const steps: NextStep[] = [];
  for (let p = 0; p < places.length; p++) {
    if (p === walk.at[c]) continue;
    const extra = walk.extra(c, p);
    if (extra > slack) continue;
    const isLetGo = springs && p === start;
    const same = alike[c]![p]! * 2 + (walk.isNew(c, p) ? 1 : 0);
    if (seen.has(same) && !isLetGo) continue;
    seen.add(same);
    steps.push({ control: c, place: p, rank: extra * 2 + (isLetGo ? -1 : 0) });
  }
  return steps;
}

/** So many goals at most are held against each other. */
const MOST_COMPARED = 50;

/**
 * How a tour is put together: all places as they come and then the goals; the goals and then the places that are left;
 * or always the place that takes the fewest goals out of reach, and shows the most.
 */
const MANNERS = ["places-first", "goals-first", "careful"] as const;

/** A tour that is found at once, the shortest of several; `least` is a length below which there is none. */
export function quickTour(part: TourPart, least: number, spend: Spend): readonly Step[] {
  let best: readonly Step[] | null = null;
  for (const manner of MANNERS) {
    const tour = greedyTour(part, manner, spend);
    if (best === null || tour.length < best.length) best = tour;
    if (best.length === least) break;
  }
  return best!;
}

function greedyTour(part: TourPart, manner: (typeof MANNERS)[number], spend: Spend): readonly Step[] {
  let within = true;
  const walk = beginWalk(part, (steps) => {
    within &&= spend(steps);
  });
  const steps: Step[] = [];
  const take = ({ control, place }: Step): void => {
    walk.take(control, place);
    steps.push({ control, place });
  };
  const toGoals = (): void => {
    for (let goals = walk.openGoals(); goals.length > 0; goals = walk.openGoals()) {
      // Among very many, and beyond what may be looked at, one of the first does.
      const near = goals.slice(0, within ? MOST_COMPARED : 1);
      const ways = near.map((goal) => ({ way: walk.wayTo(goal), extra: walk.extraOfGoal(goal) }));
      const next = ways.reduce((best, each) =>
        (each.extra - best.extra || each.way.length - best.way.length) < 0 ? each : best,
      );
      for (const step of next.way) take(step);
    }
  };
  if (manner === "goals-first") toGoals();
  const careful = manner === "careful" ? carefulSteps(walk) : null;
  for (;;) {
    const next = (within ? careful?.next() : null) ?? nextNew(walk);
    if (!next) break;
    take(next);
    careful?.taken(next.control);
  }
  toGoals();
  for (const [control, { springs, start }] of part.controls.entries())
    if (springs && walk.at[control] !== start) take({ control, place: start });
  return steps;
}

/** The first place that was not taken yet. */
function nextNew({ part, isNew, at }: Walk): Step | null {
  for (const [control, { places }] of part.controls.entries())
    for (let place = 0; place < places.length; place++)
      if (place !== at[control] && isNew(control, place)) return { control, place };
  return null;
}

/** The best next step, as long as some place was not taken yet; what is known of a control is kept until it may change. */
function carefulSteps(walk: Walk): { next(): Step | null; taken(control: number): void } {
  const { controls, goals, goalsOn } = walk.part;
  const best: (readonly [step: Step, cost: number, isNew: boolean] | null | undefined)[] = controls.map(
    () => undefined,
  );
  const costOf = (step: NextStep): number => {
    // The goals of other controls stay as they are.
    const open = goalsOn[step.control]!.filter(walk.isOpen);
    const sum = (): number =>
      open.reduce((total, goal) => (walk.isOpen(goal) ? total + 1 + 4 * walk.extraOfGoal(goal) : total), 0);
    const before = sum();
    const extra = walk.extra(step.control, step.place);
    const taken = walk.take(step.control, step.place);
    const cost = 4 * extra + sum() - before;
    walk.takeBack(taken);
    return cost;
  };
  const bestOf = (c: number): readonly [Step, number, boolean] | null => {
    let found: readonly [Step, number, boolean] | null = null;
    for (const step of stepsOf(walk, c, 1)) {
      const isNew = walk.isNew(c, step.place);
      // Letting go is left in any case, and may come first.
      if (!isNew && walk.extra(c, step.place) > 0) continue;
      const cost = costOf(step);
      if (found === null || cost < found[1]) found = [step, cost, isNew];
    }
    return found;
  };
  return {
    next: () => {
      let [next, least, isLeft]: [Step | null, number, boolean] = [null, Number.POSITIVE_INFINITY, false];
      for (let c = 0; c < controls.length; c++) {
        if (best[c] === undefined) best[c] = bestOf(c);
        const found = best[c];
        if (!found) continue;
        isLeft ||= found[2];
        if (found[1] < least) [next, least] = [found[0], found[1]];
      }
      return isLeft ? next : null;
    },
    taken: (control) => {
      best[control] = undefined;
      for (const goal of goalsOn[control]!) for (const c of goals[goal]!.controls) best[c] = undefined;
    },
  };
}

/** At most so many beginnings are followed at once, and so many at least. */
const BROADEST = 40;
const NARROWEST = 6;

interface Beginning {
  readonly steps: readonly Step[];
  readonly cost: number;
}

/** A tour that is shorter than the one known, if following the most promising beginnings side by side finds one. */
export function broadTour(part: TourPart, known: readonly Step[], mostSteps: number, spend: Spend): readonly Step[] {
  const places = part.controls.reduce((sum, control) => sum + control.places.length, 0);
  // Half of the goals are open on average.
  const stepsEach = part.goals.reduce((sum, { children }) => sum + 1 + (children.length >> 3), 1) >> 1;
  const breadth = Math.max(NARROWEST, Math.min(BROADEST, Math.floor(mostSteps / (known.length * places * stepsEach))));
  let within = true;
  const walk = beginWalk(part, (steps) => {
    within &&= spend(steps);
  });
  let front: readonly Beginning[] = [{ steps: [], cost: 0 }];
  for (let length = 1; length < known.length && within; length++) {
    const next = new Map<string, Beginning>();
    for (const { steps } of front) {
      const path = steps.map(({ control, place }) => walk.take(control, place));
      for (const { control, place } of nextSteps(walk, known.length)) {
        const taken = walk.take(control, place);
        const goals = walk.openGoals();
        if (goals.length === 0 && walk.left() === 0) return [...steps, { control, place }];
        const extras = goals.map((goal) => walk.extraOfGoal(goal));
        if (length + walk.left() + Math.max(0, ...extras) < known.length) {
          const cost = walk.left() + extras.reduce((sum, extra) => sum + 0.5 + 0.5 * extra, 0);
          const key = walk.key();
          if (!next.has(key)) next.set(key, { steps: [...steps, { control, place }], cost });
        }
        walk.takeBack(taken);
      }
      for (const taken of path.reverse()) walk.takeBack(taken);
    }
    front = [...next.values()].sort((a, b) => a.cost - b.cost).slice(0, breadth);
    if (front.length === 0) break;
  }
  return known;
}
