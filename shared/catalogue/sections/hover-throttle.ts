/** The throttle of a hover, which the frame and each of its packs may say. */
import { practice } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";
import { quantity } from "../value-types.ts";

export const hoverThrottle: SettingSpec["types"] = [
  quantity(
    "%",
    1,
    99,
    "common practice, no source: a craft that hovers at the stop of its throttle cannot climb or cannot sink",
    [
      { from: 8, to: 85, source: practice, when: { throttle: "middle" } },
      { from: 8, to: 65, source: practice },
    ],
  ),
  quantity("us", 900, 2200, "common practice, no source: the span of a control pulse with room at both ends", [
    { from: 1080, to: 1850, source: practice, when: { throttle: "middle" } },
    { from: 1080, to: 1650, source: practice },
  ]),
];
