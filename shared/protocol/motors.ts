/** The motors of a craft as they stand round it, seen from above: plain data, computed by the server. */
import type { LinePlace } from "./findings.ts";

export type MotorTurn = "clockwise" | "anticlockwise";

/** A point above the frame: x to the right, y forwards; the arms are one unit long. */
export interface MotorPoint {
  readonly x: number;
  readonly y: number;
}

/** A place of the frame, whether a motor is said to stand there or not. */
export interface MotorCorner extends MotorPoint {
  /** The catalogue's word for it, such as `rear-left`. */
  readonly place: string;
  /** Below another motor of the same arm, at the same point. */
  readonly isUnder: boolean;
  /** Which way a motor here turns, where that follows from what is said of the whole set. */
  readonly direction: MotorTurn | null;
}

export interface PlacedMotor extends MotorPoint {
  /** From 1. */
  readonly number: number;
  /** The catalogue's word for its corner; null where the script does not say it, and x and y are 0 then. */
  readonly place: string | null;
  readonly isUnder: boolean;
  /** Seen from above. */
  readonly direction: MotorTurn | null;
  /** Whether its own line says the direction, or it follows from what is said of the whole set; null where neither. */
  readonly directionFrom: "own" | "spin" | null;
  /** The output of the board, where it is said. */
  readonly output: number | null;
  /** A limit of its own, where it is said. */
  readonly limitPercent: number | null;
  /** Why it cannot be so, in a sentence each; none where all agrees. */
  readonly faults: readonly string[];
  /** Its line; null where no line says anything of it. */
  readonly at: LinePlace | null;
  /** False where that line has a fault, so that nothing of it is known. */
  readonly isRead: boolean;
}

/** Two motors that cannot both be as they are said to be. */
export interface MotorConflict {
  readonly kind: "corner" | "output" | "direction";
  readonly motors: readonly [number, number];
}

export interface MotorsPicture {
  /** The word of `frame.arm-layout`, or the one that the places come to; null where it is not known. */
  readonly layout: string | null;
  /** Clockwise from the front, upper ones before lower ones; empty for a frame of which no arrangement is known. */
  readonly corners: readonly MotorCorner[];
  /** By their number: those of which something is said, and those that the frame must have. */
  readonly motors: readonly PlacedMotor[];
  /** `props-in` or `props-out`, where it is said. */
  readonly spin: string | null;
  readonly spinAt: LinePlace | null;
  readonly conflicts: readonly MotorConflict[];
  /** What is wrong with all of them together, in a sentence each. */
  readonly faults: readonly string[];
  /** What the script does not say, and what to write, in a sentence each. */
  readonly unknown: readonly string[];
}
