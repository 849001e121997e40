/** The figures of the catalogue's relations, computed from a craft: each null if something that it needs is not known. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import { propellerRoomMm } from "./frame.ts";
import { hoverTurnHz, kvForTipSpeed, kvForTurns, motorsOf } from "./motor-of.ts";
import { CHEMISTRIES, flightS, packV } from "./pack.ts";
import { type PackFigures, packIn } from "./pack-of.ts";
import { numberIn, settingIn, wordIn } from "./values.ts";

/** Tips this fast without load are a fault of the choice of parts. Common practice, no source. */
const FASTEST_TIPS_MS = 390;
/** Turns a minute without load, above which few bearings and controllers follow. Common practice, no source. */
const MOST_RPM = 150_000;
/** Current of one light at full brightness. Common practice, no source: 20 mA for each of its colours, of which two are usual. */
const LIGHT_MA = 40;
/** What one position, and one line of a record, take on a line: ten bits a byte. Common practice, no source. */
const POSITION_KBIT = 2.5;
const RECORD_LINE_KBIT = 0.3;

/** Energy in a kilogram of the best packs, and of a craft that is nearly all pack. Common practice, no source. */
const BEST_WH_KG = 300;
const LARGEST_WH_KG = 270;
/** A cell that sags by more at full throttle is as empty as it looks. Common practice, no source. */
const DEEPEST_SAG_V = 1.2;
/** A meter that reaches to so many full packs shows steps that no longer help. The project's own figure. */
const COARSEST_METER = 10;
/** Tips this slow on a full pack lift no craft. Common practice, no source. */
const SLOWEST_TIPS_MS = 55;

type Reader = (craft: Craft, catalogue: Catalogue, pack: PackFigures) => number | null;

/** In the unit in which the comparisons of the catalogue use it. `pack` is the pack that is looked at. */
const readers: Readonly<Record<string, Reader>> = {
  "full-pack": (_craft, _catalogue, pack) => fullPackV(pack),
  "kv-for-turns": (craft, catalogue, pack) => kvForTurns(craft, catalogue, fullPackV(pack), MOST_RPM),
  "kv-for-tips": (craft, catalogue, pack) => kvForTipSpeed(craft, catalogue, fullPackV(pack), FASTEST_TIPS_MS),
  "propeller-room": (craft, catalogue) => {
    const wheelbaseMm = numberIn(craft, catalogue, "frame", "wheelbase", "mm");
    const motors = numberIn(craft, catalogue, "frame", "motors", "");
    return wheelbaseMm === null || motors === null
      ? null
      : propellerRoomMm(wheelbaseMm, motors, wordIn(craft, catalogue, "frame", "arm-layout"));
  },
  "mass-with-pack": (craft, catalogue, pack) => {
    // The mass at take-off is that with the usual pack.
    if (pack.section !== "pack") return null;
    const dryG = numberIn(craft, catalogue, "frame", "mass-dry", "g");
    const packG = numberIn(craft, catalogue, "pack", "pack-mass", "g");
    return dryG === null || packG === null ? null : dryG + packG;
  },
  "flyable-charge": (craft, _catalogue, pack) =>
    settingIn(craft, pack.section, "reserve")?.value ? pack.usableMah : null,
  "hover-minutes": (_craft, _catalogue, { section, capacityMah, hoverA }) =>
    section !== "pack" || capacityMah === null || hoverA === null ? null : flightS(capacityMah, hoverA) / 60,
  "hover-turn-frequency": (craft, catalogue, { section }) =>
    section === "pack" ? hoverTurnHz(motorsOf(craft, catalogue)) : null,
  "packet-time": (craft, catalogue) => over(1000, numberIn(craft, catalogue, "link", "packet-rate", "Hz")),
  "pulse-period": (craft, catalogue) => over(1e6, numberIn(craft, catalogue, "motors", "pulse-rate", "Hz")),
  "position-data": (craft, catalogue) =>
    times(POSITION_KBIT, numberIn(craft, catalogue, "navigation", "update-rate", "Hz")),
  "record-data": (craft, catalogue) => times(RECORD_LINE_KBIT, numberIn(craft, catalogue, "recorder", "rate", "Hz")),
  "charge-for-pack-mass": (craft, catalogue, pack) =>
    chargeMah(BEST_WH_KG, numberIn(craft, catalogue, pack.section, "pack-mass", "g"), pack),
  "charge-for-craft-mass": (craft, catalogue, pack) =>
    chargeMah(LARGEST_WH_KG, numberIn(craft, catalogue, "frame", "mass", "g"), pack),
  "resistance-for-current": (_craft, _catalogue, { fullA }) => (fullA === null ? null : (1000 * DEEPEST_SAG_V) / fullA),
  "divider-top-for-pack": (craft, catalogue, pack) => {
    const fullV = fullPackV(pack);
    const bottomKohm = numberIn(craft, catalogue, pack.section, "divider-bottom", "kohm");
    const referenceV = numberIn(craft, catalogue, pack.section, "adc-reference", "V");
    if (fullV === null || bottomKohm === null || referenceV === null) return null;
    // Full scale is Vref · (top + bottom) / bottom.
    return bottomKohm * ((COARSEST_METER * fullV) / referenceV - 1);
  },
  "slow-tips-kv": (craft, catalogue, pack) => kvForTipSpeed(craft, catalogue, fullPackV(pack), SLOWEST_TIPS_MS),
  "lights-for-supply": (craft, catalogue) => {
    const supplyMa = numberIn(craft, catalogue, "board", "supply-rating", "mA");
    if (supplyMa === null || settingIn(craft, "lights", "most-current")) return null;
    const brightness = numberIn(craft, catalogue, "lights", "brightness", "%") ?? 100;
    return brightness === 0 ? null : Math.floor(supplyMa / (LIGHT_MA * (brightness / 100)));
  },
};

/** Volts of the pack when charged: as far as is said, else to the limit of its chemistry. */
function fullPackV({ fullV, cells, chemistry }: PackFigures): number | null {
  if (fullV !== null) return fullV;
  if (cells === null || chemistry === null) return null;
  return Number(packV(CHEMISTRIES[chemistry].chargeLimitV, cells).toPrecision(12));
}

/** Charge of a pack that has so much energy in each kilogram: E = Q · U. */
function chargeMah(whKg: number, massG: number | null, { cells }: PackFigures): number | null {
  return massG === null || cells === null ? null : (whKg * massG) / (CHEMISTRIES.lipo.nominalV * cells);
}

function over(dividend: number, divisor: number | null): number | null {
  return divisor === null ? null : dividend / divisor;
}

function times(factor: number, number: number | null): number | null {
  return number === null ? null : factor * number;
}

/** The names of the figures that can be computed. */
export const COMPUTED_FIGURES: readonly string[] = Object.keys(readers);

/** A figure by its name; null also if there is none of that name. `packSection` is `pack` or `pack/NAME`. */
export function figureIn(craft: Craft, catalogue: Catalogue, name: string, packSection: string): number | null {
  const pack = packIn(craft, catalogue, packSection);
  return pack ? figureWith(craft, catalogue, name, pack) : null;
}

/** The same with the figures of that pack, as `packIn` gives them. */
export function figureWith(craft: Craft, catalogue: Catalogue, name: string, pack: PackFigures): number | null {
  return readers[name]?.(craft, catalogue, pack) ?? null;
}
