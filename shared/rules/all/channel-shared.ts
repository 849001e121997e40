import type { BothRule } from "../engine/rule.ts";
import { sharedChannels } from "../lib/indistinct-controls.ts";

export const rule: BothRule = {
  code: "channel-shared",
  severity: "error",
  scope: "both",
  blocksUse: true,
  summary: "Two controls drive one channel.",
  prose:
    "A channel carries one pulse, so of two controls on it only one can be right, and which one is up to the transmitter: a switch that arms may then be moved by another. Give one of them a channel of its own, in the handset and in this file.",
  examples: {
    bad: {
      "wheel.fettle":
        'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch5 up 1000 us down 2000 us\n',
    },
    good: {
      "wheel.fettle":
        'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us down 2000 us\n',
    },
  },
  looksAt: {},
  checkFile: (script) => sharedChannels(script),
  checkCraft: (craft) => sharedChannels(craft),
};
