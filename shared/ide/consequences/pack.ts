/** Consequences of a pack's settings: volts, charge, current, time. */

import { capital } from "../../draw/words.ts";
import { CHEMISTRIES, energyWh, flightS, packV, ratingC, sagV, sharedMah } from "../../numbers/pack.ts";
import { type PackFigures, packOf } from "../../numbers/pack-of.ts";
import { numberIn, numberOf, settingIn } from "../../numbers/values.ts";
import { packModelOf } from "../../osd/pack-state.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatCount, formatDuration, formatNumber, formatPercent, formatVolts } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  combined,
  consequence,
} from "./provider.ts";

/** The most energy of a spare pack in carry-on baggage, in Wh (TSA). */
const CARRY_ON_WH = 100;

const figuresOf = ({ craft, catalogue, section }: ConsequenceSubject): PackFigures => packOf(craft, catalogue, section);

/** Paths of settings of the pack's section; of `reserve` only where the craft sets it. */
function settingPaths({ craft, section }: ConsequenceSubject, ...of: readonly string[]): string[] {
  return of.filter((name) => name !== "reserve" || settingIn(craft, section, name)).map((name) => `${section}.${name}`);
}

/** Flight times such as `3 min 24 s at 12 A`, for hover and full current, and the settings they are computed from. */
function flightTimes({ hoverA, hoverS, fullA, fullS }: PackFigures): { text: string; of: string[] } {
  const each = [
    { of: "hover-current", amps: hoverA, seconds: hoverS },
    { of: "full-current", amps: fullA, seconds: fullS },
  ].flatMap(({ of, amps, seconds }) =>
    amps === null || seconds === null ? [] : { of, text: `${formatDuration(seconds)} at ${formatNumber(amps)} A` },
  );
  return { text: each.map(({ text }) => `; ${text}`).join(""), of: each.map(({ of }) => of) };
}

const usableCharge: ConsequenceProvider = (subject) => {
  const pack = figuresOf(subject);
  const { capacityMah, usableMah } = pack;
  if (capacityMah === null || usableMah === null) return [];
  const { text, of } = flightTimes(pack);
  const usual = settingIn(subject.craft, subject.section, "reserve") ? "" : " (80 % is usual; no reserve is set)";
  const from = settingPaths(subject, "capacity", "reserve", ...of);
  const share = formatPercent(usableMah / capacityMah);
  return consequence(
    `${formatNumber(capacityMah, 6)} mAh at ${share} is ${formatNumber(usableMah, 4)} mAh${text}${usual}`,
    from,
    `${formatNumber(usableMah, 4)} mAh usable`,
  );
};

const energy: ConsequenceProvider = (subject) => {
  const { capacityMah, chemistry, cells } = figuresOf(subject);
  if (capacityMah === null || chemistry === null || cells === null) return [];
  const nominalV = packV(CHEMISTRIES[chemistry].nominalV, cells);
  const wattHours = energyWh(capacityMah, nominalV);
  const flying = wattHours > CARRY_ON_WH ? ", more than the 100 Wh of a spare pack in carry-on baggage (TSA)" : "";
  return consequence(
    `At ${formatVolts(nominalV)} nominal it holds ${formatNumber(wattHours)} Wh${flying}`,
    settingPaths(subject, "capacity", "chemistry", "cells"),
  );
};

const ratedCurrent: ConsequenceProvider = (subject) => {
  const { ratedA, capacityMah, ratingC: ratedC, fullA } = figuresOf(subject);
  if (ratedA === null || capacityMah === null || ratedC === null) return [];
  const full =
    fullA === null ? "" : `; the full current of ${formatNumber(fullA)} A is ${formatPercent(fullA / ratedA)} of that`;
  return consequence(
    `${formatNumber(ratedC)} C of ${formatNumber(capacityMah, 6)} mAh is ${formatNumber(ratedA)} A${full}`,
    settingPaths(subject, "discharge-rating", "capacity", ...(fullA === null ? [] : ["full-current"])),
    `= ${formatNumber(ratedA)} A`,
  );
};

