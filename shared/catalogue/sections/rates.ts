/** What the sticks command: turn rates of the three axes, and the throttle. */
import { meaning } from "../sources.ts";
import type { FieldsType, SectionSpec, UsualBand } from "../specs.ts";
import { bySize, quantity, quotedText, usually } from "../value-types.ts";
import { throttleRates } from "./rates-throttle.ts";

const gyroEnd = "from memory: common gyros end at 2000 deg/s, some at 4000 deg/s";

const TURN =
  "a rate here is how far the craft turns in a second, and 360 deg/s is once around; some 150 in the middle of the stick and 650 at its end fly a five-inch.";

/**
 * One axis of rates. For a stick x from -1 to 1 it gives the turn rate
 * slope·x + (end - slope)·sign(x)·|x|^bend, the cubic of common radio-control practice for bend 3.
 */
function axis(slopes: UsualBand[], ends: UsualBand[]): FieldsType {
  return {
    is: "fields",
    fields: [
      {
        name: "slope",
        types: [{ ...quantity("deg/s", 0, 2000, gyroEnd, slopes), scale: TURN }],
        what: "How steep the curve is at the middle: the rate that full stick would give if it went straight on.",
      },
      {
        name: "end",
        types: [{ ...quantity("deg/s", 10, 4000, gyroEnd, ends), scale: TURN }],
        what: "The rate that full stick gives.",
      },
      {
        name: "bend",
        types: [
          quantity("", 1, 10, "common practice, no source: beyond 10 the curve is a step at the end", usually(1, 6)),
        ],
        what: "How late the curve turns from the one to the other: 3 is the usual cubic, more keeps the middle calm for longer.",
        default: "3",
      },
    ],
  };
}

