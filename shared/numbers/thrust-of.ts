/** What a craft should need to hover, by what it says of its propellers, motors, packs and mass. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import { turnHz, unloadedRpm } from "./motor.ts";
import { throttleRestsInMiddle } from "./motor-of.ts";
import { CHEMISTRIES, packV } from "./pack.ts";
import { type PackFigures, packOf } from "./pack-of.ts";
import {
  discAreaM2,
  type Expected,
  GRAVITY_MS2,
  hoverCurrentA,
  hoverThrottle,
  idealPowerW,
  PITCHES,
  thrustCoefficient,
  turnsForThrustHz,
} from "./thrust.ts";
import { numberIn, onceFor, wordIn } from "./values.ts";

export interface ExpectedHover {
  /** `pack`, or `pack/NAME`. */
  readonly section: string;
  /** What was computed with. */
  readonly massG: number;
  readonly volts: number;
  /** From 0 to 1; null where the motors' kv is not said, and where the throttle rests in its middle. */
  readonly throttle: Expected | null;
  readonly currentA: Expected;
}

/** Why nothing is expected: what the script does not say, as SECTION.NAME each; or, in words, why no figure holds. */
export type NoHover = { readonly missing: readonly string[] } | { readonly because: string };

/** What the propellers must do, whatever the pack. */
interface Rotors {
  readonly motors: number;
  readonly diameterM: number;
  readonly coefficient: number;
  /** Turns a second without load for each volt; null where the kv is not said, and where the throttle rests in its middle. */
  readonly fullHzPerV: number | null;
}

/** Metres in an inch. */
const INCH_M = 0.0254;
/** Grams in a kilogram. */
const KG_G = 1000;

/** What the craft should need with its usual pack, roughly; or why that is not known. */
export function usualHover(craft: Craft, catalogue: Catalogue): ExpectedHover | NoHover {
  const rotors = rotorsOf(craft, catalogue);
  if (!("motors" in rotors)) return rotors;
  const pack = packOf(craft, catalogue);
  const hover = hoverWithPack(craft, catalogue, pack);
  if (hover) return hover;
  const { cells, chemistry } = pack;
  const missing = [
    ...(massWith(craft, catalogue, "pack") === null ? ["frame.mass"] : []),
    ...(chemistry === null ? ["pack.chemistry"] : []),
    ...(cells === null ? ["pack.cells"] : []),
  ];
  return { missing };
}

/** What a craft should need with one of its packs, roughly; null where that is not known. */
export function hoverWithPack(
  craft: Craft,
  catalogue: Catalogue,
  { section, cells, chemistry }: PackFigures,
): ExpectedHover | null {
  const rotors = rotorsOf(craft, catalogue);
  const massG = massWith(craft, catalogue, section);
  if (!("motors" in rotors) || massG === null || cells === null || chemistry === null) return null;
  const { motors, diameterM, coefficient, fullHzPerV } = rotors;
  const volts = packV(CHEMISTRIES[chemistry].nominalV, cells);
  const eachN = ((massG / KG_G) * GRAVITY_MS2) / motors;
  const turnsHz = turnsForThrustHz(eachN, diameterM, coefficient);
  // What camera, transmitter and board draw, where it was read.
  const othersA = numberIn(craft, catalogue, "bench", "rest-current", "A");
  const idealW = motors * idealPowerW(eachN, discAreaM2(diameterM));
  return {
    section,
    massG,
    volts,
    throttle: fullHzPerV === null ? null : hoverThrottle(turnsHz, fullHzPerV * volts),
    currentA: hoverCurrentA({ idealW, diameterM, volts, othersA }),
  };
}

/** Equal for craft on which every pack would need the same, but for what the pack itself says. */
export function hoverKey(craft: Craft, catalogue: Catalogue): string | null {
  const rotors = rotorsOf(craft, catalogue);
  if (!("motors" in rotors)) return null;
  const { motors, diameterM, coefficient, fullHzPerV } = rotors;
  const masses = ["mass", "mass-dry"].map((name) => numberIn(craft, catalogue, "frame", name, "g"));
  const otherA = numberIn(craft, catalogue, "bench", "rest-current", "A");
  return [motors, diameterM, coefficient, fullHzPerV, ...masses, otherA].join(" ");
}

const rotorsOf = onceFor((craft, catalogue): Rotors | NoHover => {
  const number = (name: string, unit: string) => numberIn(craft, catalogue, "frame", name, unit);
  if (wordIn(craft, catalogue, "frame", "ducts") === "yes")
    return { because: "rings round propellers change their thrust by an amount that no published figure gives" };
  if (wordIn(craft, catalogue, "frame", "arm-layout")?.startsWith("stacked"))
    return { because: "of two propellers above one another the lower one works in the wash of the upper" };
  const figures = {
    "frame.motors": number("motors", ""),
    "frame.propeller-diameter": number("propeller-diameter", "in"),
    "frame.propeller-pitch": number("propeller-pitch", "in"),
    "frame.propeller-blades": number("propeller-blades", ""),
  };
  const missing = Object.entries(figures).flatMap(([name, figure]) => (figure === null ? name : []));
  if (missing.length > 0) return { missing };
  const [motors, diameterIn, pitchIn, blades] = Object.values(figures) as [number, number, number, number];
  const pitch = pitchIn / diameterIn;
  if (!(pitch >= PITCHES.from && pitch <= PITCHES.to))
    return { because: "no published figure holds for a pitch like that" };
  const kv = numberIn(craft, catalogue, "motors", "kv", "rpm/V");
  return {
    motors,
    diameterM: diameterIn * INCH_M,
    coefficient: thrustCoefficient(pitch, blades),
    fullHzPerV: kv === null || throttleRestsInMiddle(craft) ? null : turnHz(unloadedRpm(kv, 1)),
  };
});

/** All up with a pack: one that says its own mass is laid in place of the usual one. */
function massWith(craft: Craft, catalogue: Catalogue, section: string): number | null {
  const ofFrame = (name: string) => numberIn(craft, catalogue, "frame", name, "g");
  const packG = (of: string) => numberIn(craft, catalogue, of, "pack-mass", "g");
  const [usualG, dryG, ownG, plainG] = [ofFrame("mass"), ofFrame("mass-dry"), packG(section), packG("pack")];
  if (usualG === null) return dryG === null || ownG === null ? null : dryG + ownG;
  return section === "pack" || ownG === null || plainG === null ? usualG : usualG - plainG + ownG;
}
