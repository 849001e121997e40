/** A model of the pack during a flight: its volts, the charge used, and the time left. */
import type { Craft } from "../model/craft.ts";
import { choiceOf, integerOf, quantityOf } from "../model/setting-lookup.ts";

/** The figures of a craft's pack, with those of an example for what the craft does not set. */
export interface PackModel {
  readonly cells: number;
  readonly capacityMah: number;
  /** Charge after which the craft warns. */
  readonly budgetMah: number;
  /** Charge that should be left at landing. */
  readonly reserveMah: number;
  readonly hoverA: number;
  /** Resistance of one cell in series, with parallel strings combined. */
  readonly cellOhm: number;
  /** Volts of a rested cell against the share of the capacity that was used; strictly falling. */
  readonly curve: readonly (readonly [share: number, volts: number])[];
  readonly warnV: number | undefined;
  readonly landV: number | undefined;
  /** Volts under load at which pilots of such packs land (common practice, no source). */
  readonly usualLandV: number;
}

export interface PackState {
  readonly amps: number;
  readonly usedMah: number;
  readonly restedV: number;
  readonly cellV: number;
}

/** Volts of rested cells along the discharge; from memory: the middle of common discharge curves. */
const CURVES: Readonly<Record<string, PackModel["curve"]>> = {
  lipo: [
    [0, 4.2],
    [0.1, 4.06],
    [0.2, 3.97],
    [0.4, 3.82],
    [0.6, 3.74],
    [0.8, 3.68],
    [0.9, 3.6],
    [1, 3.2],
  ],
  lihv: [
    [0, 4.35],
    [0.1, 4.18],
    [0.2, 4.07],
    [0.4, 3.9],
    [0.6, 3.78],
    [0.8, 3.7],
    [0.9, 3.6],
    [1, 3.2],
  ],
  "li-ion": [
    [0, 4.2],
    [0.2, 3.95],
    [0.4, 3.72],
    [0.6, 3.55],
    [0.8, 3.35],
    [0.9, 3.2],
    [1, 2.8],
  ],
};
/** Common practice, no source: 3.3 V under load for lipo, about 2.9 V for li-ion. */
const USUAL_LAND_V: Readonly<Record<string, number>> = { lipo: 3.3, lihv: 3.3, "li-ion": 2.9 };

/** Used for what the craft does not set: the pack of a five-inch craft, as an example. */
const EXAMPLE = { cells: 4, capacityMah: 1300, hoverA: 6, reserveShare: 0.2, sagV: 0.12 };
/** Current in brisk flight over that of the hover; an example, no measurement. */
export const BRISK_FACTOR = 1.6;

/** The model of a craft's pack; of section `pack` if it has named ones too. */
export function packModelOf(craft: Craft): PackModel {
  const chemistry = choiceOf(craft, "pack.chemistry") ?? "lipo";
  const capacityMah = quantityOf(craft, "pack.capacity", "mAh") ?? EXAMPLE.capacityMah;
  const reserveMah = Math.min(
    chargeOf(craft, "pack.reserve", capacityMah) ?? capacityMah * EXAMPLE.reserveShare,
    capacityMah,
  );
  const hoverA = quantityOf(craft, "pack.hover-current", "A") ?? EXAMPLE.hoverA;
  const givenOhm = quantityOf(craft, "pack.cell-resistance", "ohm");
  const strings = integerOf(craft, "pack.parallel") ?? 1;
  const fullV = quantityOf(craft, "pack.full-at", "V/cell");
  const [[, topV], ...rest] = (CURVES[chemistry] ?? CURVES.lipo!) as [readonly [number, number], ...PackModel["curve"]];
  const fullestV = fullV ?? topV;
  return {
    cells: integerOf(craft, "pack.cells") ?? EXAMPLE.cells,
    capacityMah,
    budgetMah: Math.min(chargeOf(craft, "pack.warn-after", capacityMah) ?? capacityMah - reserveMah, capacityMah),
    reserveMah,
    hoverA,
    cellOhm: givenOhm === undefined ? EXAMPLE.sagV / (hoverA * BRISK_FACTOR) : givenOhm / strings,
    curve: [[0, fullestV], ...rest.map(([share, volts]) => [share, Math.min(volts, fullestV)] as const)],
    warnV: quantityOf(craft, "pack.warn-at", "V/cell"),
    landV: quantityOf(craft, "pack.land-at", "V/cell"),
    usualLandV: USUAL_LAND_V[chemistry] ?? USUAL_LAND_V.lipo!,
  };
}

/**
 * A charge in mAh that may be set as a percentage of the capacity. Undefined if it is not set, or if it is a
 * percentage of an unknown capacity.
 */
export function chargeOf(craft: Craft, path: string, capacityMah: number | undefined): number | undefined {
  const percent = quantityOf(craft, path, "%");
  if (percent === undefined) return quantityOf(craft, path, "mAh");
  return capacityMah === undefined ? undefined : (capacityMah * percent) / 100;
}

/** The state of the pack after a charge was used, at a current. */
export function packAfter(model: PackModel, usedMah: number, amps: number): PackState {
  const restedV = interpolate(model.curve, Math.min(1, usedMah / model.capacityMah));
  return { amps, usedMah: Math.round(usedMah), restedV, cellV: loadedV(model, restedV, amps) };
}

/**
 * The state of the pack just below the volts of `land-at`, else of `warn-at`, else those at which pilots
 * usually land.
 */
export function packAtLanding(model: PackModel, amps: number): PackState {
  const cellV = (model.landV ?? model.warnV ?? model.usualLandV) - 0.03;
  const restedV = cellV + cellSagV(model, amps);
  const falling = model.curve.map(([share, volts]) => [volts, share] as const).reverse();
  const share = Math.min(0.99, interpolate(falling, restedV));
  return { amps, usedMah: Math.round(share * model.capacityMah), restedV, cellV };
}

/** Seconds until the reserve is reached at the current of a state; 0 once it is. 1 mAh is 3.6 A·s. */
export function timeLeftS(model: PackModel, { usedMah, amps }: PackState): number {
  return Math.max(0, Math.round(((model.capacityMah - model.reserveMah - usedMah) * 3.6) / amps));
}

function loadedV(model: PackModel, restedV: number, amps: number): number {
  return restedV - cellSagV(model, amps);
}

/** The drop in volts inside a cell by Ohm's law; at most 0.5 V, as no pack is flown beyond that. */
function cellSagV(model: PackModel, amps: number): number {
  return Math.min(0.5, model.cellOhm * amps);
}

/** Linear interpolation between points with rising x; beyond an end, the value at that end. */
function interpolate(points: readonly (readonly [number, number])[], x: number): number {
  const after = points.findIndex(([at]) => at >= x);
  if (after === 0) return points[0]![1];
  if (after < 0) return points.at(-1)![1];
  const [[x0, y0], [x1, y1]] = [points[after - 1]!, points[after]!];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
