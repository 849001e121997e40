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
      unsaid: "missing",
      reason:
        "A craft that was stopped by a lost signal starts its motors again by itself when the link comes back with the switch still at arm, perhaps in the hands of whoever found it. Say yes.",
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
  "safety.spin-when-armed": [
    {
      word: "no",
      setting: "safety.idle-disarm-after",
      not: "never",
      // A craft whose throttle rests in its middle stands still there in flight as well.
      while: [{ setting: "motors.reverse-band", unsaid: "wanted" }],
      misleads: true,
      reason:
        "Armed, the craft stands as still and silent as disarmed, and stays so until somebody brushes the throttle. Let it disarm by itself, or let the motors turn.",
      source: practice,
    },
  ],
  ...Object.fromEntries(
    ["roll", "pitch", "yaw"].map((axis) => [
      `sensors.mount-${axis}`,
      [
        {
          setting: "bench.mount-checked",
          unsaid: "missing" as const,
          while: [{ section: "bench" }],
          reason:
            "A board that is turned against the frame is tilted by hand once, propellers off, to see that it feels each tilt the right way round: write down the day.",
          source: practice,
        },
      ],
    ]),
  ),
};