/** The thresholds of the whole pack in volts. Without `full-at` a full pack is at the limit of its chemistry. */
const thresholds: ConsequenceProvider = (subject) => {
  const { cells, chemistry, fullCellV, warnCellV, landCellV } = figuresOf(subject);
  if (cells === null) return [];
  const limitV = chemistry && CHEMISTRIES[chemistry].chargeLimitV;
  const each = [
    fullCellV === null && limitV !== null
      ? {
          text: `full ${formatVolts(packV(limitV, cells))} (${limitV} V/cell, the limit of ${chemistry})`,
          of: "chemistry",
        }
      : { text: `full ${formatVolts(packV(fullCellV ?? 0, cells))}`, of: fullCellV === null ? null : "full-at" },
    { text: `warn ${formatVolts(packV(warnCellV ?? 0, cells))}`, of: warnCellV === null ? null : "warn-at" },
    { text: `land ${formatVolts(packV(landCellV ?? 0, cells))}`, of: landCellV === null ? null : "land-at" },
  ].flatMap(({ text, of }) => (of === null ? [] : { text, of }));
  if (each.length === 0) return [];
  return consequence(
    `Of ${formatCount(cells, "cell")}: ${each.map(({ text }) => text).join(", ")}`,
    settingPaths(subject, "cells", ...each.map(({ of }) => of)),
  );
};

const chemistryLimits: ConsequenceProvider = (subject) => {
  const { cells, chemistry } = figuresOf(subject);
  if (chemistry === null) return [];
  const { cutOffV, chargeLimitV, nominalV } = CHEMISTRIES[chemistry];
  const [low, high, middle] = [cutOffV, chargeLimitV, nominalV].map((cellV) => formatVolts(packV(cellV, cells ?? 0)));
  const whole = cells === null ? "" : `; ${formatCount(cells, "cell")}: ${low} to ${high}, ${middle}`;
  return consequence(
    `A cell of ${chemistry} bears ${cutOffV} to ${chargeLimitV} V, nominal ${nominalV} V${whole}`,
    settingPaths(subject, "chemistry", ...(cells === null ? [] : ["cells"])),
  );
};

const wholePack: ConsequenceProvider = (subject) => {
  const { cells } = figuresOf(subject);
  const cellV = numberOf(subject.value, "V/cell");
  if (cells === null || cellV === null) return [];
  const whole = formatVolts(packV(cellV, cells));
  return consequence(
    `The whole pack then has ${whole}, with ${formatCount(cells, "cell")} in series`,
    settingPaths(subject, subject.name, "cells"),
    `= ${whole}`,
  );
};

const warnToLandGap: ConsequenceProvider = (subject) => {
  const { warnCellV, landCellV, cells } = figuresOf(subject);
  if (warnCellV === null || landCellV === null) return [];
  const gapV = warnCellV - landCellV;
  const whole = cells === null ? "" : `, ${formatVolts(packV(gapV, cells))} on the pack`;
  return consequence(
    `From the warning to landing are ${formatVolts(gapV)} a cell${whole}`,
    settingPaths(subject, "warn-at", "land-at", ...(cells === null ? [] : ["cells"])),
  );
};

/**
 * How much of its charge a cell has given at this voltage: by a common discharge curve of rested cells, from
 * memory; the sag of the hover is added where resistance and current are given. Only for the plain pack.
 */
const chargeGiven: ConsequenceProvider = (subject) => {
  const { chemistry, hoverA, cellMohm, strings } = figuresOf(subject);
  const cellV = numberOf(subject.value, "V/cell");
  if (subject.section !== "pack" || chemistry === null || cellV === null) return [];
  const loaded = hoverA !== null && cellMohm !== null;
  const restedV = loaded ? cellV + sagV(hoverA, cellMohm, 1, strings) : cellV;
  const share = shareGivenAt(packModelOf(subject.craft).curve, restedV);
  if (share === null) return [];
  const about = `about ${Math.round(share * 20) * 5} % of its charge`;
  return loaded
    ? consequence(
        `Reached in the hover once the pack has given ${about} (a common discharge curve, from memory)`,
        settingPaths(subject, subject.name, "chemistry", "hover-current", "cell-resistance", "parallel"),
      )
    : consequence(
        `A rested cell of ${cellV} V has given ${about} (a common discharge curve, from memory); under load it is reached earlier`,
        settingPaths(subject, subject.name, "chemistry"),
      );
};

/** The share (0 to 1) at which a falling, piecewise linear curve reaches a voltage; null outside the curve. */
function shareGivenAt(curve: readonly (readonly [share: number, volts: number])[], cellV: number): number | null {
  const after = curve.findIndex(([, at]) => at <= cellV);
  if (after <= 0) return null;
  const [[x0, y0], [x1, y1]] = [curve[after - 1]!, curve[after]!];
  return y0 === y1 ? x1 : x0 + ((x1 - x0) * (y0 - cellV)) / (y0 - y1);
}

