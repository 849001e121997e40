/** Constructors of comparisons, so that a table of them reads as sentences. */
import type { Comparison } from "../specs.ts";

type Must = Comparison["must"];
type Rest = Omit<Comparison, "rule" | "of" | "must" | "than" | "unit">;

/** Two values that cannot both be true of one craft: `of` must stand so to `than`, both in `unit`. */
export function contradiction(of: string, must: Must, than: string, unit: string, rest: Rest): Comparison {
  return { rule: "values-contradict", of, must, than, unit, ...rest };
}

/** A value that asks more of a part than it bears. */
export function rating(of: string, must: Must, than: string, unit: string, rest: Rest): Comparison {
  return { rule: "beyond-rating", of, must, than, unit, ...rest };
}

export const AXES = ["roll", "pitch", "yaw"] as const;
