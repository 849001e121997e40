/**
 * Motors: their speed, and the frequencies of their vibration against the notches. Pure arithmetic;
 * `motor-of.ts` reads a craft's figures.
 *
 * - `unloadedRpm`, `turnHz`, `electricalHz`
 * - `harmonicsHz`, `notchWeight`, `harmonicsAgainst`
 * - `tipSpeedMs`: the speed of a propeller's tips
 */

/**
 * Revolutions per minute without load: kv times volts. A propeller slows it considerably (common practice,
 * no source).
 */
export function unloadedRpm(kvRpmPerV: number, volts: number): number {
  return kvRpmPerV * volts;
}

/** Revolutions per second. */
export function turnHz(rpm: number): number {
  return rpm / 60;
}

/** Electrical cycles per revolution: half the number of poles (TI MCT8316A, FG output). */
export function cyclesPerTurn(poles: number): number {
  return poles / 2;
}

/**
 * Frequency in Hz of the currents in the windings: f = n · p / 120, p being poles, not pole pairs (Ohio
 * University, ch. 14.3).
 */
export function electricalHz(rpm: number, poles: number): number {
  return (rpm * poles) / 120;
}

/** The frequency of rotation and its multiples, `count` in all. */
export function harmonicsHz(turn: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => turn * (i + 1));
}

/** Blade-pass frequency: revolutions per second times blades. */
export function bladePassHz(turn: number, blades: number): number {
  return turn * blades;
}

/** Speed of a propeller's tips in m/s: circumference times revolutions per second. */
export function tipSpeedMs(diameterIn: number, rpm: number): number {
  return Math.PI * diameterIn * 0.0254 * turnHz(rpm);
}

/** Notches that follow the motors, as the setting `motor-notches` has them. */
export interface MotorNotches {
  readonly count: number;
  readonly floorHz: number;
  readonly widthHz: number;
  readonly easesInHz: number;
  /** The depth of the cut of each harmonic, from 0 to 1; 1 beyond the end of the list. */
  readonly depths: readonly number[];
}

/** The weight of a notch at a frequency: 0 below the floor, 1 where it has eased in, linear between. */
export function notchWeight(hz: number, { floorHz, easesInHz }: MotorNotches): number {
  if (hz < floorHz) return 0;
  return easesInHz > 0 ? Math.min(1, (hz - floorHz) / easesInHz) : 1;
}

export interface Harmonic {
  /** 1 is the frequency of rotation. */
  readonly order: number;
  readonly hz: number;
  /** The depth to which a notch cuts it, from 0 to 1. */
  readonly depth: number;
  readonly why: "cut" | "fading" | "below-floor" | "beyond-count" | "weakened";
  /** Whether this is the blade-pass frequency or a multiple of it. */
  readonly blades: boolean;
}

/** The first `upTo` harmonics of a motor at `turn` revolutions per second, and what the notches do to each. */
export function harmonicsAgainst(turn: number, notches: MotorNotches, upTo: number, blades: number | null): Harmonic[] {
  return harmonicsHz(turn, upTo).map((hz, i) => {
    const order = i + 1;
    const own = notches.depths[i] ?? 1;
    const weight = notchWeight(hz, notches);
    const depth = order > notches.count ? 0 : weight * own;
    const why =
      order > notches.count
        ? "beyond-count"
        : hz < notches.floorHz
          ? "below-floor"
          : weight < 1
            ? "fading"
            : own < 1
              ? "weakened"
              : "cut";
    return { order, hz, depth, why, blades: blades !== null && order % blades === 0 };
  });
}
