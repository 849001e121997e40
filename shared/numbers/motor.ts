/**
 * Motors: how fast they turn, and where what they shake falls against the notches. Pure arithmetic;
 * `motor-of.ts` reads a craft's figures.
 *
 * - `unloadedRpm`, `turnHz`, `electricalHz`
 * - `harmonicsHz`, `notchWeight`, `harmonicsAgainst`
 * - `tipSpeedMs`: the speed of a propeller's tips
 */

/** Turns a minute without load: kv times volts. A propeller takes a good part of it (common practice, no source). */
export function unloadedRpm(kvRpmPerV: number, volts: number): number {
  return kvRpmPerV * volts;
}

/** Turns a second. */
export function turnHz(rpm: number): number {
  return rpm / 60;
}

/** Electrical cycles of one turn: half as many as the motor has poles (TI MCT8316A, FG output). */
export function cyclesPerTurn(poles: number): number {
  return poles / 2;
}

/** Frequency of the currents in the windings: f = n · p / 120, p being poles and never pairs (Ohio University, ch. 14.3). */
export function electricalHz(rpm: number, poles: number): number {
  return (rpm * poles) / 120;
}

/** The turning and its multiples, `count` of them. */
export function harmonicsHz(turn: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => turn * (i + 1));
}

/** How often a second a blade passes one place: turns times blades. */
export function bladePassHz(turn: number, blades: number): number {
  return turn * blades;
}

/** Speed of a propeller's tips: circumference times turns. */
export function tipSpeedMs(diameterIn: number, rpm: number): number {
  return Math.PI * diameterIn * 0.0254 * turnHz(rpm);
}

/** Notches that follow the motors, as the setting `motor-notches` has them. */
export interface MotorNotches {
  readonly count: number;
  readonly floorHz: number;
  readonly widthHz: number;
  readonly fadeHz: number;
  /** How fully each harmonic is cut, from 0 to 1; fully where the list ends. */
  readonly depths: readonly number[];
}

/** How far a notch is let in at a frequency: not at all below the floor, fully where the fade above it ends. */
export function notchWeight(hz: number, { floorHz, fadeHz }: MotorNotches): number {
  if (hz < floorHz) return 0;
  return fadeHz > 0 ? Math.min(1, (hz - floorHz) / fadeHz) : 1;
}

export interface Harmonic {
  /** 1 is the turning itself. */
  readonly order: number;
  readonly hz: number;
  /** How fully a notch cuts it, from 0 to 1. */
  readonly depth: number;
  readonly why: "cut" | "fading" | "below-floor" | "beyond-count" | "weakened";
  /** Whether this is how often a blade passes, or a multiple of it. */
  readonly blades: boolean;
}

/** The first `upTo` harmonics of a motor that turns so often a second, and what the notches do to each. */
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
