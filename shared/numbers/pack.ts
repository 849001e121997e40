/**
 * The pack: volts, charge, current and time. Pure arithmetic; `pack-of.ts` reads a craft's figures.
 *
 * - `CHEMISTRIES`: nominal, charge limit, cut-off and usual bands of each kind of cell
 * - `packV`, `cellV`: volts of the pack and of one cell
 * - `sharedMah`, `parallelMah`, `ratedCurrentA`, `ratingC`, `flightS`, `energyWh`, `sagV`
 * - `fittingCells`, `ambiguousCells`: the cell counts that are possible for a measured voltage
 */

export type Chemistry = "lipo" | "lihv" | "li-ion";

export interface VoltageSpan {
  readonly from: number;
  readonly to: number;
}

/** The limits of one kind of cell. Every figure is in volts of one cell. */
export interface CellFacts {
  readonly nominalV: number;
  /** A cell is never charged above it. */
  readonly chargeLimitV: number;
  /** A cell is never discharged below it. */
  readonly cutOffV: number;
  /** Where pilots usually set full, warn and land; warn and land are volts under load. */
  readonly usualV: { readonly full: VoltageSpan; readonly warn: VoltageSpan; readonly land: VoltageSpan };
}

/**
 * Nominal volts and the 4.20 V charge limit: cell makers' summaries, which give a cylindrical cell's cut-off
 * as 2.75 V; those for strong currents are specified down to 2.5 V (common practice). 4.35 V of the
 * high-voltage kind: ACT2804 datasheet. Nominal volts of that kind, the 3.0 V of a lipo under load, and all
 * usual bands: common practice, no source.
 */
export const CHEMISTRIES: Readonly<Record<Chemistry, CellFacts>> = {
  lipo: {
    nominalV: 3.7,
    chargeLimitV: 4.2,
    cutOffV: 3,
    usualV: { full: { from: 4, to: 4.2 }, warn: { from: 3.1, to: 3.8 }, land: { from: 3, to: 3.7 } },
  },
  lihv: {
    nominalV: 3.8,
    chargeLimitV: 4.35,
    cutOffV: 3,
    usualV: { full: { from: 4, to: 4.35 }, warn: { from: 3.1, to: 3.8 }, land: { from: 3, to: 3.7 } },
  },
  "li-ion": {
    nominalV: 3.6,
    chargeLimitV: 4.2,
    cutOffV: 2.5,
    usualV: { full: { from: 4, to: 4.2 }, warn: { from: 2.6, to: 3.4 }, land: { from: 2.5, to: 3.2 } },
  },
};

/** Share of the capacity that is used in an ordinary flight: 80 %, from a flying-club article. */
export const USUAL_SHARE = 0.8;

/** Volts of a pack of `cells` in series: volts in series add up. */
export function packV(cellVolts: number, cells: number): number {
  return cellVolts * cells;
}

/** Volts of one cell, if all are equal. */
export function cellV(packVolts: number, cells: number): number {
  return packVolts / cells;
}

/** Charge of a share (0 to 1) of the capacity: 850 mAh at 0.8 are 680 mAh. */
export function sharedMah(capacityMah: number, share: number): number {
  return capacityMah * share;
}

/** Charge of cells in parallel: charges in parallel add up. */
export function parallelMah(cellMah: number, strings: number): number {
  return cellMah * strings;
}

/** Current of a discharge rating: I = C × capacity / 1 h (EN 61434). */
export function ratedCurrentA(capacityMah: number, ratingC: number): number {
  return (capacityMah * ratingC) / 1000;
}

/** The discharge rating that a current needs: the same formula, solved for C. */
export function ratingC(currentA: number, capacityMah: number): number {
  return (currentA * 1000) / capacityMah;
}

/** Seconds for which a constant current can be drawn: t = Q / I, and 1 mAh is 3.6 A s. Infinite without current. */
export function flightS(usableMah: number, currentA: number): number {
  return (usableMah * 3.6) / currentA;
}

/** Energy of a pack in Wh at its nominal volts: E = Q · U. */
export function energyWh(capacityMah: number, volts: number): number {
  return (capacityMah * volts) / 1000;
}

/** The voltage drop of a current inside the pack: Ohm's law, cells in series and strings in parallel. */
export function sagV(currentA: number, cellMohm: number, cells: number, strings: number): number {
  return (currentA * cellMohm * cells) / strings / 1000;
}

/** The most cells in series of a small craft, the same as the catalogue's limit. */
export const MOST_PACK_CELLS = 14;

/**
 * Every cell count for which `packVolts` is between empty and full. More than one means that the volts
 * alone do not determine the count. Rounding errors are tolerated at both ends.
 */
export function fittingCells(packVolts: number, emptyCellV: number, fullCellV: number): number[] {
  const counts: number[] = [];
  for (let cells = 1; cells <= MOST_PACK_CELLS; cells++) {
    const volts = packVolts / cells;
    if (volts >= emptyCellV - 1e-9 && volts <= fullCellV + 1e-9) counts.push(cells);
  }
  return counts;
}

/**
 * The smallest two successive cell counts that one voltage fits: an empty pack of `more` cells has no more
 * volts than a full one of `fewer`. Null if there are none up to `mostCells`.
 */
export function ambiguousCells(
  emptyCellV: number,
  fullCellV: number,
  mostCells: number,
): { readonly fewer: number; readonly more: number; readonly fromV: number; readonly toV: number } | null {
  for (let fewer = 1; fewer < mostCells; fewer++) {
    const fromV = (fewer + 1) * emptyCellV;
    const toV = fewer * fullCellV;
    if (fromV <= toV) return { fewer, more: fewer + 1, fromV, toV };
  }
  return null;
}
