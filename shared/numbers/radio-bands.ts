/**
 * Where one may transmit without a licence, or as a licensed amateur, and with what power: the bands
 * for each word of `video.region`. Local law decides.
 *
 * - `REGIONS`: the table
 * - `ismBandOf`: the band for industry, science and medicine that contains a frequency
 * - `pictureBands`: bands wide enough for a picture
 * - `bandsAt`: the bands that contain a carrier; `bandPositionOf`: inside, over an edge, or outside
 * - `strongestLimit`: the highest power limit at a carrier
 */
import { edgesMhz, eirpMwOf, fieldMw } from "./radio.ts";

export type Region = "europe" | "usa" | "amateur-region-1" | "amateur-region-2" | "amateur-region-3";
export type Signal = "analogue" | "digital";

export interface RadioBand {
  readonly fromMhz: number;
  readonly toMhz: number;
  /** Limit of the radiated power (e.i.r.p.) unless `atPlug`; null if none is known here. */
  readonly powerMw: number | null;
  /** True if the limit applies at the transmitter's antenna connector, before the antenna's gain. */
  readonly atPlug?: true;
  /** Kinds of signal that may use it; absent means both. */
  readonly signal?: Signal;
  readonly source: string;
}

const erc = "ERC/REC 70-03 annex 1, from memory";
const unlicensed = "47 CFR 15.249(a): 50 mV/m at 3 m, 0.75 mW by OET Bulletin 63";
const spread = "47 CFR 15.247(b): 1 W, for digital and hopping signals";

/** 50 mV/m at 3 m. */
const FIELD_LIMIT_MW = fieldMw(0.05, 3);

const europe: readonly RadioBand[] = [
  { fromMhz: 868, toMhz: 868.6, powerMw: eirpMwOf(25), source: "CNAF UN-39: 25 mW e.r.p., 1 % of the time" },
  { fromMhz: 869.4, toMhz: 869.65, powerMw: eirpMwOf(500), source: "CNAF UN-39: 500 mW e.r.p., 10 % of the time" },
  { fromMhz: 2400, toMhz: 2483.5, powerMw: 100, source: "ETSI EN 300 328: 20 dBm e.i.r.p." },
  { fromMhz: 5725, toMhz: 5875, powerMw: 25, source: `ETSI EN 300 440 V2.2.1, Table 1; 25 mW e.i.r.p.: ${erc}` },
];

const usa: readonly RadioBand[] = [
  { fromMhz: 902, toMhz: 928, powerMw: FIELD_LIMIT_MW, source: unlicensed },
  { fromMhz: 902, toMhz: 928, powerMw: 1000, atPlug: true, signal: "digital", source: spread },
  { fromMhz: 2400, toMhz: 2483.5, powerMw: FIELD_LIMIT_MW, source: unlicensed },
  { fromMhz: 2400, toMhz: 2483.5, powerMw: 1000, atPlug: true, signal: "digital", source: spread },
  { fromMhz: 5725, toMhz: 5875, powerMw: FIELD_LIMIT_MW, source: unlicensed },
  { fromMhz: 5725, toMhz: 5850, powerMw: 1000, atPlug: true, signal: "digital", source: spread },
];

const amateur = "47 CFR 97.301(a), licensed amateurs";
const amateurNarrow: readonly RadioBand[] = [{ fromMhz: 5650, toMhz: 5850, powerMw: null, source: amateur }];
const amateurWide: readonly RadioBand[] = [{ fromMhz: 5650, toMhz: 5925, powerMw: null, source: amateur }];

/**
 * Bands of each region, and the frequencies between which the list is taken to be complete: outside
 * them nothing is known here. An amateur's other bands are not listed.
 */
export const REGIONS: Readonly<
  Record<
    Region,
    { readonly bands: readonly RadioBand[]; readonly knownMhz: { readonly from: number; readonly to: number } }
  >
