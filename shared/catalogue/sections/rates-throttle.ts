/** The throttle stick: its curve, its limit, and how quickly it may move. */
import { meaning, practice } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";
import { choice, quantity, usually } from "../value-types.ts";

export const throttleRates: readonly SettingSpec[] = [
  {
    name: "throttle-curve",
    types: [{ is: "list", of: quantity("%", 0, 100, meaning), fewest: 2, most: 17 }],
    kind: "taste",
    what: "Throttle at evenly spaced places of the stick's travel, from its lower to its upper end.",
    why: "A strong craft hovers low in the travel, where a millimetre is a metre of height; points that rise slowly there spread it over more of the stick. Take care that the list never falls, or more stick gives less power at some point; a flat piece feels like a hole.",
    hazard:
      "Begin the list at 0 %: a first figure above it is thrust with the stick closed, so that the craft leaps as it arms and will not come down.",
    excludes: [
      {
        setting: "rates.throttle-soft",
        reason: "Both bend the same stick: a list of points already holds the softness.",
      },
    ],
    related: ["rates.throttle-hover", "rates.throttle-limit", "throttle", "gains.thrust-curve"],
    words: ["throttle curve", "throttle too sensitive", "hover in the middle of the stick"],
  },
  {
    name: "throttle-soft",
    types: [quantity("%", 0, 100, meaning, usually(0, 80))],
    default: "0 %",
    kind: "taste",
    what: "How much flatter the throttle is about the hover than over the whole travel.",
    why: "It makes holding a height easier without giving up the top, in one figure where a curve needs five. Taken far, the stick does nearly nothing around the hover and too much on either side, so that a descent ends in a drop and a save in a leap.",
    related: ["rates.throttle-hover", "rates.throttle-curve"],
    words: ["throttle expo", "softer throttle", "hard to hold height"],
  },
  {
    name: "throttle-hover",
    types: [
      quantity("%", 0, 100, meaning, [
        { from: 10, to: 85, source: practice, when: { throttle: "middle" } },
        { from: 10, to: 70, source: practice },
      ]),
    ],
    kind: "hardware",
    what: "Where on its travel the throttle stick stands while the craft hovers.",
    why: "The soft part of the throttle lies about this place, and modes that hold a height start from it. Read it from the display in a calm hover with a half-used pack. Entered above the true hover, it makes the craft leap up when a height hold begins; entered below it, the craft drops first. A heavier camera moves it at once.",
    related: ["throttle", "hold-height", "frame.hover-throttle", "failsafe.descend-throttle", "rates.throttle-soft"],
    words: ["hover point", "middle of the throttle curve", "hover throttle"],
  },
  {
    name: "throttle-limit",
    types: [quantity("%", 1, 100, meaning, usually(20, 100))],
    default: "100 %",
    kind: "taste",
    what: "The most throttle that full stick gives.",
    why: "It tames a craft for a hall, a child or a first outing without touching the motors' room for corrections: in a hard turn they may still go to their end. Little above the hover, and a craft that falls cannot be caught, because the stick has nothing left; put on a dial it is the kindest way to lend a craft.",
    related: ["motors.limit", "rates.throttle-limit-by", "rates.throttle-curve"],
    words: [
      "limit the power",
      "beginner power",
      "slower craft",
      "slow it down",
      "cap the throttle",
      "maximum throttle",
    ],
  },
  {
    name: "throttle-limit-by",
    types: [
      choice({
        stretched: "The whole travel is stretched over what is allowed.",
        "cut-off": "The stick works as always up to the limit, and beyond it nothing more happens.",
      }),
    ],
    default: "stretched",
    kind: "taste",
    what: "What becomes of the part of the throttle stick above the limit.",
    why: "Stretching gives a finer stick, but moves the hover upwards, and thumbs that know the craft find it weak. Cutting off keeps the hover where it was, at the price of a dead stretch at the top, in which one notices too late that there is no more to come.",
    related: ["rates.throttle-limit", "rates.throttle-hover"],
    words: ["stretch or cut off", "top of the throttle does nothing", "dead zone at the top of the throttle"],
  },
  {
    name: "throttle-rise",
    types: [
      quantity(
        "ms",
        0,
        5000,
        "common practice, no source: after five seconds a falling craft has landed",
        usually(0, 500),
      ),
    ],
    default: "0 ms",
    kind: "taste",
    what: "The least time in which the throttle may go from nothing to full.",
    why: "Large propellers on weak controllers can lose step when asked for everything at once, and a tenth of a second spares them; film pilots like the calmer climb. Every millisecond is missing when a dive has to be caught, and beyond a quarter of a second the craft feels as if hung on rubber.",
    related: ["motors.idle", "gains.throttle-kick"],
    words: ["throttle slew", "throttle ramp", "slow throttle response", "soft start"],
  },
];
