/** The slots of a curve as the search for their values takes them: a whole number each, and what it is worth. */
import { decodeSlot } from "../codes/codes.ts";
import { heldOfOurs, numberIn } from "../codes/held.ts";
import type { Code, Held, NumberCode, Slot } from "../dialect.ts";
import { compareExact, dividedBy, type Exact, exact, floorExact, minus, numberOf, plus, times } from "../exact.ts";

export interface CurveSlot {
  readonly name: string;
  /** The least and the most step, both included; infinite where the code has no bounds. */
  readonly least: number;
  readonly most: number;
  /** The step at which the board means that nothing is set. */
  readonly unset: number | null;
  /** What a step is worth in the formula; between two steps it goes on smoothly. */
  worth(step: number): number;
  /** The same for a whole step, exactly and with its unit. */
  held(step: number): Held;
  /** The steps of the base and of the slot's default; null where there is none. */
  readonly base: number | null;
  readonly default: number | null;
}

/** A slot without a code holds what a script would write there: two decimal places are enough for a rate. */
const PLAIN_PLACES = 2;

/** `base`: what the base has in the slot, as the board spells it. A reason where the slot holds no number. */
export function curveSlotOf(slot: Slot, base: string | null): CurveSlot | { readonly why: string } {
  const steps = slot.whole ? ofWhole(slot.whole) : ofCode(slot.code);
  if (!steps) return { why: `slot “${slot.name}” holds no number` };
  const stepOf = (raw: string | null): number | null => {
    const held = raw === null ? null : decodeSlot(slot, raw);
    const number = held && held.kind !== "bad" && held.kind !== "unset" ? numberIn(held)?.number : null;
    const step = number ? steps.stepOf(number) : null;
    return step !== null && step >= steps.least && step <= steps.most ? step : null;
  };
  return { name: slot.name, ...steps, base: stepOf(base), default: stepOf(slot.default) };
}

type Steps = Pick<CurveSlot, "least" | "most" | "unset" | "worth" | "held"> & {
  /** The step of a value; null where it lies between two. */
  stepOf(number: Exact): number | null;
};

function ofWhole({ from, to }: NonNullable<Slot["whole"]>): Steps {
  return { ...linear(exact(0n), exact(1n), ""), least: from, most: to };
}

function ofCode(code: Code | null): Steps | null {
  if (code === null) return linear(exact(0n), exact(1n, 10n ** BigInt(PLAIN_PLACES)), "");
  if (code.kind === "words") return ofWords(code.words.map(({ ours }) => ours));
  return code.kind === "number" && !code.channels ? ofNumber(code) : null;
}

function ofNumber(code: NumberCode): Steps {
  const scale = exact(10n ** BigInt(code.places));
  const scaled = (number: Exact | null): number | null => number && numberOf(times(number, scale));
  const bounds = {
    least: Math.ceil(scaled(code.least) ?? Number.NEGATIVE_INFINITY),
    most: Math.floor(scaled(code.most) ?? Number.POSITIVE_INFINITY),
    unset: scaled(code.unset),
  };
  const { into } = code;
  const steps = linear(code.from, dividedBy(code.each, scale), code.unit);
  if (!into) return { ...steps, ...bounds };
  const parts = numberOf(into);
  return {
    ...bounds,
    worth: (step) => parts / steps.worth(step),
    held: (step) => {
      const divisor = plus(code.from, times(dividedBy(code.each, scale), exact(BigInt(step))));
      return { kind: "number", number: divisor.over === 0n ? exact(0n) : dividedBy(into, divisor), unit: code.unit };
    },
    stepOf: (number) => (number.over === 0n ? null : steps.stepOf(dividedBy(into, number))),
  };
}

/** from + step × each, without bounds. */
function linear(from: Exact, each: Exact, unit: string): Steps {
  const [start, size] = [numberOf(from), numberOf(each)];
  return {
    least: Number.NEGATIVE_INFINITY,
    most: Number.POSITIVE_INFINITY,
    unset: null,
    worth: (step) => start + step * size,
    held: (step) => ({ kind: "number", number: plus(from, times(each, exact(BigInt(step)))), unit }),
    stepOf: (number) => {
      if (each.over === 0n) return null;
      const step = dividedBy(minus(number, from), each);
      return step.under === 1n ? Number(floorExact(step)) : null;
    },
  };
}

/** Words that stand for numbers, the least first. */
function ofWords(ours: readonly (string | null)[]): Steps | null {
  const helds = ours.flatMap((each) => numberIn(heldOfOurs(each ?? "")) ?? []);
  const sorted = helds.toSorted((a, b) => compareExact(a.number, b.number));
  if (sorted.length === 0) return null;
  const numbers = sorted.map(({ number }) => numberOf(number));
  return {
    least: 0,
    most: numbers.length - 1,
    unset: null,
    worth: (step) => {
      const low = Math.min(numbers.length - 1, Math.floor(step));
      return numbers[low]! + (step - low) * ((numbers[low + 1] ?? numbers[low]!) - numbers[low]!);
    },
    held: (step) => sorted[step]!,
    stepOf: (number) => {
      const found = sorted.findIndex((held) => compareExact(held.number, number) === 0);
      return found < 0 ? null : found;
    },
  };
}
