/** Settings of flight and failsafe that another setting takes the sense from. */
import { practice } from "../sources.ts";
import type { NeedTable } from "../specs.ts";

export const flightNeeds: NeedTable = {
  "failsafe.rearm-needs-off": [
    {
      word: "no",
      misleads: true,
      setting: "failsafe.then",
      is: "return",
      reason:
        "A craft that was stopped by a lost link starts its motors again by itself when the link comes back with the switch still at arm, perhaps in the hands of whoever found it. Say yes.",
      source: practice,
    },
  ],
  "grip-at-idle": [
    {
      setting: "safety.spin-when-armed",
      not: "no",
      severity: "warning",
      reason: "Motors that stand still while armed hold no attitude: let them turn as soon as the craft is armed.",
      source: practice,
    },
  ],
};
