/** Faults of the conditions themselves, as the logic finds them. */
import type { Source } from "../model/craft.ts";
import type { Cols } from "../syntax/span.ts";

/** A control or position that does not exist, or a test that does not fit its control. */
export interface Problem extends Cols {
  readonly code: "unknown-name" | "wrong-type";
  readonly what: "control" | "position";
  /** The mode or output whose condition contains it. */
  readonly in: string;
  readonly source: Source;
  /** The word as written. */
  readonly word: string;
  /** The control of an unknown position, or the dial tested for a position. */
  readonly control: string;
  /** At most 20 names that exist, the nearest first; empty for `wrong-type`, and where there are too many wrong names. */
  readonly candidates: readonly string[];
}

/** A reference to a mode that is not set up; such a mode is off. */
export interface UnsetReference extends Cols {
  readonly mode: string;
  readonly in: string;
  readonly source: Source;
}

/** Conditions that refer to each other in a cycle: each link's `from` names its `to`, the last one the first. */
export interface Cycle {
  readonly links: readonly (Cols & { readonly from: string; readonly to: string; readonly source: Source })[];
}
