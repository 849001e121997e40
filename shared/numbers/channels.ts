/**
 * Analogue pictures that are sent at the same time: which carrier is disturbed by which others. Frequencies in MHz;
 * inside they are counted in kHz, so that nothing is rounded.
 *
 * - `disturbancesAt`: what falls on one of some carriers
 * - `LANDS_WITHIN_MHZ`: how far from a carrier a mixture counts
 */
import { ANALOGUE_WIDTH_MHZ, overlapMhz } from "./radio.ts";

/**
 * A mixture of carriers counts where it falls into a picture's own width, half of it on each side, its edges included.
 * Own figure: a real receiver's filter has no sharp edge, and a mixture is itself wider than the pictures it is made of.
 */
export const LANDS_WITHIN_MHZ = ANALOGUE_WIDTH_MHZ / 2;

/** Two pictures stand in one another's width. */
export interface Overlap {
  readonly kind: "overlap";
  /** The index of the other carrier. */
  readonly of: number;
  readonly sharedMhz: number;
}

/** A third-order mixture of others, 2a − b or a + b − c, falls on the carrier. */
export interface Landing {
  readonly kind: "product";
  /** The indices of the carriers it is made of: a and b, or a, b and c. */
  readonly from: readonly number[];
  readonly mhz: number;
  readonly awayMhz: number;
}

export type Disturbance = Overlap | Landing;

/**
 * What disturbs the picture of one of some carriers: overlaps, the widest first; where there are none, mixtures of the
 * others, the nearest first, since beside another picture in its place no mixture matters. A mixture counts only where
 * it is made of carriers other than the one that it falls on, and lands within `LANDS_WITHIN_MHZ`. Formulas of the
 * third order as in `thirdOrder`.
 */
export function disturbancesAt(carriersMhz: readonly number[], target: number): Disturbance[] {
  const own = carriersMhz[target]!;
  const overlaps = carriersMhz.flatMap((mhz, of): Overlap[] => {
    const sharedMhz = of === target ? 0 : overlapMhz(own, mhz, ANALOGUE_WIDTH_MHZ);
    return sharedMhz > 0 ? [{ kind: "overlap", of, sharedMhz }] : [];
  });
  if (overlaps.length > 0) return overlaps.sort((a, b) => b.sharedMhz - a.sharedMhz || a.of - b.of);
  return landingsOn(carriersMhz.map(khzOf), target).sort(
    (a, b) => a.awayMhz - b.awayMhz || a.from.length - b.from.length || a.mhz - b.mhz,
  );
}

/** A carrier in whole kHz, as which they are compared. */
export function khzOf(mhz: number): number {
  return Math.round(mhz * 1000);
}

function landingsOn(khz: readonly number[], target: number): Landing[] {
  const own = khz[target]!;
  const landings: Landing[] = [];
  const add = (product: number, from: readonly number[]) => {
    const away = Math.abs(product - own);
    if (away <= khzOf(LANDS_WITHIN_MHZ))
      landings.push({ kind: "product", from, mhz: product / 1000, awayMhz: away / 1000 });
  };
  for (let i = 0; i < khz.length; i++) {
    if (i === target) continue;
    for (let j = 0; j < khz.length; j++) {
      if (j === target || j === i) continue;
      add(2 * khz[i]! - khz[j]!, [i, j]);
      for (let k = i + 1; k < khz.length; k++) if (k !== target && k !== j) add(khz[i]! + khz[k]! - khz[j]!, [i, k, j]);
    }
  }
  return landings;
}
