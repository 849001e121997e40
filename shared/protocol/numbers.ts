/** The numbers of a craft as they are drawn: plain data, computed by the server, units in the names. */
import type { LinePlace, Severity } from "./findings.ts";
import type { MotorsPicture } from "./motors.ts";
import type { Gap } from "./ways.ts";

export interface RatesAxis {
  readonly name: "roll" | "pitch" | "yaw";
  /** From the stick's middle, 0, to its end, 1; the other half is the same, with the sign reversed. */
  readonly points: readonly (readonly [stick: number, degPerS: number])[];
  /** At the stick's end. */
  readonly endDegPerS: number;
  /** The stick deflection with half of that rate; null if the curve never reaches it. */
  readonly halfAtStick: number | null;
  readonly at: LinePlace | null;
}

export interface RatesPicture {
  readonly set: "rates" | "rates-second";
  readonly axes: readonly RatesAxis[];
  /** Null if a line of it in the script has a fault. */
  readonly throttle: {
    /** Both from 0 to 1. */
    readonly points: readonly (readonly [stick: number, throttle: number])[];
    /** The most that the motors are given, from 0 to 1. */
    readonly limit: number;
    readonly at: LinePlace | null;
  } | null;
}

/** A chain of filters. */
export interface FilterChain {
  readonly name: "gyro" | "damping";
  /** Gain at each frequency; 0 dB passes everything. */
  readonly response: readonly (readonly [hz: number, db: number])[];
  /** Delay at low frequency, where the craft's movements are. */
  readonly delayMs: number;
}

export interface FilterPart {
  /** Name of its setting, such as `smooth-gyro`. */
  readonly name: string;
  /** Description, such as “order 2 at 120 Hz”. */
  readonly what: string;
  readonly chain: FilterChain["name"];
  readonly delayMs: number;
  readonly at: LinePlace | null;
}

export interface FiltersPicture {
  readonly chains: readonly FilterChain[];
  readonly parts: readonly FilterPart[];
  /** Frequencies of the motors' noise, from hover to full throttle; null if they are not known. */
  readonly motors: { readonly fromHz: number; readonly toHz: number } | null;
  /**
   * Frequencies of the notches that follow the motors, at both ends of that range; null if there are none,
   * or if not known.
   */
  readonly notches: { readonly hoverHz: readonly number[]; readonly fullHz: readonly number[] } | null;
  /** Settings that are set and not part of the computation. */
  readonly leftOut: readonly string[];
}

export interface PackPicture {
  /** `pack`, or `pack/NAME`. */
  readonly section: string;
  /** Null if it is not set; then the usual bands are null too. */
  readonly chemistry: string | null;
  /** Null if the board detects them. */
  readonly cells: number | null;
  /** Limits of a cell: never charged above, never discharged below; null if the chemistry is not set. */
  readonly bears: { readonly fromCellV: number; readonly toCellV: number } | null;
  /** `full-at`, `warn-at` and `land-at`, those that are set. */
  readonly marks: readonly PackMark[];
  readonly capacityMah: number | null;
  /** The part of it that may be used. */
  readonly usableMah: number | null;
  /** Time until that is used, in a steady hover and at full current. */
  readonly hoverS: number | null;
  readonly fullS: number | null;
  /** The line of its capacity, or else of its cells or its chemistry. */
  readonly at: LinePlace | null;
  /** The severity of the worst finding on its own lines; null where there is none. */
  readonly worst: Severity | null;
}

export interface PackMark {
  readonly name: string;
  readonly cellV: number;
  /** Where pilots usually set it for this chemistry; null if the chemistry is not set. */
  readonly usual: { readonly fromCellV: number; readonly toCellV: number } | null;
  readonly at: LinePlace | null;
}

/** How a motor command fits into a round (one period) of the loop. */
export interface LoopPicture {
  readonly roundUs: number;
  /** The command with its answer and the pause after it. */
  readonly frameUs: number;
  readonly pauseUs: number;
  /** From the end of the command to the end of the answer on the same wire; null if there is none. */
  readonly answerUs: number | null;
  /** Gyro samples per round. */
  readonly gyroRatio: number | null;
  /** The lines of the loop rate, the gyro rate, and the command's rate. */
  readonly at: LinePlace | null;
  readonly gyroAt: LinePlace | null;
  readonly commandAt: LinePlace | null;
}

/** What mass, propellers, motors and the usual pack make likely of the hover, roughly, with what the script says of it. */
export interface HoverPicture {
  readonly figures: readonly HoverFigure[];
}

/** One figure of it, in words. */
export interface HoverFigure {
  readonly name: "throttle" | "current";
  /** Always a range, such as “22 % to 33 % of the throttle”. */
  readonly expected: string;
  /** What the script says of it, such as “24 %”, and its line; null where it says nothing. */
  readonly said: string | null;
  readonly at: LinePlace | null;
  /** So far from what is expected that a slip is likelier: the rule `hover-doubtful` tells of it. */
  readonly isDoubtful: boolean;
}

/** Everything that the view of numbers draws; null, or an empty list, for what the script does not set. */
export interface NumbersPicture {
  readonly rates: RatesPicture | null;
  readonly secondRates: RatesPicture | null;
  readonly packs: readonly PackPicture[];
  readonly filters: FiltersPicture | null;
  readonly loop: LoopPicture | null;
  readonly motors: MotorsPicture | null;
  /** Null where too little is said for an estimate, or where none holds. */
  readonly hover: HoverPicture | null;
  /** What is not drawn, and what would have to be set for it. */
  readonly missing: readonly Gap[];
}
