/**
 * Least squares within bounds, by the method of Levenberg and Marquardt: K. Levenberg, Quarterly of Applied
 * Mathematics 2 (1944); D. W. Marquardt, SIAM Journal 11 (1963). Each step solves (JᵀJ + λ·diag JᵀJ)·δ = −Jᵀr for the
 * parameters that no bound holds, and ends at the bounds.
 */

export interface FitBounds {
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** A small amount of any parameter, by which derivatives are taken about nought. */
  readonly small: number;
}

export interface FitResult {
  readonly parameters: readonly number[];
  /** The sum of squares; Infinity where the residuals have no value at the start. */
  readonly squares: number;
}

/** What is to become small: it fills `out` with one number a place. */
export type Residuals = (parameters: readonly number[], out: Float64Array) => void;

const MOST_STEPS = 120;
const [LEAST_DAMPING, MOST_DAMPING] = [1e-14, 1e14];

/** The parameters next to `start` with the least sum of squares of `count` residuals. A minimum, if not the only one. */
export function fitLeastSquares(
  residuals: Residuals,
  count: number,
  start: readonly number[],
  { low, high, small }: FitBounds,
): FitResult {
  const within = (value: number, i: number): number => Math.min(high[i]!, Math.max(low[i]!, value));
  let at = start.map(within);
  let here = new Float64Array(count);
  let there = new Float64Array(count);
  residuals(at, here);
  let squares = sumOfSquares(here);
  if (!Number.isFinite(squares)) return { parameters: at, squares: Number.POSITIVE_INFINITY };
  let damping = 1e-3;
  for (let step = 0; step < MOST_STEPS && squares > 0; step++) {
    const columns = at.map((_, i) => derivative(residuals, count, at, i, low[i]!, high[i]!, small));
    const gradient = columns.map((column) => dot(column, here));
    const free = at.flatMap((value, i) => (isHeld(value, gradient[i]!, low[i]!, high[i]!) ? [] : [i]));
    let isBetter = false;
    while (!isBetter && damping <= MOST_DAMPING) {
      const move = dampedStep(columns, gradient, free, damping);
      const next = at.map((value, i) => within(value + (move.get(i) ?? 0), i));
      residuals(next, there);
      const nextSquares = sumOfSquares(there);
      if (!(nextSquares < squares)) {
        damping *= 8;
        continue;
      }
      isBetter = true;
      const gain = squares - nextSquares;
      const isDone = gain <= 1e-15 * squares;
      [at, squares] = [next, nextSquares];
      [here, there] = [there, here];
      damping = Math.max(LEAST_DAMPING, damping / 6);
      if (isDone) return { parameters: at, squares };
    }
    if (!isBetter) break;
  }
  return { parameters: at, squares };
}

/** Whether a parameter stands at a bound beyond which the squares would become less. */
function isHeld(value: number, gradient: number, low: number, high: number): boolean {
  return low >= high || (value <= low && gradient > 0) || (value >= high && gradient < 0);
}

/** By central differences, within the bounds. */
function derivative(
  residuals: Residuals,
  count: number,
  at: readonly number[],
  i: number,
  low: number,
  high: number,
  small: number,
): Float64Array {
  // The cube root of a double's precision is the best step of a central difference.
  const width = 6e-6 * Math.max(Math.abs(at[i]!), small);
  const [below, above] = [Math.max(low, at[i]! - width), Math.min(high, at[i]! + width)];
  const column = new Float64Array(count);
  if (!(above > below)) return column;
  const before = new Float64Array(count);
  residuals(at.with(i, above), column);
  residuals(at.with(i, below), before);
  for (let place = 0; place < count; place++) {
    const slope = (column[place]! - before[place]!) / (above - below);
    column[place] = Number.isFinite(slope) ? slope : 0;
  }
  return column;
}

function dampedStep(
  columns: readonly Float64Array[],
  gradient: readonly number[],
  free: readonly number[],
  damping: number,
): Map<number, number> {
  // Parameters differ in scale by many powers of ten: each is measured by its own column.
  const scales = free.map((i) => Math.sqrt(dot(columns[i]!, columns[i]!)) || 1);
  const rows = free.map((i, row) => [
    ...free.map((j, column) =>
      i === j
        ? columns[i]!.some(Boolean)
          ? 1 + damping
          : 0
        : dot(columns[i]!, columns[j]!) / (scales[row]! * scales[column]!),
    ),
    -gradient[i]! / scales[row]!,
  ]);
  const solved = solve(rows);
  return new Map(free.map((i, row) => [i, solved[row]! / scales[row]!]));
}

/** A pivot below this share of the diagonal is rounding: what it would determine is left as it is. */
const NOUGHT = 1e-15;

/** Gaussian elimination with pivots; what is not determined is nought. Each row ends with its right-hand side. */
function solve(rows: number[][]): number[] {
  const size = rows.length;
  const solution = new Array<number>(size).fill(0);
  for (let i = 0; i < size; i++) {
    let pivot = i;
    for (let row = i + 1; row < size; row++) if (Math.abs(rows[row]![i]!) > Math.abs(rows[pivot]![i]!)) pivot = row;
    [rows[i], rows[pivot]] = [rows[pivot]!, rows[i]!];
    if (Math.abs(rows[i]![i]!) <= NOUGHT) continue;
    for (let row = i + 1; row < size; row++) {
      const factor = rows[row]![i]! / rows[i]![i]!;
      for (let column = i; column <= size; column++) rows[row]![column]! -= factor * rows[i]![column]!;
    }
  }
  for (let i = size - 1; i >= 0; i--) {
    if (Math.abs(rows[i]![i]!) <= NOUGHT) continue;
    let rest = rows[i]![size]!;
    for (let column = i + 1; column < size; column++) rest -= rows[i]![column]! * solution[column]!;
    solution[i] = rest / rows[i]![i]!;
  }
  return solution;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

export function sumOfSquares(residuals: Float64Array): number {
  return dot(residuals, residuals);
}
