/** How the sticks and switches arrive as pulses. */
import type { SettingSpec } from "../specs.ts";
import { choice, quantity, usually } from "../value-types.ts";

const pulse =
  "common practice, no source: servo pulses run from 1000 to 2000 us about 1500 us; beyond 500 to 2500 us no receiver sends one";
const sticks = ["roll", "pitch", "throttle", "yaw"];

export const linkSticks: readonly SettingSpec[] = [
  {
    name: "order",
    types: [{ is: "order", words: sticks }],
    default: "roll pitch throttle yaw",
    kind: "hardware",
    what: "Which stick comes on channel 1, 2, 3 and 4.",
    why: "Handsets differ in the order in which they send the sticks, and the craft must be told. Get it wrong, and the stick that you hold for throttle asks for a roll while another one opens the motors. Move one stick at a time on the bench and see that its own figure moves, and no other: it is the first check of a new craft.",
    hazard: "With a wrong order a sideways push may open the throttle. Check it before the propellers go on.",
    related: ["link.reversed", "bench.order-checked", "link.preset-channels"],
    words: ["channel order", "channel map", "wrong stick moves", "throttle on channel 3"],
  },
  {
    name: "reversed",
    types: [
      choice({ none: "Every stick arrives the right way round." }),
      {
        is: "list",
        of: choice({
          roll: "The roll stick arrives the wrong way round.",
          pitch: "The pitch stick arrives the wrong way round.",
          throttle: "The throttle stick arrives the wrong way round.",
          yaw: "The yaw stick arrives the wrong way round.",
        }),
        fewest: 1,
        most: 4,
      },
      { is: "order", words: sticks },
    ],
    kind: "hardware",
    what: "Sticks that the board has to turn round before it uses them.",
    why: "The board expects a pulse to rise as its stick goes to the right or forwards; some handsets send one the other way. Turn it round in one place only, handset or board: done in both, it is as wrong as before. A reversed throttle is the nasty one: a board that guards against it refuses to arm, one that does not starts at full power with the stick pulled right back.",
    hazard:
      "Never answer a refused arming by moving the throttle up: if it is reversed, idle is at the top and all below it is power. Propellers off until the direction is checked.",
    related: ["link.order", "bench.direction-checked"],
    words: ["stick inverted", "pitch the wrong way", "reverse channel"],
  },
  {
    name: "endpoints",
    types: [{ is: "range", of: quantity("us", 500, 2500, pulse, usually(800, 2250)) }],
    default: "1000 us to 2000 us",
    kind: "hardware",
    what: "Pulses that the board takes for the two ends of every stick.",
    why: "What lies between is scaled to the full throw. If the handset falls short of these ends, full stick is not full rate, and the throttle may never get low enough to arm; if it goes a little beyond, nothing is lost. Set the handset to meet the figures rather than these to meet the handset, so that the next craft works too.",
    related: ["bench.roll", "bench.throttle", "transmitter.travel", "safety.arm-throttle-limit"],
    words: ["end points", "travel", "full stick is not full rate", "channel limits"],
  },
  {
    name: "centre",
    types: [quantity("us", 800, 2200, pulse, usually(1480, 1520))],
    default: "1500 us",
    kind: "hardware",
    what: "Pulse that the board takes for a stick in its middle.",
    why: "A handset that rests at 1512 us asks for a slow, steady turn all flight long, and pilots then trim at the wrong end. Correct the handset's own calibration first; change this only when that cannot be done. A craft that drifts in still air with the sticks truly centred wants its level trimmed or its pack moved, and gets worse by this.",
    related: ["link.deadband", "bench.centres", "sensors.level-trim-roll"],
    words: ["stick centre", "mid point", "slow turn by itself", "drift"],
  },
  {
    name: "deadband",
    types: [
      quantity("us", 0, 200, "common practice, no source: more would swallow a good part of the stick", usually(0, 25)),
    ],
    kind: "taste",
    what: "How far roll and pitch may stand from the middle and still count as centred.",
    why: "Worn sticks do not come back to the same spot, and a few microseconds of deadness keep the craft still for them. As much as the stick trembles is enough. More than that gives a hole in the middle where fine corrections vanish, and the craft then answers with a small jump.",
    related: ["link.yaw-rest-zone", "bench.stick-jitter", "link.centre"],
    words: ["dead zone", "stick deadzone", "stick jitter", "craft twitches at centre"],
  },
  {
    name: "yaw-rest-zone",
    types: [
      quantity("us", 0, 200, "common practice, no source: more would swallow a good part of the stick", usually(0, 40)),
    ],
    kind: "taste",
    what: "How far yaw may stand from the middle and still count as centred.",
    why: "The yaw stick shares its gimbal with the throttle, so thumb and spring nudge it whenever the throttle moves. A little more deadness than on the other axes keeps the nose where it points through a punch, and lets a heading be held at all. With a lot of it slow pans for the camera start with a jerk.",
    related: ["link.deadband", "hold-heading", "rates.yaw"],
    words: ["yaw twitch", "nose wanders with throttle", "yaw dead zone", "rudder dead zone"],
  },
  {
    name: "resolution",
    types: [
      quantity(
        "us",
        0.001,
        100,
        "common practice, no source: coarser than a tenth of the travel is a switch, not a stick",
        usually(0.05, 10),
      ),
    ],
    kind: "hardware",
    what: "Smallest step of a pulse that the link can carry.",
    why: "Ten bits over the whole travel make steps of one microsecond, eleven make half of one. The step is what feed-forward sees as a jerk: coarse steps sound like sand in the motors when the stick moves slowly. It cannot be improved by smoothing without delay, only by a link that carries more bits; finer than the stick's own tremble, it no longer matters.",
    related: ["filters.smooth-sticks", "link.packet-rate", "bench.stick-jitter"],
    words: ["channel resolution", "bits per channel", "stick steps"],
  },
];
