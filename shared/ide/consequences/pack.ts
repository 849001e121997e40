/** What follows from what is said of a pack: volts, charge, current, time. */

import { capital, listed } from "../../draw/words.ts";
import { CHEMISTRIES, energyWh, flightS, packV, ratingC, sagV, sharedMah } from "../../numbers/pack.ts";
import { type PackFigures, packOf } from "../../numbers/pack-of.ts";
import { numberIn, numberOf, settingIn } from "../../numbers/values.ts";
import { packModelOf } from "../../osd/pack-state.ts";
import { counted, duration, figure, percent, volts } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  combined,
  says,
} from "./provider.ts";

/** The most that spare packs may hold in carry-on baggage (TSA). */
const CARRY_ON_WH = 100;

const facts = ({ craft, catalogue, section }: ConsequenceSubject): PackFigures => packOf(craft, catalogue, section);

/** Names of the pack's section, as the answer lists them; of `reserve` only where it is said. */
function names({ craft, section }: ConsequenceSubject, ...of: readonly string[]): string[] {
  return of.filter((name) => name !== "reserve" || settingIn(craft, section, name)).map((name) => `${section}.${name}`);
}

/** `3 min 24 s at 12 A`, for the hover and for full current; and what that rests on. */
function times({ hoverA, hoverS, fullA, fullS }: PackFigures): { text: string; of: string[] } {
  const each = [
    { of: "hover-current", amps: hoverA, seconds: hoverS },
    { of: "full-current", amps: fullA, seconds: fullS },
  ].flatMap(({ of, amps, seconds }) =>
    amps === null || seconds === null ? [] : { of, text: `${duration(seconds)} at ${figure(amps)} A` },
  );
  return { text: each.map(({ text }) => `; ${text}`).join(""), of: each.map(({ of }) => of) };
}

const usable: ConsequenceProvider = (subject) => {
  const pack = facts(subject);
  const { capacityMah, usableMah } = pack;
  if (capacityMah === null || usableMah === null) return [];
  const { text, of } = times(pack);
  const usual = settingIn(subject.craft, subject.section, "reserve") ? "" : " (80 % is usual; no reserve is said)";
  const from = names(subject, "capacity", "reserve", ...of);
  const share = percent(usableMah / capacityMah);
  return says(
    `${figure(capacityMah, 6)} mAh at ${share} is ${figure(usableMah, 4)} mAh${text}${usual}`,
    from,
    `${figure(usableMah, 4)} mAh usable`,
  );
};

const energy: ConsequenceProvider = (subject) => {
  const { capacityMah, chemistry, cells } = facts(subject);
  if (capacityMah === null || chemistry === null || cells === null) return [];
  const nominalV = packV(CHEMISTRIES[chemistry].nominalV, cells);
  const wattHours = energyWh(capacityMah, nominalV);
  const flying = wattHours > CARRY_ON_WH ? ", more than the 100 Wh of a spare pack in carry-on baggage (TSA)" : "";
  return says(
    `At ${volts(nominalV)} nominal it holds ${figure(wattHours)} Wh${flying}`,
    names(subject, "capacity", "chemistry", "cells"),
  );
};

const rated: ConsequenceProvider = (subject) => {
  const { ratedA, capacityMah, ratingC: said, fullA } = facts(subject);
  if (ratedA === null || capacityMah === null || said === null) return [];
  const full = fullA === null ? "" : `; the full current of ${figure(fullA)} A is ${percent(fullA / ratedA)} of that`;
  return says(
    `${figure(said)} C of ${figure(capacityMah, 6)} mAh is ${figure(ratedA)} A${full}`,
    names(subject, "discharge-rating", "capacity", ...(fullA === null ? [] : ["full-current"])),
    `= ${figure(ratedA)} A`,
  );
};

