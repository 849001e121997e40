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

/** Above these numbers of places no search ends within the budget. */
const MOST_PLACES = 64;
const MOST_CONTROLS = 16;

/**
 * A tour of the part. The bound: a movement takes one control to one place, so a tour has a movement for each place
 * that is not taken at its start, and one more to let go of each control that springs back. Tours that are longer by 0,
 * 1, 2, ... movements are searched in turn, depth first, until one is found.
 */
export function tourOfPart(part: TourPart, purse: Purse): PartTour {
  const quick = quickTour(part, purse);
  const least = beginWalk(part, () => {}).left();
  const places = part.controls.reduce((sum, control) => sum + control.places.length, 0);
  const isSmall = places <= MOST_PLACES && part.controls.length <= MOST_CONTROLS;
  let best = quick;
  let isProven = isSmall || quick.length === least;
  for (let extra = 0; isSmall && extra < quick.length - least; extra++) {
    // What is left is shared out among the lengths that may still be tried, with more for the shorter ones.
    const found = search(part, { extra, late: null, lateMoves: 0, shunned: [] }, spendFrom(purse, purse.left >> 1));
    if (found === "over") isProven = false;
    else if (found !== null) {
      best = found;
      break;
    }
  }
  return { steps: best, isShortest: isProven };
}

/** Of the tours of the length of one that is known one that keeps to the wishes, as far as such a tour is found. */
export function asWished(part: TourPart, wish: PartWish, known: readonly Step[], purse: Purse): readonly Step[] {
  const { late, shunned } = wish;
  if (part.controls.length > MOST_CONTROLS) return known;
  const extra = known.length - beginWalk(part, () => {}).left();
  for (const shun of shunned.length > 0 ? [shunned, []] : [[]]) {
    for (let lateMoves = 0; lateMoves <= known.length; lateMoves++) {
      const found = search(part, { extra, late, lateMoves, shunned: shun }, spendFrom(purse, purse.left >> 2));
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
function quickTour(part: TourPart, purse: Purse): readonly Step[] {
  const charge = (steps: number) => {
    purse.left -= steps;
  };
  const plain = greedyTour(part, charge, false);
  const careful = greedyTour(part, charge, purse.left > 0);
  return careful.length < plain.length ? careful : plain;
}

/**
 * All places that were not taken yet, one by one, and then the goals, always the nearest first. `isCareful`: next is
 * the place that takes the fewest goals out of reach, and shows the most.
 */
function greedyTour(part: TourPart, charge: (steps: number) => void, isCareful: boolean): readonly Step[] {
  const walk = beginWalk(part, charge);
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
    const ways = goals.map((goal) => walk.wayTo(goal));
    for (const step of ways.reduce((best, way) => (way.length < best.length ? way : best))) take(step);
  }
  for (const [control, { springs, start }] of part.controls.entries())
    if (springs && walk.at[control] !== start) take({ control, place: start });
  return steps;
}

function nextNew(walk: Walk, isCareful: boolean): Step | null {
  let best: Step | null = null;
  let least = Number.POSITIVE_INFINITY;
  const next = nextSteps(walk, 1);
  if (!next.some(({ control, place }) => walk.isNew(control, place))) return null;
  for (const step of next) {
    if (!walk.isNew(step.control, step.place)) {
      // Letting go is left in any case, and may come first.
      if (!isCareful || walk.extra(step.control, step.place) > 0) continue;
    } else if (!isCareful) return step;
    const extra = walk.extra(step.control, step.place);
    const taken = walk.take(step.control, step.place);
    const cost = walk.openGoals().reduce((sum, goal) => sum + 1 + 4 * walk.extraOfGoal(goal), 4 * extra);
    walk.takeBack(taken);
    if (cost < least) [best, least] = [step, cost];
  }
  return best;
}
