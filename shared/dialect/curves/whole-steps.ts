/**
 * The whole steps with the least sum of squares: branch and bound over fits that take any number between two steps.
 * Where the residuals are linear in every slot, a fit is a true bound and the answer the best there is. Elsewhere a fit
 * may end in a hollow that is not the deepest: several starts, and the neighbours of every answer, make that unlikely.
 */
import { type FitResult, fitLeastSquares, type Residuals, sumOfSquares } from "./fit.ts";

export interface StepRange {
  readonly least: number;
  readonly most: number;
  /** A step that may not be taken. */
  readonly never: number | null;
}

export interface WholeSteps {
  readonly steps: readonly number[];
  readonly squares: number;
}

export interface StepSearch {
  readonly residuals: Residuals;
  readonly count: number;
  readonly ranges: readonly StepRange[];
  /** Squares that differ by less are equal. */
  readonly tolerance: number;
}

/** Fits that one search may take. */
const MOST_FITS = 160;
/** So near to a whole step a fit is at it. */
const WHOLE = 1e-6;

/** Null where the residuals have no value anywhere that was tried. */
export function bestWholeSteps(search: StepSearch, starts: readonly (readonly number[])[]): WholeSteps | null {
  const whole = search.ranges.map(({ least, most }) => ({ low: least, high: most }));
  const hollows = starts
    .map((start) => fitWithin(search, whole, start))
    .filter(({ squares }) => Number.isFinite(squares))
    .sort((a, b) => a.squares - b.squares);
  let best: WholeSteps | null = null;
  for (const [i, hollow] of hollows.entries()) {
    const isSame = hollows.slice(0, i).some((other) => isNear(other.parameters, hollow.parameters));
    if (isSame || (best && hollow.squares >= best.squares - search.tolerance)) continue;
    best = descend(search, rounded(search, hollow.parameters), best);
    best = branch(search, whole, hollow, best);
  }
  return best && descend(search, best.steps, best);
}

/** The best steps of which some are fixed: all that come near enough to `squares`, or null. */
export function stepsWith(
  search: StepSearch,
  fixed: ReadonlyMap<number, number>,
  start: readonly number[],
  squares: number,
): WholeSteps | null {
  const box = search.ranges.map(({ least, most }, i) => {
    const at = fixed.get(i);
    return at === undefined ? { low: least, high: most } : { low: at, high: at };
  });
  const fit = fitWithin(search, box, start);
  if (!(fit.squares <= squares + search.tolerance)) return null;
  const found = branch(search, box, fit, null, squares + search.tolerance);
  return found && found.squares <= squares + search.tolerance ? found : null;
}

/** Whether any numbers with this one fixed come near enough: what no fit reaches, no whole steps do. */
export function mayReach(
  search: StepSearch,
  fixed: ReadonlyMap<number, number>,
  start: readonly number[],
  squares: number,
): boolean {
  const box = search.ranges.map(({ least, most }, i) => ({ low: fixed.get(i) ?? least, high: fixed.get(i) ?? most }));
  return fitWithin(search, box, start).squares <= squares + search.tolerance;
}

interface Side {
  readonly low: number;
  readonly high: number;
}

function fitWithin({ residuals, count }: StepSearch, box: readonly Side[], start: readonly number[]): FitResult {
  const bounds = { low: box.map(({ low }) => low), high: box.map(({ high }) => high), small: 1 };
  return fitLeastSquares(residuals, count, start, bounds);
}

function isNear(a: readonly number[], b: readonly number[]): boolean {
  return a.every((each, i) => Math.abs(each - b[i]!) < 1e-3 * (1 + Math.abs(each)));
}

/** Depth first, the nearer side before the other; `enough`: ends with the first steps that are so good. */
function branch(
  search: StepSearch,
  box: readonly Side[],
  root: FitResult,
  known: WholeSteps | null,
  enough = Number.NEGATIVE_INFINITY,
): WholeSteps | null {
  let best = known;
  let fits = 0;
  const open: { box: readonly Side[]; fit: FitResult }[] = [{ box, fit: root }];
  while (open.length > 0 && fits < MOST_FITS && !(best && best.squares <= enough)) {
    const { box: here, fit } = open.pop()!;
    if (best && fit.squares >= best.squares - search.tolerance) continue;
    const at = fit.parameters.findIndex((value, i) => !isTaken(value, search.ranges[i]!));
    if (at < 0) {
      best = better(search, fit.parameters.map(Math.round), best);
      continue;
    }
    const value = fit.parameters[at]!;
    const isWhole = Math.abs(value - Math.round(value)) < WHOLE;
    const below = { low: here[at]!.low, high: isWhole ? Math.round(value) - 1 : Math.floor(value) };
    const above = { low: isWhole ? Math.round(value) + 1 : Math.ceil(value), high: here[at]!.high };
    const sides = value - below.high <= above.low - value ? [above, below] : [below, above];
    for (const side of sides) {
      if (side.low > side.high) continue;
      const next = here.with(at, side);
      open.push({ box: next, fit: fitWithin(search, next, fit.parameters) });
      fits++;
    }
  }
  return best;
}

/** Whether a parameter stands at a step that may be taken. */
function isTaken(value: number, { never }: StepRange): boolean {
  return Math.abs(value - Math.round(value)) < WHOLE && Math.round(value) !== never;
}

function rounded({ ranges }: StepSearch, parameters: readonly number[]): number[] {
  return parameters.map((value, i) => {
    const { least, most, never } = ranges[i]!;
    const step = Math.min(most, Math.max(least, Math.round(value)));
    return step !== never ? step : step < most ? step + 1 : step - 1;
  });
}

function squaresAt({ residuals, count }: StepSearch, steps: readonly number[]): number {
  const out = new Float64Array(count);
  residuals(steps, out);
  return sumOfSquares(out);
}

function better(search: StepSearch, steps: readonly number[], best: WholeSteps | null): WholeSteps | null {
  if (steps.some((step, i) => step === search.ranges[i]!.never)) return best;
  const squares = squaresAt(search, steps);
  return Number.isFinite(squares) && (!best || squares < best.squares - search.tolerance) ? { steps, squares } : best;
}

/** From neighbour to better neighbour: one slot by a step, or two slots by one each. */
function descend(search: StepSearch, from: readonly number[], known: WholeSteps | null): WholeSteps | null {
  let best = better(search, from, known);
  for (let isBetter = true; isBetter && best; ) {
    const before: WholeSteps = best;
    for (const next of neighbours(before.steps, search.ranges)) best = better(search, next, best);
    isBetter = best !== before;
  }
  return best;
}

function* neighbours(steps: readonly number[], ranges: readonly StepRange[]): Generator<readonly number[]> {
  const moves = steps.flatMap((_, i) => [-1, 1].map((by) => ({ i, by })));
  for (const a of moves) {
    const one = steps.with(a.i, steps[a.i]! + a.by);
    if (!isWithin(one[a.i]!, ranges[a.i]!)) continue;
    yield one;
    for (const b of moves)
      if (b.i > a.i && isWithin(one[b.i]! + b.by, ranges[b.i]!)) yield one.with(b.i, one[b.i]! + b.by);
  }
}

function isWithin(step: number, { least, most }: StepRange): boolean {
  return step >= least && step <= most;
}
