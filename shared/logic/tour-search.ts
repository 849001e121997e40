/** The shortest tour of a part, exactly where the budget suffices, and else the best that was found. */
import { passesTests, type Step, type TestList, type TourPart } from "./tour-part.ts";
import { beginWalk, type Walk } from "./tour-walk.ts";

/** What is wished of tours that are equally long. */
export interface PartWish {
  /** States that come as late as possible: those in which the craft may be armed. */
  readonly late: TestList;
  /** States that had better not come at all. */
  readonly shunned: readonly TestList[];
}

/** Work in steps, of which some are left. */
export interface Purse {
  left: number;
}

export interface PartTour {
  readonly steps: readonly Step[];
  readonly isShortest: boolean;
}

/**
 * A tour of the part. The bound: a movement takes one control to one place, so a tour has a movement for each place
 * that is not taken at its start, and one more to let go of each control that springs back. Tours that are longer by 0,
 * 1, 2, ... movements are searched in turn, depth first, until one is found.
 */
export function tourOfPart(part: TourPart, purse: Purse): PartTour {
  const { left, least } = boundsOf(part);
  let best = quickTour(part, least, purse);
  if (best.length > least && part.isSmall) best = broadTour(part, best, purse);
  for (let extra = least - left; extra < best.length - left; extra++) {
    const found = part.isSmall ? search(part, { ...FREE, extra }, spendFrom(purse, purse.left >> 1)) : "over";
    // What is longer takes still more work.
    if (found === "over") return { steps: best, isShortest: false };
    if (found !== null) return { steps: found, isShortest: true };
  }
  return { steps: best, isShortest: true };
}

/** How many places there are to go to and controls to let go of, and at least how many movements any tour has. */
function boundsOf(part: TourPart): { readonly left: number; readonly least: number } {
  const walk = beginWalk(part, () => {});
  const left = walk.left();
  return { left, least: part.apart ? Math.max(left, mostApart(walk.openGoals(), part.apart)) : left };
}

/** Of the tours of the length of one that is known one that keeps to the wishes, as far as such a tour is found. */
export function asWished(part: TourPart, wish: PartWish, known: readonly Step[], purse: Purse): readonly Step[] {
  const { late, shunned } = wish;
  if (!part.isSmall) return known;
  const extra = known.length - beginWalk(part, () => {}).left();
  const own: Purse = { left: purse.left >> 2 };
  for (const shun of shunned.length > 0 ? [shunned, []] : [[]]) {
    for (let lateMoves = 0; lateMoves <= known.length; lateMoves++) {
      const found = search(part, { extra, late, lateMoves, shunned: shun }, spendFrom(own, own.left >> 2));
      if (found !== null && found !== "over") return found;
    }
  }
  return known;
}

function spendFrom(purse: Purse, most: number): (steps: number) => boolean {
  let left = most;
  return (steps) => {
    left -= steps;
    purse.left -= steps;
    return left >= 0;
  };
}

interface Bounds {
  /** By how many movements the tour is longer than the bound. */
  readonly extra: number;
  readonly late: TestList | null;
  /** So many of the last movements may lead to states that come late. */
  readonly lateMoves: number;
  readonly shunned: readonly TestList[];
}

const FREE: Bounds = { extra: 0, late: null, lateMoves: 0, shunned: [] };

/** A tour within these bounds; null where there is none, `over` where the steps do not suffice to tell. */
function search(part: TourPart, bounds: Bounds, spend: (steps: number) => boolean): readonly Step[] | null | "over" {
  let within = true;
  const walk = beginWalk(part, (steps) => {
    if (!spend(steps)) within = false;
  });
  const failed = new Set<string>();
  const steps: Step[] = [];
  const { late, lateMoves, shunned } = bounds;
  const controlsOf = part.goals.map(({ controls }) => controls.reduce((all, c) => all | (1 << c), 0));
  const isAllowed = (slack: number): boolean => {
    if (shunned.some((list) => passesTests(list, walk.at))) return false;
    return late === null || walk.left() + slack < lateMoves || !passesTests(late, walk.at);
  };
  const visit = (slack: number): boolean => {
    if (!within) return false;
    const goals = walk.openGoals();
    if (walk.left() === 0 && goals.length === 0) return true;
    if (goals.some((goal) => walk.extraOfGoal(goal) > slack)) return false;
    if (part.apart && mostApart(goals, part.apart) > walk.left() + slack) return false;
    if (!spend(8 + part.controls.length)) within = false;
    const key = `${walk.key()}${String.fromCharCode(slack)}`;
    if (failed.has(key)) return false;
    const mayServe = late === null ? goals.reduce((all, goal) => all | controlsOf[goal]!, 0) : -1;
    for (const { control, place } of nextSteps(walk, slack)) {
      // Back to a place that was taken before: only for a goal.
      if (walk.extra(control, place) > 0 && ((mayServe >> control) & 1) === 0) continue;
      const left = slack - walk.extra(control, place);
      const taken = walk.take(control, place);
      steps.push({ control, place });
      if (isAllowed(left) && visit(left)) return true;
      steps.pop();
      walk.takeBack(taken);
    }
    failed.add(key);
    return false;
  };
  if (visit(bounds.extra)) return steps;
  return within ? null : "over";
}

