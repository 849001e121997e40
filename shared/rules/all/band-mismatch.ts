import type { Craft } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { bandsMeet } from "../lib/bands-meet.ts";
import { valueLocation } from "../lib/locations.ts";

function bandOf(craft: Craft, section: string) {
  const setting = settingOf(craft, `${section}.band`);
  const mhz = amountIn(setting, "MHz");
  return setting && mhz !== undefined ? { setting, mhz } : null;
}

export const rule: CraftRule = {
  code: "band-mismatch",
  severity: "error",
  scope: "craft",
  summary: "The handset's module and the craft's receiver are on different bands.",
  prose:
    "A module and a receiver on different bands never bind, whatever is pressed: they need other aerials and other radios. Look at the labels of the module and of the receiver; one of the two lines is wrong, or this craft belongs to another handset.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  band 868 MHz\n',
      "wheel.fettle": 'handset "Wheel"\n\ntransmitter\n  band 2.4 GHz\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  band 2.4 GHz\n',
      "wheel.fettle": 'handset "Wheel"\n\ntransmitter\n  band 2.4 GHz\n',
    },
  },
  looksAt: { settings: ["link.band", "transmitter.band"] },
  check(craft, workspace) {
    const own = bandOf(craft, "link");
    const handset = bandOf(craft, "transmitter");
    if (!own || !handset || bandsMeet(own.mhz, handset.mhz)) return [];
    return [
      {
        at: valueLocation(workspace, own.setting.source),
        message: `The receiver is on ${own.setting.text} and the handset's module on ${handset.setting.text}: the two never bind.`,
        related: [{ message: "The handset's module", at: valueLocation(workspace, handset.setting.source) }],
        alsoOf: [handset.setting.source],
      },
    ];
  },
};
