/**
 * What a craft needs to hover, roughly. Pure arithmetic; `thrust-of.ts` reads a craft's figures.
 *
 * - `idealPowerW`: momentum theory
 * - `thrustCoefficient`, `turnsForThrustHz`: how fast a propeller must turn
 * - `hoverThrottle`, `hoverCurrentA`: what the pilot sees of it, as ranges
 */

/** Air at sea level in kg/m³: the International Standard Atmosphere (ICAO Doc 7488), from memory. */
export const AIR_KG_PER_M3 = 1.225;

/** Standard gravity in m/s² (ISO 80000-3), from memory. */
export const GRAVITY_MS2 = 9.80665;

/** Both ends of what may be expected, in one unit. */
export interface Expected {
  readonly from: number;
  readonly to: number;
}

/** Area in m² that a propeller of so many metres sweeps. */
export function discAreaM2(diameterM: number): number {
  return (Math.PI * diameterM ** 2) / 4;
}

/**
 * The least power in W that gives a thrust in hover: P = T · √(T / (2 · ρ · A)). Source: momentum theory of the
 * actuator disc (Rankine, Froude), as in Leishman, Principles of Helicopter Aerodynamics, ch. 2.
 */
export function idealPowerW(thrustN: number, areaM2: number, airKgPerM3 = AIR_KG_PER_M3): number {
  return thrustN * inducedMs(thrustN, areaM2, airKgPerM3);
}

/** Speed in m/s of the air through the disc in hover: √(T / (2 · ρ · A)). Source: as above. */
export function inducedMs(thrustN: number, areaM2: number, airKgPerM3 = AIR_KG_PER_M3): number {
  return Math.sqrt(thrustN / (2 * airKgPerM3 * areaM2));
}

/**
 * Thrust coefficient at a standstill, T = C · ρ · n² · D⁴, of a propeller with two blades by its pitch over its
 * diameter: 0.0427 + 0.144 · β. Source: Budinger, Reysset, Ochotorena and Delbecq, “Scaling laws and similarity models
 * for the preliminary design of multirotor drones”, Aerospace Science and Technology 98 (2020) 105658; quoted. More
 * blades: to the power of 0.8 of their number, the project's own figure.
 */
export function thrustCoefficient(pitchOverDiameter: number, blades: number): number {
  return (0.0427 + 0.144 * pitchOverDiameter) * (blades / 2) ** 0.8;
}

/** Pitch over diameter for which that holds; outside nothing is claimed. The project's own figures. */
export const PITCHES: Expected = { from: 0.25, to: 1.1 };

/** Turns a second at which a propeller gives a thrust, from the definition of the coefficient. */
export function turnsForThrustHz(
  thrustN: number,
  diameterM: number,
  coefficient: number,
  airKgPerM3 = AIR_KG_PER_M3,
): number {
  return Math.sqrt(thrustN / (coefficient * airKgPerM3 * diameterM ** 4));
}

/** Thrust in N at so many turns a second. */
export function thrustN(turnsHz: number, diameterM: number, coefficient: number, airKgPerM3 = AIR_KG_PER_M3): number {
  return coefficient * airKgPerM3 * turnsHz ** 2 * diameterM ** 4;
}

/** Ideal power over what the shaft is given: T^1.5 / √(2ρA) over C_P · ρ · n³ · D⁵, from both coefficients. */
export function figureOfMerit(thrustCoefficient: number, powerCoefficient: number): number {
  return thrustCoefficient ** 1.5 / (powerCoefficient * Math.sqrt(Math.PI / 2));
}

/**
 * Figure of merit of small propellers in hover. From below: measured at a standstill on a nine-inch research propeller
 * (Deters, Ananda and Selig, “Reynolds Number Effects on the Performance of Small-Scale Propellers”, AIAA 2014-2151, and
 * their data), 0.40 to 0.52, quoted; from above: the fits of Budinger and others (as above), some 0.65.
 */
export const MERIT: Expected = { from: 0.4, to: 0.65 };

/** What a motor and its controller make of electric power in hover. Common practice, no source. */
export const MOTOR_EFFICIENCY: Expected = { from: 0.6, to: 0.85 };

/**
 * Below so many metres (3 in) propellers and motors are worse: the least figure of merit and efficiency there. That
 * coefficients worsen as propellers become smaller and slower: Deters and others, as above; the figures are the
 * project's own, from the flight times of tiny craft.
 */
export const TINY = { belowM: 3.05 * 0.0254, merit: 0.3, efficiency: 0.45 } as const;

/** The most in W that camera, transmitter and board draw, where it was not read. Common practice, no source. */
export const OTHERS_W = 8;

/** Speed of a motor in hover over that of the motor without load at the same throttle. Common practice, no source. */
export const LOADED: Expected = { from: 0.8, to: 0.95 };

/** By how much a propeller's coefficient may be off, as a factor. The project's own figure: blades differ in shape. */
export const COEFFICIENT_SPREAD = 1.25;

/** The throttle in hover, from 0 to 1: the turns that it takes, over those at full throttle. */
export function hoverThrottle(turnsHz: number, unloadedFullHz: number): Expected {
  const share = turnsHz / unloadedFullHz;
  const spread = Math.sqrt(COEFFICIENT_SPREAD);
  return { from: share / spread / LOADED.to, to: (share * spread) / LOADED.from };
}

/** What a hover is computed from. */
export interface HoverPower {
  /** Of all propellers together, by momentum theory. */
  readonly idealW: number;
  readonly diameterM: number;
  readonly volts: number;
  /** What camera, transmitter and board draw in A; null where it was not read. */
  readonly othersA: number | null;
}

/** The current in A from the pack in hover. */
export function hoverCurrentA({ idealW, diameterM, volts, othersA }: HoverPower): Expected {
  const ofMotors = (merit: number, efficiency: number) => idealW / (merit * efficiency * volts);
  const least = diameterM < TINY.belowM ? TINY : { merit: MERIT.from, efficiency: MOTOR_EFFICIENCY.from };
  return {
    from: ofMotors(MERIT.to, MOTOR_EFFICIENCY.to) + (othersA ?? 0),
    to: ofMotors(least.merit, least.efficiency) + (othersA ?? OTHERS_W / volts),
  };
}