> = {
  europe: { bands: europe, knownMhz: { from: 862, to: 7000 } },
  usa: { bands: usa, knownMhz: { from: 862, to: 7000 } },
  "amateur-region-1": { bands: amateurNarrow, knownMhz: { from: 5000, to: 7000 } },
  "amateur-region-2": { bands: amateurWide, knownMhz: { from: 5000, to: 7000 } },
  "amateur-region-3": { bands: amateurNarrow, knownMhz: { from: 5000, to: 7000 } },
};

/**
 * Network equipment has more bands, under conditions of its own, and a digital link may be such
 * equipment: its position there is unknown. 47 CFR 15.407, and (EU) 2022/179, which allows it on
 * unmanned craft in one of its bands only; both from memory.
 */
const NETWORK_MHZ: Readonly<Partial<Record<Region, readonly { readonly from: number; readonly to: number }[]>>> = {
  europe: [{ from: 5170, to: 5250 }],
  usa: [
    { from: 5150, to: 5350 },
    { from: 5470, to: 5725 },
  ],
};

/**
 * Bands for industrial, scientific and medical use: 47 CFR 18.301; ITU Radio Regulations 5.150 has the
 * same, from memory.
 */
const ISM_BANDS = [
  { fromMhz: 915 - 13, toMhz: 915 + 13 },
  { fromMhz: 2450 - 50, toMhz: 2450 + 50 },
  { fromMhz: 5800 - 75, toMhz: 5800 + 75 },
] as const;

/** The ISM band that contains a frequency, edges included; null if none does. */
export function ismBandOf(mhz: number): { readonly fromMhz: number; readonly toMhz: number } | null {
  return ISM_BANDS.find(({ fromMhz, toMhz }) => mhz >= fromMhz && mhz <= toMhz) ?? null;
}

/** True for a word of `REGIONS`. */
export function isRegion(word: string | null): word is Region {
  return word !== null && Object.hasOwn(REGIONS, word);
}

/** The region's bands that contain the carrier, for this kind of signal; for all kinds if it is not known. */
export function bandsAt(region: Region, mhz: number, signal: Signal | null): RadioBand[] {
  return REGIONS[region].bands.filter(
    (band) => mhz >= band.fromMhz && mhz <= band.toMhz && (!band.signal || signal === null || band.signal === signal),
  );
}

export type BandPosition = "inside" | "spills" | "outside" | "unknown";

/**
 * The position of a signal relative to the region's bands: `spills` if its carrier is inside a band and
 * one of its edges is not. `unknown` where the region's list is not complete.
 */
export function bandPositionOf(region: Region, mhz: number, widthMhz: number, signal: Signal | null): BandPosition {
  const { knownMhz } = REGIONS[region];
  if (mhz < knownMhz.from || mhz > knownMhz.to) return "unknown";
  const bands = bandsAt(region, mhz, signal);
  if (bands.length === 0) {
    const network = signal !== "analogue" && NETWORK_MHZ[region]?.some(({ from, to }) => mhz >= from && mhz < to);
    return network ? "unknown" : "outside";
  }
  const { fromMhz, toMhz } = edgesMhz(mhz, widthMhz);
  return bands.some((band) => fromMhz >= band.fromMhz && toMhz <= band.toMhz) ? "inside" : "spills";
}

/**
 * The highest power limit at a carrier, with its band; null if no band contains it, or none of them has a
 * known limit.
 */
export function strongestLimit(
  region: Region,
  mhz: number,
  signal: Signal | null,
): { readonly powerMw: number; readonly band: RadioBand } | null {
  const limits = bandsAt(region, mhz, signal).flatMap((band) =>
    band.powerMw === null ? [] : [{ powerMw: band.powerMw, band }],
  );
  return limits.reduce<(typeof limits)[number] | null>(
    (most, each) => (most === null || each.powerMw > most.powerMw ? each : most),
    null,
  );
}

/** The bands that are wide enough for video: 10 MHz or more, common practice, no source. */
export function pictureBands(region: Region): RadioBand[] {
  return REGIONS[region].bands.filter(({ fromMhz, toMhz }) => toMhz - fromMhz >= 10);
}
