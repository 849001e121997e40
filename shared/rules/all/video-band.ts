import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import { bandPositionOf, pictureBands, type RadioBand, type Region, type Signal } from "../../numbers/radio-bands.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import type { Severity } from "../../protocol/findings.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

function holds(outer: RadioBand, inner: RadioBand): boolean {
  return outer.fromMhz <= inner.fromMhz && inner.toMhz <= outer.toMhz;
}

/** The region's bands for pictures; bands inside one another are merged. */
function pictureBandsInWords(region: Region): string {
  const all = pictureBands(region);
  const widest = all.filter((band, i) => !all.some((each, k) => holds(each, band) && (!holds(band, each) || k < i)));
  const spans = widest.map(({ fromMhz, toMhz }) => `${fromMhz} to ${toMhz} MHz`);
  return `for pictures ${region} has ${spans.join(", ")}`;
}

/** What is wrong with a carrier in its region; null if nothing is. */
function judge(
  region: Region,
  mhz: number,
  signal: Signal | null,
  widthMhz: number | null,
): { message: string; severity: Severity } | null {
  // An analogue signal is the stricter case, so it is assumed if the kind is not set.
  const place = bandPositionOf(region, mhz, 0, signal ?? "analogue");
  if (place === "outside") {
    const message = `${mhz} MHz lies outside the bands of the region that is said (${pictureBandsInWords(region)}): take another channel. Local rules have the last word.`;
    return { message, severity: "warning" };
  }
  if (place === "unknown" && bandPositionOf(region, mhz, 0, "analogue") === "outside") {
    const message = `${mhz} MHz is open to network equipment only, which gives way to radar (47 CFR 15.407, (EU) 2022/179, from memory; else ${pictureBandsInWords(region)}): see that your transmitter is such, or take another channel. Local rules have the last word.`;
    return { message, severity: "hint" };
  }
  // The usual first and last channel of an analogue picture spill over, and nobody minds: only a width that is said counts.
  if (signal !== "digital" || widthMhz === null || bandPositionOf(region, mhz, widthMhz, signal) !== "spills")
    return null;
  const message = `${mhz} MHz lies in a band, but at a width of ${widthMhz} MHz the signal spills over its edge (${pictureBandsInWords(region)}): take a channel further in, or a narrower signal. Local rules have the last word.`;
  return { message, severity: "warning" };
}

export const rule: CraftRule = {
  code: "video-band",
  severity: "warning",
  scope: "craft",
  summary: "The video transmitter sends outside the bands of the region that is said.",
  prose:
    "Which frequencies are free to use differs from place to place, and beyond them other services listen who have a right to. A carrier outside the region's bands is a warning, and so is a digital signal that spills over the edge by the width that is said of it; one in a band that is open to network equipment is a hint. Of an analogue picture only the carrier is judged: on the usual first and last channels its edge spills over, and nobody is disturbed. The bands known here are ETSI EN 300 440 and EN 300 328 for Europe, 47 CFR 15.247 and 15.249 for the United States, 47 CFR 97.301 for licensed amateurs. Take another channel, or say the region and licence that are true; local rules have the last word.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nvideo\n  frequency 5658 MHz\n  region europe\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nvideo\n  frequency 5769 MHz\n  region europe\n' },
  },
  looksAt: {
    settings: ["video.frequency", "video.spare-frequency", "video.region", "video.signal", "video.signal-width"],
  },
  check(craft, workspace) {
    const { region, signal, widthMhz } = videoOf(craft, workspace.catalogue);
    if (region === null) return [];
    const regionSetting = settingOf(craft, "video.region");
    return ["video.frequency", "video.spare-frequency"].flatMap((path) => {
      const setting = settingOf(craft, path);
      const mhz = amountIn(setting, "MHz");
      const found = mhz === undefined ? null : judge(region, mhz, signal, widthMhz);
      if (!setting || !found) return [];
      return [
        {
          ...found,
          at: valueLocation(workspace, setting.source),
          related: regionSetting ? [{ message: "The region", at: valueLocation(workspace, regionSetting.source) }] : [],
          alsoOf: regionSetting ? [regionSetting.source] : [],
        },
      ];
    });
  },
};
