import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { sectionLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "arm-missing",
  severity: "warning",
  scope: "craft",
  summary: "A craft has modes and none of them arms it.",
  prose:
    "Without arm no switch starts or stops the motors, so either the line was lost or it stands in a file that is not used. A craft that cannot be disarmed by one movement of one finger is not safe to stand beside. Write a line for arm, on a switch that a finger finds, or use the file that has it.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  level when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm"] },
  check: (craft, workspace) =>
    craft.modes.size === 0 || craft.modes.has("arm")
      ? []
      : [
          {
            at: sectionLocation(craft, workspace, "modes"),
            message: "This craft has modes and no arm: say which switch starts and stops the motors.",
          },
        ],
};