/** The thresholds of the whole pack. A full pack of which nobody speaks stands at its chemistry's limit. */
const thresholds: ConsequenceProvider = (subject) => {
  const { cells, chemistry, fullCellV, warnCellV, landCellV } = facts(subject);
  if (cells === null) return [];
  const limitV = chemistry && CHEMISTRIES[chemistry].chargeLimitV;
  const each = [
    fullCellV === null && limitV !== null
      ? { text: `full ${volts(packV(limitV, cells))} (${limitV} V/cell, the limit of ${chemistry})`, of: "chemistry" }
      : { text: `full ${volts(packV(fullCellV ?? 0, cells))}`, of: fullCellV === null ? null : "full-at" },
    { text: `warn ${volts(packV(warnCellV ?? 0, cells))}`, of: warnCellV === null ? null : "warn-at" },
    { text: `land ${volts(packV(landCellV ?? 0, cells))}`, of: landCellV === null ? null : "land-at" },
  ].flatMap(({ text, of }) => (of === null ? [] : { text, of }));
  if (each.length === 0) return [];
  return says(
    `Of ${counted(cells, "cell")}: ${each.map(({ text }) => text).join(", ")}`,
    names(subject, "cells", ...each.map(({ of }) => of)),
  );
};

const bears: ConsequenceProvider = (subject) => {
  const { cells, chemistry } = facts(subject);
  if (chemistry === null) return [];
  const { cutOffV, chargeLimitV, nominalV } = CHEMISTRIES[chemistry];
  const [low, high, middle] = [cutOffV, chargeLimitV, nominalV].map((cellV) => volts(packV(cellV, cells ?? 0)));
  const whole = cells === null ? "" : `; ${counted(cells, "cell")}: ${low} to ${high}, ${middle}`;
  return says(
    `A cell of ${chemistry} bears ${cutOffV} to ${chargeLimitV} V, nominal ${nominalV} V${whole}`,
    names(subject, "chemistry", ...(cells === null ? [] : ["cells"])),
  );
};

const wholePack: ConsequenceProvider = (subject) => {
  const { cells } = facts(subject);
  const cellV = numberOf(subject.value, "V/cell");
  if (cells === null || cellV === null) return [];
  const whole = volts(packV(cellV, cells));
  return says(
    `The whole pack then has ${whole}, with ${counted(cells, "cell")} in series`,
    names(subject, subject.name, "cells"),
    `= ${whole}`,
  );
};

const apart: ConsequenceProvider = (subject) => {
  const { warnCellV, landCellV, cells } = facts(subject);
  if (warnCellV === null || landCellV === null) return [];
  const gapV = warnCellV - landCellV;
  const whole = cells === null ? "" : `, ${volts(packV(gapV, cells))} on the pack`;
  return says(
    `From the warning to landing are ${volts(gapV)} a cell${whole}`,
    names(subject, "warn-at", "land-at", ...(cells === null ? [] : ["cells"])),
  );
};

/**
 * How much of its charge a cell has given at these volts: by a common discharge curve of rested cells,
 * from memory, with the sag of the hover put back where resistance and current are said. Plain pack only.
 */
const given: ConsequenceProvider = (subject) => {
  const { chemistry, hoverA, cellMohm, strings } = facts(subject);
  const cellV = numberOf(subject.value, "V/cell");
  if (subject.section !== "pack" || chemistry === null || cellV === null) return [];
  const loaded = hoverA !== null && cellMohm !== null;
  const restedV = loaded ? cellV + sagV(hoverA, cellMohm, 1, strings) : cellV;
  const share = givenAt(packModelOf(subject.craft).curve, restedV);
  if (share === null) return [];
  const about = `about ${Math.round(share * 20) * 5} % of its charge`;
  return loaded
    ? says(
        `Reached in the hover once the pack has given ${about} (a common discharge curve, from memory)`,
        names(subject, subject.name, "chemistry", "hover-current", "cell-resistance", "parallel"),
      )
    : says(
        `A rested cell of ${cellV} V has given ${about} (a common discharge curve, from memory); under load it is reached earlier`,
        names(subject, subject.name, "chemistry"),
      );
};

/** The share at which a falling curve of straight pieces has these volts; null outside it. */
function givenAt(curve: readonly (readonly [share: number, volts: number])[], cellV: number): number | null {
  const after = curve.findIndex(([, at]) => at <= cellV);
  if (after <= 0) return null;
  const [[x0, y0], [x1, y1]] = [curve[after - 1]!, curve[after]!];
  return y0 === y1 ? x1 : x0 + ((x1 - x0) * (y0 - cellV)) / (y0 - y1);
}