/** At least so many movements meet these goals: of goals of which no two have a state in common each takes one. */
function mostApart(goals: readonly number[], apart: readonly Uint8Array[]): number {
  const chosen: number[] = [];
  for (const goal of goals) if (chosen.every((other) => apart[goal]![other] === 1)) chosen.push(goal);
  return chosen.length;
}

/** The steps that may come next with so many movements to spare, those that a hand would do first before others. */
function nextSteps(walk: Walk, slack: number): readonly Step[] {
  const { controls, alike } = walk.part;
  const steps: (Step & { rank: number })[] = [];
  for (const [c, control] of controls.entries()) {
    const seen = new Set<number>();
    for (let p = 0; p < control.places.length; p++) {
      if (p === walk.at[c]) continue;
      const extra = walk.extra(c, p);
      if (extra > slack) continue;
      // Of places that are alike the first one that is new, or the first one that is not, stands for all.
      const same = alike[c]![p]! * 2 + (walk.isNew(c, p) ? 1 : 0);
      if (seen.has(same) && !(control.springs && p === control.start)) continue;
      seen.add(same);
      const isLetGo = control.springs && p === control.start;
      steps.push({ control: c, place: p, rank: extra * 2 + (isLetGo ? -1 : 0) });
    }
  }
  return steps.sort((a, b) => a.rank - b.rank);
}

/** A tour that is found at once, the better of two: neither looks further than its next movements. */
function quickTour(part: TourPart, least: number, purse: Purse): readonly Step[] {
  const plain = greedyTour(part, spendFrom(purse, purse.left >> 3), () => false);
  if (plain.length === least) return plain;
  const spend = spendFrom(purse, purse.left >> 3);
  let isCareful = true;
  const careful = greedyTour(
    part,
    (steps) => {
      isCareful &&= spend(steps);
      return isCareful;
    },
    () => isCareful,
  );
  return careful.length < plain.length ? careful : plain;
}

/**
 * All places that were not taken yet, one by one, and then the goals, always the nearest first. While it is careful,
 * next is the place that takes the fewest goals out of reach, and shows the most.
 */
function greedyTour(part: TourPart, spend: (steps: number) => boolean, isCareful: () => boolean): readonly Step[] {
  const walk = beginWalk(part, spend);
  const steps: Step[] = [];
  const take = ({ control, place }: Step): void => {
    walk.take(control, place);
    steps.push({ control, place });
  };
  for (;;) {
    const next = nextNew(walk, isCareful);
    if (!next) break;
    take(next);
  }
  for (let goals = walk.openGoals(); goals.length > 0; goals = walk.openGoals()) {
    // Beyond what may be looked at the next best one does.
    const near = spend(goals.length) ? goals : goals.slice(0, 1);
    const ways = near.map((goal) => walk.wayTo(goal));
    for (const step of ways.reduce((best, way) => (way.length < best.length ? way : best))) take(step);
  }
  for (const [control, { springs, start }] of part.controls.entries())
    if (springs && walk.at[control] !== start) take({ control, place: start });
  return steps;
}

function nextNew(walk: Walk, isCareful: () => boolean): Step | null {
  const next = nextSteps(walk, 1);
  const first = next.find(({ control, place }) => walk.isNew(control, place)) ?? null;
  let best = first;
  let least = Number.POSITIVE_INFINITY;
  if (first === null) return null;
  for (const step of next) {
    if (!isCareful()) return first;
    const extra = walk.extra(step.control, step.place);
    // Letting go is left in any case, and may come first.
    if (!walk.isNew(step.control, step.place) && extra > 0) continue;
    // The goals of other controls stay as they are.
    const goals = walk.part.goalsOn[step.control]!.filter(walk.isOpen);
    const before = goals.reduce((sum, goal) => sum + 1 + 4 * walk.extraOfGoal(goal), 0);
    const taken = walk.take(step.control, step.place);
    const after = goals.reduce((sum, goal) => (walk.isOpen(goal) ? sum + 1 + 4 * walk.extraOfGoal(goal) : sum), 0);
    walk.takeBack(taken);
    const cost = 4 * extra + after - before;
    if (cost < least) [best, least] = [step, cost];
  }
  return best;
}

/** So many beginnings are followed at once. */
const BREADTH = 40;

interface Beginning {
  readonly steps: readonly Step[];
  readonly cost: number;
}

/** A tour that is shorter than the one known, if following the most promising beginnings side by side finds one. */
function broadTour(part: TourPart, known: readonly Step[], purse: Purse): readonly Step[] {
  const spend = spendFrom(purse, purse.left >> 1);
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
    front = [...next.values()].sort((a, b) => a.cost - b.cost).slice(0, BREADTH);
    if (front.length === 0) break;
  }
  return known;
}