/** A charge that is given in mAh or as a share: the other unit, and how long it lasts. */
function chargeThreshold(what: "used" | "kept"): ConsequenceProvider {
  return (subject) => {
    const { capacityMah, hoverA } = figuresOf(subject);
    const share = numberOf(subject.value, "%");
    const writtenMah = numberOf(subject.value, "mAh");
    if (capacityMah === null || (share === null && writtenMah === null)) return [];
    const mah = writtenMah ?? sharedMah(capacityMah, share! / 100);
    const ofIt = writtenMah === null ? `${formatNumber(mah, 4)} mAh` : formatPercent(mah / capacityMah);
    const shareText =
      writtenMah === null ? `${formatNumber(share!)} % of ${formatNumber(capacityMah, 6)} mAh is ${ofIt}` : null;
    const lasts = hoverA === null ? "" : `; ${formatDuration(flightS(mah, hoverA))} at ${formatNumber(hoverA)} A`;
    const left =
      what === "kept" ? `, so that ${formatNumber(Math.max(0, capacityMah - mah), 4)} mAh are there to be flown` : "";
    return consequence(
      `${shareText ?? `${formatNumber(mah, 6)} mAh is ${ofIt} of ${formatNumber(capacityMah, 6)} mAh`}${lasts}${left}`,
      settingPaths(subject, subject.name, "capacity", ...(hoverA === null ? [] : ["hover-current"])),
      `= ${ofIt}`,
    );
  };
}

/** A current: how long it can be drawn, its rate in C, and its power. */
const drawnCurrent: ConsequenceProvider = (subject) => {
  const amps = numberOf(subject.value, "A");
  if (amps === null) return [];
  const { usableMah, capacityMah, chemistry, cells } = figuresOf(subject);
  const sentences: Consequence[] = [];
  if (usableMah !== null && capacityMah !== null) {
    const lasts = formatDuration(flightS(usableMah, amps));
    const usual = settingIn(subject.craft, subject.section, "reserve") ? "" : " (80 %, as no reserve is set)";
    sentences.push(
      ...consequence(
        `${formatNumber(usableMah, 4)} mAh${usual} last ${lasts}; it asks the pack for ${formatNumber(ratingC(amps, capacityMah))} C`,
        settingPaths(subject, subject.name, "capacity", "reserve"),
        lasts,
      ),
    );
  }
  if (chemistry !== null && cells !== null) {
    const nominalV = packV(CHEMISTRIES[chemistry].nominalV, cells);
    sentences.push(
      ...consequence(
        `${formatNumber(amps * nominalV)} W at ${formatVolts(nominalV)} nominal`,
        settingPaths(subject, subject.name, "chemistry", "cells"),
      ),
    );
  }
  return sentences;
};

const sag: ConsequenceProvider = (subject) => {
  const { cellMohm, cells, strings, hoverA, fullA } = figuresOf(subject);
  if (cellMohm === null || cells === null) return [];
  const each = [
    { of: "hover-current", amps: hoverA, when: "in the hover" },
    { of: "full-current", amps: fullA, when: "at full current" },
  ].flatMap(({ of, amps, when }) =>
    amps === null
      ? []
      : { of, text: `${when} (${formatNumber(amps)} A) by ${formatVolts(sagV(amps, cellMohm, cells, strings))}` },
  );
  if (each.length === 0) return [];
  return consequence(
    `The pack sags ${joinWithAnd(each.map(({ text }) => text))}`,
    settingPaths(subject, "cell-resistance", "cells", "parallel", ...each.map(({ of }) => of)),
  );
};

const packMass: ConsequenceProvider = (subject) => {
  const packG = numberOf(subject.value, "g");
  const massG = numberIn(subject.craft, subject.catalogue, "frame", "mass", "g");
  if (packG === null || massG === null) return [];
  return consequence(capital(`${formatPercent(packG / massG)} of the craft's ${formatNumber(massG, 4)} g`), [
    ...settingPaths(subject, "pack-mass"),
    "frame.mass",
  ]);
};

export const packProviders: ConsequenceProviders = {
  capacity: combined(usableCharge, energy, ratedCurrent),
  cells: combined(thresholds, chemistryLimits),
  chemistry: combined(chemistryLimits, thresholds),
  "full-at": wholePack,
  "warn-at": combined(wholePack, warnToLandGap, chargeGiven),
  "land-at": combined(wholePack, warnToLandGap, chargeGiven),
  "storage-at": wholePack,
  "warn-after": chargeThreshold("used"),
  reserve: chargeThreshold("kept"),
  "discharge-rating": ratedCurrent,
  "cell-resistance": sag,
  "hover-current": combined(drawnCurrent, sag),
  "full-current": combined(drawnCurrent, sag),
  "pack-mass": packMass,
};
