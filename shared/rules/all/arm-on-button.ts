import type { CraftRule } from "../engine/rule.ts";
import { armingReports } from "../lib/arming-controls.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "arm-on-button",
  severity: "warning",
  scope: "craft",
  summary: "Arming depends on a control that springs back.",
  prose:
    "A button is armed only while it is held, so the motors stop when the thumb slips, and a press by accident starts them. Arm by a switch that stays where it is put. As arm-permit a button does well: most boards look at that in the moment of arming alone.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when PB is held\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  arm-permit when PB is held\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm"] },
  check: (craft, workspace) =>
    armingReports(
      craft,
      workspace,
      "button",
      (name) => `Arming depends on ${name}, which springs back: the motors stop as soon as it is let go.`,
    ),
};
