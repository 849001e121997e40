/** The gains of the controller. They are on a scale where 1 is a common value. */
import { meaning, practice } from "../sources.ts";
import type { FieldSpec, SectionSpec } from "../specs.ts";
import { steeringGains } from "./gains-feel.ts";
import { levelGains } from "./gains-level.ts";
import { motorGains } from "./gains-motors.ts";

const RATIO = "a gain here is a ratio to what is usual on the board, so 1 is the middle and 1.5 half as much again.";

/** One gain of an axis: dimensionless, 1 being common for a craft of its size. */
function gain(name: string, what: string, from: number, to: number): FieldSpec {
  return {
    name,
    types: [
      {
        is: "quantity",
        unit: "",
        min: { at: 0, source: meaning },
        max: { at: 20, source: practice },
        usual: [{ from, to, source: practice }],
        ...(name !== "p" && { off: 0 }),
        scale: RATIO,
      },
    ],
    what,
  };
}

const feed = gain("feed", "How much the stick's own movement pushes directly, before any error has built up.", 0.12, 4);

export const gains: SectionSpec = {
  name: "gains",
  what: "The tune: how strongly the craft corrects what it does against what the sticks ask for.",
  why: "A good tune is not noticed. These figures belong to one frame, with its motors, propellers and mass: on another craft they are at best a beginning. They are on a scale of their own, where 1 is a common middle for a craft of that size.",
  words: ["pid", "pids", "tune", "pid gains", "oscillation", "how tight it flies"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "roll",
      types: [
        {
          is: "fields",
          fields: [
            gain("p", "How hard it pushes against the error of this moment.", 0.15, 4),
            gain("i", "How steadily it works on an error that stays.", 0.15, 5),
            gain("d", "How much it damps: it pushes against the change itself.", 0.12, 3),
            feed,
          ],
        },
      ],
      kind: "hardware",
      what: "How hard the craft works to roll as asked: its gains about the line from nose to tail.",
      why: "Raise p until a quick roll stops crisply; past that it trembles, fast and audible. d takes the bounce off the stop, and multiplies noise: too much of it cooks the motors before one can hear it. i holds the angle against wind and an uneven load; too little and the craft creeps away, too much and it sways slowly, like a boat. Roll has the least inertia, so it needs the least of everything.",
      hazard:
        "Change one figure at a time, by a tenth or two of itself. More d is paid for in heat: keep the first flight with it to half a minute, then touch each motor with the pack out.",
      related: ["gains.pitch", "gains.overall", "filters.smooth-d", "rates.roll"],
      words: ["roll pid", "bounces after a roll", "roll oscillates", "roll feels loose"],
    },
    {
      name: "pitch",
      types: [
        {
          is: "fields",
          fields: [
            gain("p", "How hard it pushes against the error of this moment.", 0.15, 4),
            gain("i", "How steadily it works on an error that stays.", 0.15, 5),
            gain("d", "How much it damps: it pushes against the change itself.", 0.12, 3),
            feed,
          ],
        },
      ],
      kind: "hardware",
      what: "How hard it works to raise and lower its nose as asked: its gains about the line from side to side.",
      why: "Pack and camera lie stretched along the craft, so pitch is slower than roll and takes somewhat more of each gain for the same feel. A nose that bobs when you stop a flip asks for damping; one that rises when the throttle is opened asks for more i, or for a pack that sits further forward. A heavy action camera added on top makes yesterday's figures too small.",
      hazard: "A craft on the edge of shaking in pitch may go over it when it flies forwards fast: leave a margin.",
      related: ["gains.roll", "gains.i-throttle-lift", "frame.mass", "rates.pitch"],
      words: ["pitch pid", "nose bobs", "nose rises with throttle", "pitch oscillates"],
    },
    {
      name: "yaw",
      types: [
        {
          is: "fields",
          fields: [
            gain("p", "How hard it pushes against the error of this moment.", 0.15, 4),
            gain("i", "How steadily it works on an error that stays.", 0.15, 5),
            gain("d", "How much it damps; most craft need none, the propellers' own drag does it.", 0.04, 3),
            feed,
          ],
        },
      ],
      kind: "hardware",
      what: "How hard it works to point its nose as asked: its gains about the upright line.",
      why: "Yaw turns the craft by the twist of its propellers, the weakest force it has, and high gains only spend motor power there that roll and pitch could use. Too much p gives a fast grind in the motor sound and a tail that twitches; too little i lets the nose wander in a gust or on a burst of throttle, and the line through a gate with it.",
      related: ["filters.smooth-yaw", "motors.spin", "rates.yaw"],
      words: ["yaw pid", "tail wags", "nose wanders", "yaw is weak"],
    },
    {
      name: "overall",
      types: [
        {
          is: "quantity",
          unit: "",
          min: { at: 0, source: meaning },
          max: { at: 10, source: practice },
          usual: [{ from: 0.4, to: 2.5, source: practice }],
        },
      ],
      default: "1",
      kind: "hardware",
      what: "A factor on all gains of all axes at once.",
      why: "The balance between gains belongs to the frame, the level of them to how much push a motor has for its load: a heavier pack, other propellers or a cell more is mostly a matter of this one number. Put on a dial it is the quickest way to find where a new craft begins to shake. Over that point it shakes on all axes together; far under it staggers and drifts.",
      hazard:
        "On a dial, start from the low end and turn in small steps, high over open ground: past the edge the shaking can grow faster than a thumb turns back.",
      related: ["gains.roll", "gains.pitch", "gains.yaw"],
      words: ["multiply all gains", "all gains at once", "scale the tune"],
    },
    ...levelGains,
    ...steeringGains,
    ...motorGains,
  ],
};

export const gainsSecond: SectionSpec = {
  name: "gains-second",
  what: "A second tune, used while the mode `gains-second` is on; what it does not set stays as in the first.",
  why: "One craft may fly with and without a heavy camera, or on two kinds of propellers, and each load wants gains of its own. Change over on the ground: the tune for the heavy load can shake the light craft.",
  words: ["second set of gains", "other tune", "tune for a heavy camera", "switch tunes"],
  holds: "settings",
  in: ["craft", "layer"],
  like: "gains",
  settings: [],
};
