/** The shortest tour of a part, exactly where the budget suffices, and else the best that was found. */
import { NO, passesTests, type Step, type TestList, type TourPart } from "./tour-part.ts";
import { broadTour, nextSteps, quickTour, type Spend } from "./tour-quick.ts";
import { beginWalk } from "./tour-walk.ts";

/** What is wished of tours that are equally long. */
export interface PartWish {
  /** States that come as late as possible: those in which the craft may be armed. */
  readonly late: TestList;
  /** Goals of the part that only such states meet. */
  readonly lateGoals: readonly number[];
  /** 1 if some movement has to lead to such a state, since a goal or a place is nowhere else. */
  readonly leastLate: 0 | 1;
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
  let best = quickTour(part, least, spendFrom(purse, purse.left >> 2));
  if (best.length > least && part.isSmall)
    best = broadTour(part, best, purse.left >> 1, spendFrom(purse, purse.left >> 1));
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
  const { late, lateGoals, leastLate, shunned } = wish;
  if (!part.isSmall) return known;
  const extra = known.length - beginWalk(part, () => {}).left();
  const serves = servingPlaces(part, lateGoals);
  const own: Purse = { left: purse.left >> 2 };
  for (const shun of shunned.length > 0 ? [shunned, []] : [[]]) {
    for (let lateMoves = leastLate; lateMoves <= known.length; lateMoves += 1 + (lateMoves >> 2)) {
      const bounds = { extra, late, lateMoves, shunned: shun, serves };
      const found = search(part, bounds, spendFrom(own, own.left >> 2));
      if (found !== null && found !== "over") return found;
    }
  }
  return known;
}

/** By control, for each place whether some of these goals need it: a control is best there when they are met. */
function servingPlaces(part: TourPart, goals: readonly number[]): readonly Uint8Array[] {
  const serves = part.controls.map(({ places }) => new Uint8Array(places.length));
  for (const goal of goals) {
    const { controls, firsts, children } = part.goals[goal]!;
    for (const [t, c] of controls.entries()) {
      const own = children.subarray(firsts[t], firsts[t]! + part.controls[c]!.places.length);
      for (const [p, child] of own.entries()) if (child !== NO && own.includes(NO)) serves[c]![p] = 1;
    }
  }
  return serves;
}

function spendFrom(purse: Purse, most: number): Spend {
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
  /** Places that had better come after others. */
  readonly serves: readonly Uint8Array[];
}

const FREE: Bounds = { extra: 0, late: null, lateMoves: 0, shunned: [], serves: [] };

/** A tour within these bounds; null where there is none, `over` where the steps do not suffice to tell. */
function search(part: TourPart, bounds: Bounds, spend: Spend): readonly Step[] | null | "over" {
  let within = true;
  const walk = beginWalk(part, (steps) => {
    if (!spend(steps)) within = false;
  });
  const failed = new Set<string>();
  const steps: Step[] = [];
  const { late, lateMoves, shunned, serves } = bounds;
  const controlsOf = part.goals.map(({ controls }) => controls.reduce((all, c) => all | (1 << c), 0));
  const isAllowed = (slack: number): boolean => {
    if (shunned.some((list) => passesTests(list, walk.at))) return false;
    return late === null || walk.left() + slack < lateMoves || !passesTests(late, walk.at);
  };
  const inOrder = (next: ReturnType<typeof nextSteps>): readonly Step[] => {
    if (late === null) return next;
    const rank = ({ rank: own, control, place }: (typeof next)[number]) => 2 * own + (serves[control]![place] ?? 0);
    return next.toSorted((a, b) => rank(a) - rank(b));
  };
  const visit = (slack: number): boolean => {
    if (!within) return false;
    const goals = walk.openGoals();
    if (walk.left() === 0 && goals.length === 0) return true;
    if (goals.some((goal) => walk.extraOfGoal(goal) > slack)) return false;
    if (part.apart && mostApart(goals, part.apart) > walk.left() + slack) return false;
    if (!spend(12 + 2 * part.controls.length)) within = false;
    const key = `${walk.key()}${String.fromCharCode(slack)}`;
    if (failed.has(key)) return false;
    const mayServe = late === null ? goals.reduce((all, goal) => all | controlsOf[goal]!, 0) : -1;
    for (const { control, place } of inOrder(nextSteps(walk, slack))) {
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
