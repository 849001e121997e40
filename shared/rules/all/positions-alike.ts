import type { BothRule } from "../engine/rule.ts";
import { alikePositions } from "../lib/indistinct-controls.ts";

export const rule: BothRule = {
  code: "positions-alike",
  severity: "error",
  scope: "both",
  blocksUse: true,
  summary: "Two positions of one control send the same pulse.",
  prose:
    "The craft sees only the pulse: positions that send the same one are one position to it, whatever the hand feels. Give each its own pulse, as measured on the bench or as the handset's pages say.",
  examples: {
    bad: { "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us mid 1000 us down 2000 us\n' },
    good: { "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n' },
  },
  looksAt: {},
  checkFile: (script) => alikePositions(script),
  checkCraft: (craft) => alikePositions(craft),
};
