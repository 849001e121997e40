/** Usual values for each size of craft and each kind of pilot. Common practice, no source, unless one is named. */
import type { CraftSize } from "./questions.ts";

/** Usual values for a craft of one size. */
export interface SizeFacts {
  readonly propeller: string;
  /** The common mass of such craft, ready to fly. */
  readonly mass: string;
  /** The upper limit for rates: larger propellers cannot follow faster turns. */
  readonly fastestDegPerS: number;
  readonly armTiltDeg: number;
  readonly returnHeightM: number;
}

export const SIZE_FACTS: Readonly<Record<CraftSize, SizeFacts>> = {
  "31-mm": { propeller: "31 mm", mass: "30 g", fastestDegPerS: 700, armTiltDeg: 60, returnHeightM: 20 },
  "40-mm": { propeller: "40 mm", mass: "50 g", fastestDegPerS: 700, armTiltDeg: 60, returnHeightM: 20 },
  "2-inch": { propeller: "2 in", mass: "90 g", fastestDegPerS: 700, armTiltDeg: 45, returnHeightM: 20 },
  "3-inch": { propeller: "3 in", mass: "200 g", fastestDegPerS: 800, armTiltDeg: 30, returnHeightM: 30 },
  "5-inch": { propeller: "5 in", mass: "600 g", fastestDegPerS: 800, armTiltDeg: 30, returnHeightM: 40 },
  "7-inch": { propeller: "7 in", mass: "900 g", fastestDegPerS: 480, armTiltDeg: 30, returnHeightM: 50 },
  "10-inch": { propeller: "10 in", mass: "2000 g", fastestDegPerS: 320, armTiltDeg: 30, returnHeightM: 50 },
};

/** The common mass with ducts, of the sizes that fly with and without them. */
export const DUCTED_MASS: Readonly<Partial<Record<CraftSize, string>>> = { "2-inch": "140 g", "3-inch": "350 g" };

/** Usual values for one kind of pilot. */
export interface PilotFacts {
  readonly who: string;
  readonly levelAtRest: boolean;
  readonly turtle: boolean;
  readonly slopeDegPerS: number;
  readonly endDegPerS: number;
  readonly yawSlopeDegPerS: number;
  readonly yawEndDegPerS: number;
  /** The throttle limit in percent; null for no limit. */
  readonly throttlePercent: number | null;
  readonly uptiltDeg: number;
  readonly idleDisarmS: number;
  readonly holdForS: string;
  readonly ratesNote: string;
}

export const PILOT_FACTS: Readonly<Record<string, PilotFacts>> = {
  beginner: {
    who: "a beginner",
    levelAtRest: true,
    turtle: false,
    slopeDegPerS: 80,
    endDegPerS: 400,
    yawSlopeDegPerS: 60,
    yawEndDegPerS: 250,
    throttlePercent: 75,
    uptiltDeg: 10,
    idleDisarmS: 10,
    holdForS: "0.5 s",
    ratesNote: "How fast it turns: “slope” near the middle of the stick, “end” at full stick.",
  },
  pupil: {
    who: "a teacher's pupil",
    levelAtRest: true,
    turtle: false,
    slopeDegPerS: 60,
    endDegPerS: 300,
    yawSlopeDegPerS: 50,
    yawEndDegPerS: 200,
    throttlePercent: 60,
    uptiltDeg: 5,
    idleDisarmS: 10,
    holdForS: "0.5 s",
    ratesNote: "How fast it turns: never wild. The teacher raises “end” when it is time.",
  },
  freestyle: {
    who: "figures in the air",
    levelAtRest: false,
    turtle: true,
    slopeDegPerS: 120,
    endDegPerS: 720,
    yawSlopeDegPerS: 110,
    yawEndDegPerS: 500,
    throttlePercent: null,
    uptiltDeg: 28,
    idleDisarmS: 20,
    holdForS: "0.5 s",
    ratesNote: "How fast it turns: soft near the middle of the stick for aiming, quick at its end for a flip.",
  },
  racing: {
    who: "racing",
    levelAtRest: false,
    turtle: true,
    slopeDegPerS: 150,
    endDegPerS: 650,
    yawSlopeDegPerS: 120,
    yawEndDegPerS: 500,
    throttlePercent: null,
    uptiltDeg: 40,
    idleDisarmS: 30,
    holdForS: "0.3 s",
    ratesNote: "How fast it turns: direct near the middle of the stick, because a gate leaves no time.",
  },
  filming: {
    who: "cruising and filming",
    levelAtRest: false,
    turtle: false,
    slopeDegPerS: 60,
    endDegPerS: 320,
    yawSlopeDegPerS: 50,
    yawEndDegPerS: 200,
    throttlePercent: null,
    uptiltDeg: 15,
    idleDisarmS: 20,
    holdForS: "0.5 s",
    ratesNote: "How fast it turns: slow everywhere, because the viewer sees every twitch.",
  },
};

interface ChemistryFacts {
  readonly fullAt: string;
  readonly warnAt: string;
  readonly landAt: string;
}

/**
 * Usual thresholds in volts per cell; warning and landing are under load. Full: 4.20 V, and 4.35 V for the
 * high-voltage kind (ACT2804 datasheet); the rest is common practice, no source. A single cell has lower
 * thresholds, since its voltage sags more.
 */
export function chemistryFacts(chemistry: string, cells: number): ChemistryFacts {
  if (chemistry === "li-ion") return { fullAt: "4.2 V/cell", warnAt: "3.1 V/cell", landAt: "2.9 V/cell" };
  const fullAt = chemistry === "lihv" ? "4.35 V/cell" : "4.2 V/cell";
  return cells === 1
    ? { fullAt, warnAt: "3.4 V/cell", landAt: "3.2 V/cell" }
    : { fullAt, warnAt: "3.5 V/cell", landAt: "3.3 V/cell" };
}

/** Common capacities of packs for each size, to be replaced with the one printed on the pack. */
export const USUAL_CAPACITY: Readonly<Record<CraftSize, string>> = {
  "31-mm": "300 mAh",
  "40-mm": "450 mAh",
  "2-inch": "450 mAh",
  "3-inch": "750 mAh",
  "5-inch": "1300 mAh",
  "7-inch": "3000 mAh",
  "10-inch": "5000 mAh",
};
