/**
 * Radio: power, channels, and intermodulation of several carriers. Pure arithmetic; the rules of each
 * region are in `radio-bands.ts`, and `radio-of.ts` reads a craft's figures.
 *
 * - `dbmOf`, `mwOf`, `eirpMwOf`, `fieldMw`: power
 * - `thirdOrder`, `fifthOrder`, `thirdOrderCount`, `productsNear`: intermodulation products
 * - `overlapMhz`, `edgesMhz`: channels of a width
 */

/** Approximate bandwidth of an analogue video signal. Common practice, no source. */
export const ANALOGUE_WIDTH_MHZ = 18;

/** Gain of a half-wave dipole over an isotropic source. From memory: 2.15 dB, a factor of 1.64. */
const DIPOLE_DBI = 2.15;

/** Decibels over a milliwatt: 10 · log10(P / 1 mW). Minus infinity for no power. */
export function dbmOf(mw: number): number {
  return 10 * Math.log10(mw);
}

/** Power in milliwatts: 10^(dBm / 10). */
export function mwOf(dbm: number): number {
  return 10 ** (dbm / 10);
}

/** Power relative to an isotropic source (e.i.r.p.) for a power relative to a half-wave dipole (e.r.p.). */
export function eirpMwOf(erpMw: number): number {
  return mwOf(dbmOf(erpMw) + DIPOLE_DBI);
}

/**
 * Radiated power (e.i.r.p.) in mW that gives a field strength at a distance in free space: P = (E · d)² / 30,
 * in watts for volts per metre and metres; at 3 m that is 0.3 · E² (OET Bulletin 63).
 */
export function fieldMw(voltsPerMetre: number, metres: number): number {
  return ((voltsPerMetre * metres) ** 2 / 30) * 1000;
}

export interface Product {
  readonly mhz: number;
  /** As in `2 × 5769 − 5732`, or `5732 + 5806 − 5769`. */
  readonly of: string;
  /** Indices of the carriers that cause it. */
  readonly from: readonly number[];
}

/**
 * Third-order products of carriers, which are near the carriers themselves: 2a − b of every ordered
 * pair and a + b − c of every three. Source: a wireless-microphone guide, App. A p. 56.
 */
export function thirdOrder(carriersMhz: readonly number[]): Product[] {
  const products: Product[] = [];
  carriersMhz.forEach((a, i) => {
    carriersMhz.forEach((b, j) => {
      if (j === i) return;
      products.push({ mhz: withoutRoundingError(2 * a - b), of: `2 × ${a} − ${b}`, from: [i, j] });
    });
  });
  carriersMhz.forEach((a, i) => {
    for (let j = i + 1; j < carriersMhz.length; j++) {
      const b = carriersMhz[j]!;
      carriersMhz.forEach((c, k) => {
        if (k === i || k === j) return;
        products.push({ mhz: withoutRoundingError(a + b - c), of: `${a} + ${b} − ${c}`, from: [i, j, k] });
      });
    }
  });
  return products;
}

/** The number of third-order products of n carriers: n² (n − 1) / 2 (same guide; the count of the two forms above). */
export function thirdOrderCount(carriers: number): number {
  return (carriers ** 2 * (carriers - 1)) / 2;
}

/** Fifth-order products 3a − 2b of every ordered pair (same guide). They are far weaker than those of third order. */
export function fifthOrder(carriersMhz: readonly number[]): Product[] {
  return carriersMhz.flatMap((a, i) =>
    carriersMhz.flatMap((b, j) =>
      i === j ? [] : [{ mhz: withoutRoundingError(3 * a - 2 * b), of: `3 × ${a} − 2 × ${b}`, from: [i, j] }],
    ),
  );
}

/** Third-order products within `reachMhz` of a carrier that is none of those that cause them. */
export function productsNear(
  carriersMhz: readonly number[],
  reachMhz: number,
): { readonly product: Product; readonly carrier: number }[] {
  const products = thirdOrder(carriersMhz);
  return carriersMhz.flatMap((mhz, carrier) =>
    products
      .filter((product) => !product.from.includes(carrier) && Math.abs(product.mhz - mhz) <= reachMhz)
      .map((product) => ({ product, carrier })),
  );
}

/** Overlap in MHz of two signals of the same width: 0 if they do not overlap. */
export function overlapMhz(aMhz: number, bMhz: number, widthMhz: number): number {
  return Math.max(0, withoutRoundingError(widthMhz - Math.abs(aMhz - bMhz)));
}

/** Lower and upper edge of a signal centred on its carrier. */
export function edgesMhz(carrierMhz: number, widthMhz: number): { readonly fromMhz: number; readonly toMhz: number } {
  return { fromMhz: carrierMhz - widthMhz / 2, toMhz: carrierMhz + widthMhz / 2 };
}

/** A sum of decimal fractions without its rounding error. */
function withoutRoundingError(mhz: number): number {
  return Number(mhz.toPrecision(12));
}
