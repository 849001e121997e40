import type { CraftRule } from "../engine/rule.ts";
import { armingReports } from "../lib/arming-controls.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "arm-on-dial",
  severity: "warning",
  scope: "craft",
  summary: "Arming depends on a dial.",
  prose:
    "A dial has no click and no place where the hand finds it: it drifts in a bag, and nobody sees from a step away where it stands. Arm by a switch that can be felt and seen.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when KN above 1500 us\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm"] },
  check: (craft, workspace) =>
    armingReports(
      craft,
      workspace,
      "dial",
      (name) =>
        `Arming depends on ${name}, a dial, which can be turned by accident and whose position the hand cannot feel.`,
    ),
};
