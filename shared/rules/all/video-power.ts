import type { Setting } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import { pictureBands, type RadioBand, type Region, type Signal, strongestLimit } from "../../numbers/radio-bands.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { valueLocation } from "../lib/locations.ts";

/** Whole decibels correspond to powers slightly above the round figure: 14 dBm are 25.1 mW. */
const ROUNDING = 1.01;

const POWERS = ["power", "power-disarmed", "power-lost"] as const;

interface PowerLimit {
  readonly powerMw: number;
  readonly band: RadioBand;
}

/**
 * The power limit at a carrier: that of its own band; for a carrier outside all bands, of the nearest;
 * without a carrier, of the band that allows most. Null if no limit is known.
 */
function limitAt(region: Region, carrierMhz: number | null, signal: Signal | null): PowerLimit | null {
  const wide = pictureBands(region).filter((band) => !band.signal || signal === null || band.signal === signal);
  const most = (bands: readonly RadioBand[]): PowerLimit | null =>
    bands.reduce<PowerLimit | null>(
      (best, band) =>
        band.powerMw === null || (best && best.powerMw >= band.powerMw) ? best : { powerMw: band.powerMw, band },
      null,
    );
  if (carrierMhz === null) return most(wide);
  const own = strongestLimit(region, carrierMhz, signal);
  if (own) return own;
  const away = ({ fromMhz, toMhz }: RadioBand) => Math.max(fromMhz - carrierMhz, carrierMhz - toMhz);
  const nearest = Math.min(...wide.map(away));
  return most(wide.filter((band) => away(band) === nearest));
}

export const rule: CraftRule = {
  code: "video-power",
  severity: "warning",
  scope: "craft",
  summary: "The video transmitter sends with more power than the region that is said allows.",
  prose:
    "How much may be sent without a licence is small, and differs from band to band: 25 mW at 5.8 GHz in Europe (ERC/REC 70-03 annex 1, from memory), and in the United States 0.75 mW, or 1 W for digital signals up to 5850 MHz (47 CFR 15.249 and 15.247). Limits of radiated power include the antenna's gain, which is not known here. Send less, or say the licence that is held; local rules have the last word. For licensed amateurs no limit is known here.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nvideo\n  frequency 5800 MHz\n  power 600 mW\n  region europe\n',
    },
    good: { "jug.fettle": 'craft "Jug"\n\nvideo\n  frequency 5800 MHz\n  power 25 mW\n  region europe\n' },
  },
  looksAt: {
    settings: [
      ...POWERS.map((name) => `video.${name}` as const),
      "video.power-steps",
      "video.frequency",
      "video.region",
      "video.signal",
    ],
    modes: ["video-high"],
  },
  check(craft, workspace) {
    const { region, carrierMhz, signal, stepsMw } = videoOf(craft, workspace.catalogue);
    const limit = region === null ? null : limitAt(region, carrierMhz, signal);
    if (region === null || !limit) return [];
    const regionSaid = settingOf(craft, "video.region");
    const report = (setting: Setting | undefined, mw: number | undefined, what: string) => {
      if (!setting || mw === undefined || mw <= limit.powerMw * ROUNDING) return [];
      const { fromMhz, toMhz, source } = limit.band;
      return [
        {
          at: valueLocation(workspace, setting.source),
          message: `${what} ${decimalText(mw, 1)} mW, and ${region} allows ${decimalText(limit.powerMw, 2)} mW from ${fromMhz} to ${toMhz} MHz (${source}): send less, or say the licence that you hold. Local rules have the last word.`,
          related: regionSaid ? [{ message: "The region", at: valueLocation(workspace, regionSaid.source) }] : [],
          alsoOf: regionSaid ? [regionSaid.source] : [],
        },
      ];
    };
    const powers = POWERS.flatMap((name) => {
      const setting = settingOf(craft, `video.${name}`);
      return report(setting, amountIn(setting, "mW"), `${name} is`);
    });
    const strongest = craft.modes.has("video-high") && stepsMw.length > 0 ? Math.max(...stepsMw) : undefined;
    return [
      ...powers,
      ...report(settingOf(craft, "video.power-steps"), strongest, "The mode video-high takes the strongest step,"),
    ];
  },
};
