/**
 * Exact numbers: what a board writes in steps of 0.02 V is 3.5 V and not 3.5000000000000004 V. Fractions of whole
 * numbers in lowest terms, since `into` divides.
 */

/** `over` / `under`, in lowest terms, `under` above nought. */
export interface Exact {
  readonly over: bigint;
  readonly under: bigint;
}

/** The fraction in lowest terms. Throws a RangeError for a denominator of nought. */
export function exact(over: bigint, under = 1n): Exact {
  if (under === 0n) throw new RangeError("a fraction needs a denominator other than nought");
  const divisor = greatestCommonDivisor(over < 0n ? -over : over, under < 0n ? -under : under);
  const sign = under < 0n ? -1n : 1n;
  return { over: (sign * over) / divisor, under: (sign * under) / divisor };
}

/** Euclid's algorithm; 1 for two noughts. */
function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}

/** A decimal as written, as `-0.02` or `1e6`; null for anything else. */
export function exactOf(digits: string): Exact | null {
  const match = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,3}))?$/.exec(digits);
  if (!match) return null;
  const [, sign, whole = "", places = "", power = "0"] = match;
  if (whole + places === "") return null;
  const shift = Number(power) - places.length;
  const number = BigInt(whole + places) * (sign === "-" ? -1n : 1n);
  return shift < 0 ? exact(number, 10n ** BigInt(-shift)) : exact(number * 10n ** BigInt(shift));
}

/** The exact value of the shortest decimal that stands for a finite number: 0.1 is one tenth. */
export function exactOfNumber(number: number): Exact {
  const made = exactOf(String(number));
  if (!made) throw new RangeError(`${number} is no finite number`);
  return made;
}

export function plus(a: Exact, b: Exact): Exact {
  return exact(a.over * b.under + b.over * a.under, a.under * b.under);
}

export function minus(a: Exact, b: Exact): Exact {
  return exact(a.over * b.under - b.over * a.under, a.under * b.under);
}

export function times(a: Exact, b: Exact): Exact {
  return exact(a.over * b.over, a.under * b.under);
}

/** Throws a RangeError where `b` is nought. */
export function dividedBy(a: Exact, b: Exact): Exact {
  return exact(a.over * b.under, a.under * b.over);
}

/** Below nought, nought or above it as `a` is less than, equal to or more than `b`. */
export function compareExact(a: Exact, b: Exact): number {
  const difference = a.over * b.under - b.over * a.under;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** The nearest number that a double can hold. */
export function numberOf({ over, under }: Exact): number {
  const direct = Number(over) / Number(under);
  return Number.isFinite(direct) ? direct : 0;
}

/** The whole number next to it; of two equally near the lower one. */
export function nearestWhole({ over, under }: Exact): bigint {
  // The lower of two: the ceiling of the number less a half.
  return -floorOf(-(2n * over - under), 2n * under);
}

/** The greatest whole number that is not above it. */
export function floorExact({ over, under }: Exact): bigint {
  return floorOf(over, under);
}

function floorOf(over: bigint, under: bigint): bigint {
  const quotient = over / under;
  return over % under !== 0n && over < 0n !== under < 0n ? quotient - 1n : quotient;
}

/** As a decimal without an exponent: every place where they end, six figures where they do not. */
export function decimalOf(value: Exact): string {
  const places = endingPlaces(value.under);
  if (places === null) return decimalOf(toSixFigures(value));
  const digits = (value.over * 10n ** BigInt(places)) / value.under;
  const text = (digits < 0n ? -digits : digits).toString().padStart(places + 1, "0");
  const cut = text.length - places;
  const fraction = text.slice(cut).replace(/0+$/, "");
  return `${digits < 0n ? "-" : ""}${text.slice(0, cut)}${fraction === "" ? "" : `.${fraction}`}`;
}

/** The decimal places that a fraction with this denominator has; null where they never end. */
function endingPlaces(under: bigint): number | null {
  let rest = under;
  let [twos, fives] = [0, 0];
  for (; rest % 2n === 0n; rest /= 2n) twos++;
  for (; rest % 5n === 0n; rest /= 5n) fives++;
  return rest === 1n ? Math.max(twos, fives) : null;
}

function toSixFigures(value: Exact): Exact {
  return exactOf(numberOf(value).toPrecision(6)) ?? exact(0n);
}