export const rates: SectionSpec = {
  name: "rates",
  what: "How fast the craft turns for a given stick, and how the throttle stick is read.",
  why: "They are the pilot's handwriting, the part of a configuration that one carries from craft to craft so that the thumbs need not learn anew. Where no mode levels or holds the craft, the sticks ask for these rates and nothing else. What the craft can follow is up to the tune and the motors; rates only ask.",
  words: [
    "rates",
    "acro",
    "acro mode",
    "expo",
    "stick sensitivity",
    "how fast it rolls",
    "stick curve",
    "sticks too sensitive",
  ],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "roll",
      types: [axis(bySize([8, 20, 800], [null, 10, 400]), bySize([8, 120, 1400], [null, 50, 900]))],
      kind: "taste",
      what: "Turn rate about the long axis for the roll stick.",
      why: "The slope decides how calm a straight line is, the end how long a flip takes: at 720 deg/s half a second. Much slope makes every twitch of the thumb a twitch of the picture; very little, with a high end, is sleepy in the middle and then bites in the last quarter of the travel. Learners are well served with an end of 400.",
      related: ["rates.pitch", "rates.top-rate", "gains.roll", "link.deadband"],
      words: ["roll rate", "rolls too fast", "roll expo", "flip speed"],
    },
    {
      name: "pitch",
      types: [axis(bySize([8, 20, 800], [null, 10, 400]), bySize([8, 120, 1400], [null, 50, 900]))],
      kind: "taste",
      what: "Turn rate about the cross axis for the pitch stick.",
      why: "Most pilots fly pitch like roll, or a little lower, because the thumb moves better to the side than up and down. Low, and a dive cannot be pulled out in time; high, and the nose nods through every straight, since the thumb that holds the angle is never quite still. A curve other than roll's makes diagonal turns feel crooked.",
      related: ["rates.roll", "gains.pitch", "camera.uptilt"],
      words: ["pitch rate", "nose too nervous", "pitch expo", "loop speed"],
    },
    {
      name: "yaw",
      types: [axis(bySize([8, 20, 800], [null, 8, 400]), bySize([8, 60, 1200], [null, 30, 700]))],
      kind: "taste",
      what: "Turn rate about the upright axis for the yaw stick.",
      why: "On most handsets the thumb that yaws also holds the throttle, so a yaw that reacts sharply at the middle turns the craft with every burst of power. Smooth picture work likes a low end, below 200 deg/s; racing asks for enough to bring the nose round in a hairpin. Beyond what the propellers' twist can do, full stick only drives two motors to their limit, and the craft heaves up or down instead of turning faster.",
      related: ["rates.roll", "rates.yaw-about", "gains.yaw"],
      words: ["yaw rate", "spins too slowly", "yaw expo", "turn with the left stick"],
    },
    {
      name: "yaw-about",
      types: [
        {
          is: "choice",
          choices: [
            { word: "craft", what: "Roll and yaw turn about the axes of the craft's own body." },
            { word: "camera", what: "Roll and yaw turn about the axes of the camera, which looks up by its uptilt." },
          ],
        },
      ],
      kind: "taste",
      what: "Whether roll and yaw are mixed so that they turn about the camera's axes.",
      why: "With the lens tilted far up, pure roll swings the picture sideways and pure yaw rolls it; mixing makes the picture turn about its middle, as it would in an aeroplane. Some learn turns faster that way. Whoever has already learnt to blend the two with both thumbs now blends twice, and in a hover the mixed craft feels strange to anyone who watches it from outside.",
      related: ["camera.uptilt", "camera-line", "rates.yaw", "rates.roll"],
      words: ["mix for the camera's tilt", "turn about the camera", "coordinated turns"],
    },
    {
      name: "top-rate",
      types: [quantity("deg/s", 50, 4000, gyroEnd, bySize([8, 200, 2000], [null, 60, 1500]))],
      kind: "hardware",
      what: "The turn rate that is never asked for, whatever the sticks, dials and modes say.",
      why: "A gyro that is turned faster than its range reads its end and no more, and the craft then fights a turn that it cannot see. The cap keeps every curve and every dial below that. Set lower than the curves' own ends it flattens them without saying so, and one looks for the lost speed in the tune.",
      hazard: "A craft spun beyond its gyro's range may not recover before it meets the ground.",
      related: ["sensors.gyro-range", "rates.roll", "gains.spin-guard"],
      words: ["maximum rate", "rate limit", "cap on rotation"],
    },
    {
      name: "note",
      types: [quotedText(60)],
      kind: "taste",
      what: "A short description of this set, for lists and for the second page of the display.",
      why: "Two sets that differ by a fifth look alike on paper after a month; race, cinema or learner in three words saves one flight of finding out. It changes nothing in the air, and a description left standing when the figures were changed misleads whoever borrows the craft.",
      related: ["sets-in-use", "board.note"],
      words: ["name of the rates", "label for the rate set", "name of the set"],
    },
    {
      name: "yaw-with-roll",
      types: [quantity("%", 0, 100, meaning, usually(0, 60))],
      kind: "taste",
      what: "How much yaw is added by the roll stick, for flying turns with one thumb.",
      why: "In slow, level cruising the nose then follows each bank, as passengers expect, and the other thumb has the throttle to itself. In acrobatics it spoils every roll, as the craft corkscrews; more than a third already makes flying sideways along an object, to film it, a matter of holding the other stick against it.",
      related: ["rates.yaw", "level", "rates.yaw-about"],
      words: ["roll to yaw mix", "automatic turn coordination", "one thumb turns"],
    },
    {
      name: "lean-limit",
      types: [quantity("deg", 10, 90, "by definition: beyond 90 deg a craft is on its way over", usually(20, 80))],
      kind: "taste",
      what: "How far the craft may lean, at most, while the mode `lean-limit` is on and the sticks ask for rates.",
      why: "It lets a learner feel rates, where nothing levels, without ever ending upside down: at this lean the turn simply stops, and stays until the stick takes it back. Wide, it catches only the beginning of a flip; narrow, there is too little lean to fly against a breeze. It is a railing and not a floor: leaning that far, the craft still goes where it leans.",
      needs: [
        { mode: "lean-limit", reason: "The lean is limited in that mode." },
        {
          setting: "sensors.accelerometer",
          is: "yes",
          misleads: true,
          reason: "A lean can only be limited where it is measured.",
        },
      ],
      related: ["lean-limit", "gains.level-tilt", "level", "rates.roll"],
      words: ["learn to fly rates", "limit the angle in rates", "no flips by accident", "training angle"],
    },
    ...throttleRates,
  ],
};

export const ratesSecond: SectionSpec = {
  name: "rates-second",
  what: "A second set of rates, used while the mode `rates-second` is on; what it does not set stays as in the first.",
  why: "A calm set for filming or for a guest, and one's own for the rest, on one switch. Changed in the middle of a turn the craft answers at once with the other curve, so switch while flying straight.",
  words: ["dual rates", "second set of rates", "low rates for beginners", "switch rates"],
  holds: "settings",
  in: ["craft", "layer"],
  like: "rates",
  settings: [],
};
