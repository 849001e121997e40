/** Figures measured on the bench, to compare with the script. */
import type { SettingSpec, SimpleType } from "../specs.ts";
import { quantity, usually } from "../value-types.ts";

const pulse = "common practice, no source: beyond 500 to 2500 us no receiver sends a pulse";
const middle = "common practice, no source: a stick that rests outside this is near its end, not in its middle";
const ends: SimpleType = { is: "range", of: quantity("us", 500, 2500, pulse) };
const packVolts = quantity(
  "V",
  0.5,
  120,
  "common practice, no source: below one dead cell and above the largest pack there is nothing to read",
);
const charge = quantity(
  "mAh",
  1,
  400_000,
  "common practice, no source: up to a few times the largest pack, for several flights together",
);

export const benchReadings: readonly SettingSpec[] = [
  {
    name: "roll",
    types: [ends],
    kind: "hardware",
    what: "The pulses at which the roll channel ends, with the stick hard left and hard right.",
    why: "Ten microseconds off a thousand and two thousand is as good as perfect; a few more beyond do no harm. Falling short costs rate: from a middle of 1500 us, a left end of 1040 us gives 92 % of the stick and never the whole. Uneven ends mean a handset that wants its own calibration again, before anything is changed on the craft.",
    related: ["link.endpoints", "rates.roll", "transmitter.travel"],
    words: ["roll end points", "aileron travel", "roll stick reading"],
  },
  {
    name: "pitch",
    types: [ends],
    kind: "hardware",
    what: "What the pitch channel reads with the stick pulled right back and pushed right forwards.",
    why: "Pitch is where a short end hurts first: the last bit of forward stick is what a racer dives with. Push the stick into its corners too, since a round gate on the gimbal may stop it before its end. If back and forwards come out the other way about, the channel is reversed, which is a matter of direction and not of ends.",
    related: ["link.endpoints", "rates.pitch", "bench.direction-checked"],
    words: ["pitch end points", "elevator travel", "pitch stick reading"],
  },
  {
    name: "throttle",
    types: [ends],
    kind: "hardware",
    what: "The lowest and the highest pulse of the throttle channel as it reaches the board.",
    why: "The bottom decides whether the craft arms at all, the top whether it ever gives full power. A trim that someone nudged, or a sensor in the gimbal that has worn, lifts the bottom by twenty or thirty microseconds, and then arming is refused for no visible reason. Read it with the trim in the middle, where it should stay.",
    related: ["safety.arm-throttle-limit", "link.endpoints", "motors.idle"],
    words: ["throttle end points", "lowest throttle", "why will it not arm"],
  },
  {
    name: "yaw",
    types: [ends],
    kind: "hardware",
    what: "Both ends of the yaw stick, as the board receives them.",
    why: "Yaw shares a gimbal with throttle, so take it once with the throttle low and once half up: on some gimbals the ends differ. Short ends make a lazy yaw that no gain can wake. On a craft armed by sticks, a yaw that stops short may never reach the corner that disarms.",
    hazard:
      "Where the sticks arm the craft, low throttle with full yaw is how they do it: take the propellers off before reading this.",
    related: ["link.endpoints", "rates.yaw", "safety.stick-arming"],
    words: ["yaw end points", "rudder travel", "yaw stick reading"],
  },
  {
    name: "centres",
    types: [
      {
        is: "fields",
        fields: ["roll", "pitch", "yaw"].map((name) => ({
          name,
          types: [quantity("us", 800, 2200, middle, usually(1480, 1520))],
          what: `Pulse with the ${name} stick let go.`,
        })),
      },
    ],
    kind: "hardware",
    what: "Where roll, pitch and yaw come to rest when the sticks are let go.",
    why: "Flick each stick and let it snap back from either side: the two readings show how far its spring leaves it from the middle. Within the deadband nobody notices. Beyond it the craft turns slowly for ever, and the picture slides during what should be a straight line. A trim on the handset is the usual culprit.",
    related: ["link.centre", "link.deadband", "link.yaw-rest-zone"],
    words: ["stick middle", "centre reading", "trim", "does the stick centre"],
  },
  {
    name: "stick-jitter",
    types: [
      quantity("us", 0, 500, "common practice, no source: a stick that trembles by more is broken", usually(0, 12)),
    ],
    kind: "hardware",
    what: "How far the shown pulses tremble while no stick is touched.",
    why: "One or two microseconds are the link's own step. More is a worn sensor in the gimbal, and is heard as grit in the motors, since feed-forward answers each tremble. The deadband hides it in the middle only. Write the worst axis; if it doubles within a season, the gimbal is due.",
    related: ["link.deadband", "link.resolution", "filters.smooth-sticks"],
    words: ["noisy gimbal", "trembling channel", "stick noise"],
  },
  {
    name: "pack-volts-read",
    types: [packVolts],
    kind: "hardware",
    what: "Voltage of the pack, read with a trusted meter at the craft's own leads.",
    why: "With the figure that the craft shows at the same moment, it gives the right divider in one step: the scale has to grow by as many per cent as the meter reads more. Measure at the craft and not on the balance plug, with the motors still. A meter with a weak cell of its own reads high, and would teach the craft to warn too late.",
    hazard:
      "Propellers off, for the pack is in; and keep the meter's two tips apart, for a pack shorted across its plug welds and burns.",
    related: ["bench.pack-volts-shown", "pack.divider-top"],
    words: ["multimeter reading", "true voltage", "calibrate the voltmeter"],
  },
  {
    name: "pack-volts-shown",
    types: [packVolts],
    kind: "hardware",
    what: "Voltage of the pack that the craft showed while the meter was read.",
    why: "Only its ratio to the meter's reading counts, so take both at one moment, from a pack that is neither full nor empty. A tenth of a volt on a six-cell pack is within what ordinary resistors promise and not worth chasing. Volts that fall as the throttle opens are the pack and its joints at work: no scale cures those, so read at rest.",
    related: ["bench.pack-volts-read", "pack.divider-top", "pack-volts"],
    words: ["displayed voltage", "voltage in the picture", "shown too high"],
  },
  {
    name: "charge-put-back",
    types: [charge],
    kind: "hardware",
    what: "Charge that the charger put back after the flights that were counted.",
    why: "The charger's count is the best current meter a pilot owns. Fly one whole pack, or several with their counts added, so that a start from not quite full matters little. Balancing makes it count a per cent or so too much, less than the sensor's own error. A pack that came back nearly full says little, since the start was not quite full either.",
    related: ["bench.charge-counted", "pack.shunt"],
    words: ["charged back", "calibrate current", "charger says"],
  },
  {
    name: "charge-counted",
    types: [charge],
    kind: "hardware",
    what: "Charge that the craft counted as used over the same flights.",
    why: "Counted over put back is the error of the current scale: 900 counted for 1000 charged means that every ampere shown is really 1.1. Read it before the pack is pulled, for most craft forget it. If the error is large in gentle flight and small in wild flight, it is the offset that is wrong rather than the scale.",
    related: ["bench.charge-put-back", "pack.shunt", "pack.shunt-offset", "used-capacity"],
    words: ["consumed shown", "counted milliampere hours", "current sensor wrong"],
  },
  {
    name: "rest-current",
    types: [
      quantity(
        "A",
        0,
        50,
        "common practice, no source: a craft that draws more while disarmed is on fire",
        usually(0.02, 5),
      ),
    ],
    kind: "hardware",
    what: "Current that the craft really draws disarmed, read with a meter in the lead.",
    why: "It is what camera, transmitter and board take from the pack all the time: eight watts of digital camera and transmitter are a third of an ampere on six cells and more than two on a single one, which is minutes of flight for a tiny craft waiting for its turn. What the craft shows beyond this is the sensor's offset. A sudden rise between two weeks is a regulator or a camera about to fail.",
    hazard:
      "Propellers off, and do not arm: the fuse of a common meter goes at ten amperes, and a motor takes that at once.",
    related: ["pack.shunt-offset", "pack.current-from", "video.power-disarmed"],
    words: ["idle draw", "standby current", "amps while disarmed"],
  },
  {
    name: "motor-heat-read",
    types: [
      quantity(
        "degC",
        -40,
        300,
        "common practice, no source: magnets and windings are long dead at the top",
        usually(-20, 80),
      ),
    ],
    kind: "hardware",
    what: "Temperature of the hottest motor right after landing.",
    why: "Pull the pack first. What a finger can bear for two seconds is about 55 degrees, and a good place to stay. Above about 80 the magnets of a cheap motor begin to weaken for ever, and it then draws more and heats more. Hot in a calm hover means noise from gains or filters; hot only after hard flying means a propeller too steep or too large.",
    related: ["bench.hover-checked", "filters.smooth-d", "frame.propeller-pitch"],
    words: ["motor temperature", "too hot to touch", "infrared thermometer"],
  },
];
