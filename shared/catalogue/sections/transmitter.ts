import type { SectionSpec } from "../specs.ts";
import { integer, quantity, quotedText, usually, yesNo } from "../value-types.ts";

const power = "common practice, no source: outside this no handset's module transmits";

export const transmitter: SectionSpec = {
  name: "transmitter",
  what: "The handset's radio: its band, its power, and what the sticks send.",
  why: "One handset serves many craft. What stands here is true of all of them, so it is written once, in the handset's own file.",
  words: ["handset", "remote control", "radio module", "transmitting"],
  holds: "settings",
  in: ["handset"],
  settings: [
    {
      name: "band",
      types: [
        quantity(
          "GHz",
          0.026,
          6,
          "common practice, no source: radio-control links lie between the 27 MHz and the 5.8 GHz bands",
        ),
      ],
      kind: "hardware",
      what: "Radio band in which the handset's module transmits.",
      why: "The module decides it, and the country it was sold in: the sub-gigahertz bands differ between regions although the modules look alike. A craft bought abroad may carry a receiver for the other one and will never bind. Modules that offer two bands must be set to the one that the receiver has.",
      hazard:
        "Using another region's band is unlawful in most places, and may fall on somebody's alarm or emergency service.",
      related: ["link.band", "transmitter.module"],
      words: ["frequency of the handset", "module band", "868 915 2.4"],
    },
    {
      name: "power",
      types: [quantity("mW", 0.05, 10_000, power, usually(1, 2000))],
      kind: "taste",
      what: "The most power that the module may transmit with.",
      why: "Four times the power doubles the range in free air, and does little behind a hill. Most flying is done within a few hundred metres, where 25 to 100 mW are ample and the module stays cool. More drains the handset and drowns the links of friends standing next to you; less is fine indoors.",
      hazard:
        "Never switch it on without its antenna: the module can destroy itself. How much may be sent, local law says.",
      related: ["transmitter.power-least", "link.packet-rate", "bench.range-checked"],
      words: ["output power", "milliwatts", "more range"],
    },
    {
      name: "power-least",
      types: [quantity("mW", 0.01, 10_000, power, usually(0.5, 2000))],
      kind: "taste",
      what: "Power to which the module goes down while the link is strong.",
      why: "A module that follows the need whispers near by and shouts far out: the handset lasts longer and the neighbours hear less of it. It depends on the craft talking back, so without telemetry it stays at one end or the other. A very low floor can lag behind a craft that dives behind a building in one second.",
      related: ["transmitter.power", "link.telemetry"],
      words: ["dynamic power", "lowest power", "saves the handset battery"],
    },
    {
      name: "module",
      types: [quotedText(80)],
      kind: "hardware",
      what: "Name and revision of the transmitting module.",
      why: "Handset and module are often two purchases, with two lots of software that must fit each other and the receivers. Written down, a pilot with two modules knows which craft belongs to which. Guessing it at the field means binding again, which also wipes the presets in some receivers.",
      related: ["link.receiver", "transmitter.band"],
      words: ["transmitter module", "which module", "internal or external module"],
    },
    {
      name: "stick-mode",
      types: [integer(1, 4, "common practice, no source: the four ways to lay four functions on two sticks")],
      kind: "taste",
      what: "Which function lies on which stick, by the trade's numbers 1 to 4.",
      why: "Mode 2 has throttle and yaw on the left and is the most common; mode 1 has throttle and roll on the right; 3 is the mirror image of 2, and 4 that of 1. Nothing on the craft changes with it. It matters to whoever borrows the handset: a pilot of another mode lifts off once and crashes.",
      hazard: "Ask a borrower for their mode before the craft is armed.",
      related: ["link.order", "stick-trace-left", "stick-trace-right"],
      words: ["mode 1", "mode 2", "throttle on the left", "stick layout"],
    },
    {
      name: "travel",
      types: [
        {
          is: "range",
          of: quantity(
            "us",
            500,
            2500,
            "common practice, no source: many handsets go some ten us beyond 1000 and 2000 us; beyond 500 to 2500 us none does",
          ),
        },
      ],
      kind: "hardware",
      what: "Pulses that the handset sends at the two ends of a stick.",
      why: "A little beyond 1000 and 2000 us is the habit of many makers and harmless, because the craft cuts it off at its own ends. Falling short is not: rate and throttle are lost for good. Adjust it per handset, so that every craft sees full travel; adjusted per craft, the next one starts from guesswork.",
      related: ["link.endpoints", "bench.roll", "bench.throttle"],
      words: ["handset end points", "output limits", "stick travel"],
    },
    {
      name: "start-check",
      types: [yesNo],
      kind: "safety",
      what: "Whether the handset refuses to transmit until throttle and switches are at rest.",
      why: "A handset that wakes with its arm switch down arms the craft that is waiting for it; this is the first lock against that. The nag at each start teaches the hand to put the switches back after landing. Without it the switch left down by the last pilot reaches the craft with the first packet, and only the craft's own checks stand in between.",
      related: ["arm", "link.on-loss", "safety.arm-throttle-limit"],
      words: ["switch warning", "throttle warning", "handset beeps at power-on"],
    },
    {
      name: "idle-alarm-after",
      types: [
        quantity("min", 0.1, 600, "common practice, no source: longer than any handset's charge", usually(1, 60)),
      ],
      kind: "taste",
      what: "How long nobody may touch the sticks before the handset complains.",
      why: "It saves the handset's charge, and the craft still plugged in beside it, when a talk at the field drags on. Ten minutes bother few. A short one talks through every repair; with none, next Saturday starts with an empty handset.",
      related: ["finder.after-idle", "transmitter.handset-warn"],
      words: ["inactivity alarm on the handset", "handset left on"],
    },
    {
      name: "handset-warn",
      types: [
        quantity(
          "V",
          1,
          30,
          "common practice, no source: between one dry cell and the largest handset pack",
          usually(2.4, 15),
        ),
        quantity(
          "V/cell",
          0.8,
          4.2,
          "common practice, no source: from an empty dry cell to a full lithium one",
          usually(1, 3.8),
        ),
      ],
      kind: "safety",
      what: "Voltage of the handset's own battery at which it warns.",
      why: "When the handset dies in flight the craft is left to its failsafe. The alarm should leave at least the longest flight and its landing. Lithium cells fall quickly at the end, so about 3.5 V each; set for another kind of cell than the one fitted, it rings all day or never.",
      related: ["failsafe.then", "transmitter.idle-alarm-after"],
      words: ["handset battery low", "transmitter battery alarm"],
    },
  ],
};
