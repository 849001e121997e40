import type { CraftRule } from "../engine/rule.ts";
import { armingReports } from "../lib/arming-controls.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "arm-on-button",
  severity: "warning",
  scope: "craft",
  summary: "Arming depends on a control that springs back.",
  prose:
    "A button is armed only while it is held, so the motors stop when the thumb slips, and a press by accident starts them. Arm by a switch that stays where it is put.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when PB is held\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", "arm-permit"] },
  check: (craft, workspace) =>
    armingReports(craft, workspace, "button", (name, by) => {
      const then = by === "arm" ? "the motors stop" : "the permission to arm is gone";
      return `Arming depends on ${name}, which springs back: ${then} as soon as it is let go.`;
    }),
};
