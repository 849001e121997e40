/** The figures of a craft's video transmitter: `videoOf`. A figure is null if it is not set. */
import { ANALOGUE_WIDTH_MHZ, dbmOf } from "./radio.ts";
import {
  type BandPosition,
  bandPositionOf,
  bandsAt,
  isRegion,
  type RadioBand,
  type Region,
  type Signal,
  strongestLimit,
} from "./radio-bands.ts";
import { numberIn, numberOf, onceFor, valueIn, wordIn } from "./values.ts";

export interface VideoFigures {
  readonly signal: Signal | null;
  readonly carrierMhz: number | null;
  readonly powerMw: number | null;
  readonly powerDbm: number | null;
  readonly stepsMw: readonly number[];
  readonly region: Region | null;
  /** 18 MHz for an analogue signal, what is said for a digital one; null if the width is not known. */
  readonly widthMhz: number | null;
  /** The position relative to the region's bands; null without region or carrier. An unknown width counts as 0. */
  readonly place: BandPosition | null;
  readonly bands: readonly RadioBand[];
  /** The highest power limit of the region at the carrier. */
  readonly most: { readonly powerMw: number; readonly band: RadioBand } | null;
}

/** The video transmitter, compared with the rules of the craft's region. */
export const videoOf = onceFor((craft, catalogue): VideoFigures => {
  const word = wordIn(craft, catalogue, "video", "signal");
  const signal = word === "analogue" || word === "digital" ? word : null;
  const carrierMhz = numberIn(craft, catalogue, "video", "frequency", "MHz");
  const powerMw = numberIn(craft, catalogue, "video", "power", "mW");
  const regionWord = wordIn(craft, catalogue, "video", "region");
  const region = isRegion(regionWord) ? regionWord : null;
  const saidMhz = numberIn(craft, catalogue, "video", "signal-width", "MHz");
  const widthMhz = signal === "analogue" ? ANALOGUE_WIDTH_MHZ : signal === "digital" ? saidMhz : null;
  const steps = valueIn(craft, catalogue, "video", "power-steps");
  const bandsKnown = region !== null && carrierMhz !== null;
  return {
    signal,
    carrierMhz,
    powerMw,
    powerDbm: powerMw === null ? null : dbmOf(powerMw),
    stepsMw: steps?.kind === "list" ? steps.items.flatMap((item) => numberOf(item, "mW") ?? []) : [],
    region,
    widthMhz,
    place: bandsKnown ? bandPositionOf(region, carrierMhz, widthMhz ?? 0, signal) : null,
    bands: bandsKnown ? bandsAt(region, carrierMhz, signal) : [],
    most: bandsKnown ? strongestLimit(region, carrierMhz, signal) : null,
  };
});