/** A charge that may be said as a share: the other way of saying it, and how long it lasts. */
function charge(what: "used" | "kept"): ConsequenceProvider {
  return (subject) => {
    const { capacityMah, hoverA } = facts(subject);
    const share = numberOf(subject.value, "%");
    const saidMah = numberOf(subject.value, "mAh");
    if (capacityMah === null || (share === null && saidMah === null)) return [];
    const mah = saidMah ?? sharedMah(capacityMah, share! / 100);
    const ofIt = saidMah === null ? `${figure(mah, 4)} mAh` : percent(mah / capacityMah);
    const told = saidMah === null ? `${figure(share!)} % of ${figure(capacityMah, 6)} mAh is ${ofIt}` : null;
    const lasts = hoverA === null ? "" : `; ${duration(flightS(mah, hoverA))} at ${figure(hoverA)} A`;
    const left =
      what === "kept" ? `, so that ${figure(Math.max(0, capacityMah - mah), 4)} mAh are there to be flown` : "";
    return says(
      `${told ?? `${figure(mah, 6)} mAh is ${ofIt} of ${figure(capacityMah, 6)} mAh`}${lasts}${left}`,
      names(subject, subject.name, "capacity", ...(hoverA === null ? [] : ["hover-current"])),
      `= ${ofIt}`,
    );
  };
}

/** A current: how long it can be drawn, what it asks of the pack, what it takes off its volts. */
const current: ConsequenceProvider = (subject) => {
  const amps = numberOf(subject.value, "A");
  if (amps === null) return [];
  const { usableMah, capacityMah, chemistry, cells } = facts(subject);
  const told: Consequence[] = [];
  if (usableMah !== null && capacityMah !== null) {
    const lasts = duration(flightS(usableMah, amps));
    const usual = settingIn(subject.craft, subject.section, "reserve") ? "" : " (80 %, as no reserve is said)";
    told.push(
      ...says(
        `${figure(usableMah, 4)} mAh${usual} last ${lasts}; it asks the pack for ${figure(ratingC(amps, capacityMah))} C`,
        names(subject, subject.name, "capacity", "reserve"),
        lasts,
      ),
    );
  }
  if (chemistry !== null && cells !== null) {
    const nominalV = packV(CHEMISTRIES[chemistry].nominalV, cells);
    told.push(
      ...says(
        `${figure(amps * nominalV)} W at ${volts(nominalV)} nominal`,
        names(subject, subject.name, "chemistry", "cells"),
      ),
    );
  }
  return told;
};

const sag: ConsequenceProvider = (subject) => {
  const { cellMohm, cells, strings, hoverA, fullA } = facts(subject);
  if (cellMohm === null || cells === null) return [];
  const each = [
    { of: "hover-current", amps: hoverA, when: "in the hover" },
    { of: "full-current", amps: fullA, when: "at full current" },
  ].flatMap(({ of, amps, when }) =>
    amps === null ? [] : { of, text: `${when} (${figure(amps)} A) by ${volts(sagV(amps, cellMohm, cells, strings))}` },
  );
  if (each.length === 0) return [];
  return says(
    `The pack gives way ${listed(each.map(({ text }) => text))}`,
    names(subject, "cell-resistance", "cells", "parallel", ...each.map(({ of }) => of)),
  );
};

const packMass: ConsequenceProvider = (subject) => {
  const packG = numberOf(subject.value, "g");
  const massG = numberIn(subject.craft, subject.catalogue, "frame", "mass", "g");
  if (packG === null || massG === null) return [];
  return says(capital(`${percent(packG / massG)} of the craft's ${figure(massG, 4)} g`), [
    ...names(subject, "pack-mass"),
    "frame.mass",
  ]);
};

export const packProviders: ConsequenceProviders = {
  capacity: combined(usable, energy, rated),
  cells: combined(thresholds, bears),
  chemistry: combined(bears, thresholds),
  "full-at": wholePack,
  "warn-at": combined(wholePack, apart, given),
  "land-at": combined(wholePack, apart, given),
  "storage-at": wholePack,
  "warn-after": charge("used"),
  reserve: charge("kept"),
  "discharge-rating": rated,
  "cell-resistance": sag,
  "hover-current": combined(current, sag),
  "full-current": combined(current, sag),
  "pack-mass": packMass,
};
