/** The motors of a craft as they stand round it, seen from above: plain data, computed by the server. */
import type { LinePlace } from "./findings.ts";

export interface PlacedMotor {
  /** From 1. */
  readonly number: number;
  /** The catalogue's word for its corner, such as `rear-left`; null where the script does not say it. */
  readonly place: string | null;
  /** Seen from above, forward up: x to the right, y forwards, the arms one unit long; below another motor with `isUnder`. */
  readonly x: number;
  readonly y: number;
  readonly isUnder: boolean;
  readonly direction: "clockwise" | "anticlockwise" | null;
  /** The output of the board, where it is said. */
  readonly output: number | null;
  /** Why it cannot be so, in a sentence each; none where all agrees. */
  readonly faults: readonly string[];
  readonly at: LinePlace | null;
}

export interface MotorsPicture {
  /** The word of `frame.arm-layout`, or the one that the places come to; null where it is not known. */
  readonly layout: string | null;
  /** Every corner of the frame, whether a motor is said to stand there or not. */
  readonly corners: readonly { readonly place: string; readonly x: number; readonly y: number }[];
  readonly motors: readonly PlacedMotor[];
  /** `props-in` or `props-out`, where it is said. */
  readonly spin: string | null;
  /** What is wrong with all of them together, in a sentence each. */
  readonly faults: readonly string[];
  readonly unknown: readonly string[];
}
