/** The craft's numbers as they are drawn: plain data, reckoned elsewhere, units in the names. */
import type { LinePlace } from "./findings.ts";

export interface RatesAxis {
  readonly name: "roll" | "pitch" | "yaw";
  /** From the stick's middle, 0, to its end, 1; the other half is the same, turned round. */
  readonly points: readonly (readonly [stick: number, degPerS: number])[];
  /** At the stick's end. */
  readonly endDegPerS: number;
  /** The stick at which half of that is reached; null where the curve is not that simple. */
  readonly halfAtStick: number | null;
  readonly at: LinePlace | null;
}

export interface RatesPicture {
  readonly set: "rates" | "rates-second";
  readonly axes: readonly RatesAxis[];
  /** Null where what the script says of it has a fault. */
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
  /** What of each frequency passes; 0 dB is all of it. */
  readonly response: readonly (readonly [hz: number, db: number])[];
  /** At low frequency, where the pilot and the tune are. */
  readonly delayMs: number;
}

export interface FilterPart {
  /** Of the setting, as in `smooth-gyro`. */
  readonly name: string;
  /** As in “order 2 at 120 Hz”. */
  readonly what: string;
  readonly chain: FilterChain["name"];
  readonly delayMs: number;
  readonly at: LinePlace | null;
}

export interface FiltersPicture {
  readonly chains: readonly FilterChain[];
  readonly parts: readonly FilterPart[];
  /** Where the motors' own noise lies, from hover to full throttle; null where that is not known. */
  readonly motors: { readonly fromHz: number; readonly toHz: number } | null;
  /** Where the notches that follow the motors stand at both ends of that; null where there are none, or it is not known. */
  readonly notches: { readonly hoverHz: readonly number[]; readonly fullHz: readonly number[] } | null;
  /** Settings that are said and not in the sums. */
  readonly leftOut: readonly string[];
}

export interface PackPicture {
  /** `pack`, or `pack/NAME`. */
  readonly section: string;
  /** Null where it is not said, as are the usual bands then. */
  readonly chemistry: string | null;
  /** Null where the board counts them. */
  readonly cells: number | null;
  /** What a cell bears: never charged above, never drawn below; null where the chemistry is not said. */
  readonly bears: { readonly fromCellV: number; readonly toCellV: number } | null;
  /** `full-at`, `warn-at` and `land-at`, those that are said. */
  readonly marks: readonly PackMark[];
  readonly capacityMah: number | null;
  /** What may be used of it. */
  readonly usableMah: number | null;
  /** Time to use that, in a steady hover and at full current. */
  readonly hoverS: number | null;
  readonly fullS: number | null;
  /** Of what names the pack: its capacity, or else its cells or its chemistry. */
  readonly at: LinePlace | null;
}

export interface PackMark {
  readonly name: string;
  readonly cellV: number;
  /** Where pilots usually set it with this chemistry; null where that is not said. */
  readonly usual: { readonly fromCellV: number; readonly toCellV: number } | null;
  readonly at: LinePlace | null;
}

/** How the command to the motors fits into a round of the loop. */
export interface LoopPicture {
  readonly roundUs: number;
  /** The command with the silence after it. */
  readonly frameUs: number;
  readonly pauseUs: number;
  /** Samples of the gyro to a round. */
  readonly gyroRatio: number | null;
  /** Of the loop's rate, the gyro's, and the command's. */
  readonly at: LinePlace | null;
  readonly gyroAt: LinePlace | null;
  readonly commandAt: LinePlace | null;
}

/** Everything that the view of numbers draws; what the script does not say is null, or none. */
export interface NumbersPicture {
  readonly rates: RatesPicture | null;
  readonly secondRates: RatesPicture | null;
  readonly packs: readonly PackPicture[];
  readonly filters: FiltersPicture | null;
  readonly loop: LoopPicture | null;
  /** What is not drawn and what would have to be said for it, in sentences. */
  readonly missing: readonly string[];
}
