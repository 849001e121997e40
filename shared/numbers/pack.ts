/**
 * The pack: volts, charge, current and time. Pure arithmetic; `pack-of.ts` reads a craft's figures.
 *
 * - `CHEMISTRIES`: nominal, charge limit, cut-off and usual bands of each kind of cell
 * - `packV`, `cellV`: volts of the pack and of one cell
 * - `sharedMah`, `parallelMah`, `ratedCurrentA`, `ratingC`, `flightS`, `energyWh`, `sagV`
 * - `fittingCells`, `ambiguousCells`: cell counts that one reading of volts allows
 */

export type Chemistry = "lipo" | "lihv" | "li-ion";

export interface VoltageSpan {
  readonly from: number;
  readonly to: number;
}

/** What one kind of cell bears. Every figure is in volts of one cell. */
export interface CellFacts {
  readonly nominalV: number;
  /** Never charge above it. */
  readonly chargeLimitV: number;
  /** Never draw below it. */
  readonly cutOffV: number;
  /** Where pilots usually set full, warn and land; warn and land are volts under load. */
  readonly usualV: { readonly full: VoltageSpan; readonly warn: VoltageSpan; readonly land: VoltageSpan };
}

/**
 * Nominal volts, the 4.20 V charge limit and the 2.75 V cut-off: cell makers' summaries. 4.35 V of the
 * high-voltage kind: ACT2804 datasheet. Nominal volts of that kind, and all usual bands: common practice,
 * no source. A lipo's floor of about 3.0 V under load is practice too, and so stands in the band of `land`.
 */
export const CHEMISTRIES: Readonly<Record<Chemistry, CellFacts>> = {
  lipo: {
    nominalV: 3.7,
    chargeLimitV: 4.2,
    cutOffV: 2.75,
    usualV: { full: { from: 4, to: 4.2 }, warn: { from: 3.1, to: 3.8 }, land: { from: 3, to: 3.7 } },
  },
  lihv: {
    nominalV: 3.8,
    chargeLimitV: 4.35,
    cutOffV: 2.75,
    usualV: { full: { from: 4, to: 4.35 }, warn: { from: 3.1, to: 3.8 }, land: { from: 3, to: 3.7 } },
  },
  "li-ion": {
    nominalV: 3.6,
    chargeLimitV: 4.2,
    cutOffV: 2.75,
    usualV: { full: { from: 4, to: 4.2 }, warn: { from: 2.9, to: 3.4 }, land: { from: 2.8, to: 3.2 } },
  },
};

/** Share of the capacity that is used in an ordinary flight: 80 %, from a flying-club article. */
export const USUAL_SHARE = 0.8;

/** Volts of a pack of `cells` in series: volts in series add up. */
export function packV(cellVolts: number, cells: number): number {
  return cellVolts * cells;
}

/** Volts of one cell, where all are alike. */
export function cellV(packVolts: number, cells: number): number {
  return packVolts / cells;
}

/** Charge of a share (0 to 1) of the capacity: 850 mAh at 0.8 are 680 mAh. */
export function sharedMah(capacityMah: number, share: number): number {
  return capacityMah * share;
}

/** Charge of cells side by side: charges in parallel add up. */
export function parallelMah(cellMah: number, strings: number): number {
  return cellMah * strings;
}

/** Current of a discharge rating: I = C × capacity / 1 h (EN 61434). */
export function ratedCurrentA(capacityMah: number, ratingC: number): number {
  return (capacityMah * ratingC) / 1000;
}

/** The rating that a current asks for: that formula turned round. */
export function ratingC(currentA: number, capacityMah: number): number {
  return (currentA * 1000) / capacityMah;
}

/** Seconds for which a steady current can be drawn: t = Q / I, and 1 mAh is 3.6 A s. Infinite without current. */
export function flightS(usableMah: number, currentA: number): number {
  return (usableMah * 3.6) / currentA;
}

/** Energy of a pack at its nominal volts: E = Q · U. */
export function energyWh(capacityMah: number, volts: number): number {
  return (capacityMah * volts) / 1000;
}

/** Volts that a current takes off the pack inside its cells: Ohm's law, cells in series and strings in parallel. */
export function sagV(currentA: number, cellMohm: number, cells: number, strings: number): number {
  return (currentA * cellMohm * cells) / strings / 1000;
}

/** The most cells in series that a small craft flies on, as the catalogue has it. */
export const MOST_PACK_CELLS = 14;

/**
 * Every count of cells for which `packVolts` lies between empty and full: more than one means that
 * the volts alone cannot tell the pack. A hair of rounding is allowed at both ends.
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
 * Two counts, the smaller first, that one reading fits: a pack of `more` cells drawn down to empty
 * reads no more than one of `fewer` at full. Null if no two counts up to `mostCells` can be mistaken.
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
