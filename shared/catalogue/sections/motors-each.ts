/** `motor1` … `motor8`: settings of one motor, which override those for all motors. */
import { meaning, practice } from "../sources.ts";
import type { FieldsType, SettingSpec } from "../specs.ts";

/** The same four facts for each motor. */
const facts: FieldsType = {
  is: "fields",
  fields: [
    {
      name: "place",
      types: [
        {
          is: "choice",
          choices: [
            { word: "rear-left", what: "On the left rear arm, seen from above." },
            { word: "front-left", what: "On the left front arm, seen from above." },
            { word: "front-right", what: "On the right front arm, seen from above." },
            { word: "rear-right", what: "On the right rear arm, seen from above." },
            { word: "rear", what: "On an arm that points straight backwards." },
            { word: "left", what: "On an arm that points straight to the left." },
            { word: "front", what: "On an arm that points straight forwards." },
            { word: "right", what: "On an arm that points straight to the right." },
            { word: "left-rear", what: "Left of the rear left arm, on a frame with eight arms." },
            { word: "left-front", what: "Left of the front left arm, on a frame with eight arms." },
            { word: "right-front", what: "Right of the front right arm, on a frame with eight arms." },
            { word: "right-rear", what: "Right of the rear right arm, on a frame with eight arms." },
            { word: "under-rear-left", what: "Below the left rear arm, with another motor above it." },
            { word: "under-front-left", what: "Below the left front arm, with another motor above it." },
            { word: "under-front-right", what: "Below the right front arm, with another motor above it." },
            { word: "under-rear-right", what: "Below the right rear arm, with another motor above it." },
            { word: "under-rear", what: "Below an arm that points straight backwards, with another motor above it." },
            { word: "under-left", what: "Below an arm that points straight to the left, with another motor above it." },
            { word: "under-front", what: "Below an arm that points straight forwards, with another motor above it." },
            {
              word: "under-right",
              what: "Below an arm that points straight to the right, with another motor above it.",
            },
          ],
        },
      ],
      what: "Where the motor sits on the frame, as the pilot behind the craft sees it.",
    },
    {
      name: "direction",
      types: [
        {
          is: "choice",
          choices: [
            { word: "clockwise", what: "The way a watch's hands go, looking down on the craft." },
            { word: "anticlockwise", what: "Against the way a watch's hands go, looking down on the craft." },
          ],
        },
      ],
      what: "Which way the propeller turns, looking down on the craft.",
    },
    {
      name: "output",
      types: [
        {
          is: "integer",
          min: { at: 1, source: "by definition: outputs are counted from one" },
          max: { at: 16, source: practice },
          usual: [{ from: 1, to: 12, source: practice }],
        },
      ],
      what: "The board's output, or pad, that this motor's controller is wired to.",
    },
    {
      name: "limit",
      types: [
        {
          is: "quantity",
          unit: "%",
          min: { at: 1, source: meaning },
          max: { at: 100, source: meaning },
          usual: [{ from: 25, to: 100, source: practice }],
        },
      ],
      what: "The most that this one motor is asked for, in place of the limit of them all.",
    },
  ],
};

export const eachMotor: readonly SettingSpec[] = [
  {
    name: "motor1",
    types: [facts],
    kind: "hardware",
    what: "The first motor: where it sits, which way it turns, the output it is wired to, and a limit of its own.",
    why: "Numbers are only names, and boards disagree on which corner is number one. Here one counts from the rear left, clockwise as seen from above, and lower motors after the upper ones; but it is the place written beside it that can be checked by eye. Spin each motor alone with the propellers off and note the corner that answers. A guess shows itself in the first second of the first flight, upside down.",
    hazard: "Take the propellers off before turning a single motor from the bench.",
    related: ["bench.motors-checked", "motors.spin"],
    words: ["motor order", "motor numbering", "which motor is number one"],
  },
  {
    name: "motor2",
    types: [facts],
    kind: "hardware",
    what: "Place, direction, output and limit of the second motor, where they differ from what is set for all motors.",
    why: "When a controller with four outputs is mounted turned by a quarter, to bring its pack lead to the side where it is wanted, all the motors change corners at once: giving each its output here undoes that without a soldering iron. Two motors swapped, side by side or along a diagonal, end alike: what should correct one axis pushes another, and the craft goes over as it leaves the ground.",
    related: ["motors.motor1", "sensors.mount-yaw"],
    words: ["remap motors", "swap motor outputs", "esc turned by 90 degrees"],
  },
  {
    name: "motor3",
    types: [facts],
    kind: "hardware",
    what: "The third motor's corner, turning and output, and the most that it alone may be asked for.",
    why: "One motor of another make among three, stronger or wound for fewer cells, can be held back by a limit of its own. The others then work around it: the craft yaws when pushed hard and has less in hand in every turn. It is no cure for a notchy bearing or a bell out of true, which seize without a warning: change that motor before it flies.",
    related: ["motors.limit", "filters.motor-notches"],
    words: ["damaged motor", "one motor weaker", "one motor replaced", "limit a single motor"],
  },
  {
    name: "motor4",
    types: [facts],
    kind: "hardware",
    what: "On most craft the last motor: its corner, its turning, its output and its limit.",
    why: "Neighbouring motors must turn against each other so that their drag cancels. One that turns the wrong way, with the propeller that fits that turning, still lifts, and the craft rises spinning, whatever the yaw stick says; with the propeller that does not fit, it pushes down, and the corner drops.",
    related: ["motors.spin", "gains.yaw"],
    words: ["motor turns the wrong way", "direction of one motor", "craft spins slowly"],
  },
  {
    name: "motor5",
    types: [facts],
    kind: "hardware",
    what: "The fifth motor of a frame that has six or eight, with its place, turning, output and limit.",
    why: "On six arms of which one points to each side, that middle pair rolls and does not pitch, so a fifth motor entered in the wrong place makes one axis feel fine and the other refuse. On four double-decked arms it is the first of the lower ones, which works in the wash of the motor above and gives less for the same command.",
    needs: [{ section: "frame", reason: "Four motors are taken for granted; a fifth is counted under frame." }],
    related: ["frame.motors", "motors.motor6"],
    words: ["hexacopter motors", "six motors", "middle arm"],
  },
  {
    name: "motor6",
    types: [facts],
    kind: "hardware",
    what: "Where the sixth motor sits, how it turns and what drives it, on a frame with six or eight.",
    why: "Six motors are often chosen to come home on five. Where neighbours turn against each other, as on most, the loss of one takes yaw with it: a craft that hovers well below half throttle may stay up, spinning, if its board gives up yaw for the sake of level. Few have been tried that way. Count on a less hard landing, not on a return, and stay clear of people as with four.",
    needs: [{ section: "frame", reason: "That there are six motors is set under frame." }],
    related: ["frame.motors", "motors.motor5", "frame.mass"],
    words: ["motor failure", "fly with five motors", "redundancy"],
  },
  {
    name: "motor7",
    types: [facts],
    kind: "hardware",
    what: "The seventh motor of an eight-motor frame: its place, its turning and above all its output.",
    why: "Past the fourth output many boards reach for spare pads that share a timer with lights, a servo or a serial port. A motor wired to such a pad may jump whenever that other thing changes. State the output that really drives it, and with the propellers off switch the lights and move the servo while it idles.",
    needs: [{ section: "frame", reason: "Only a frame with eight motors has a seventh." }],
    related: ["frame.motors", "lights.output", "camera.servo-output"],
    words: ["octocopter motors", "extra motor outputs", "output conflict"],
  },
  {
    name: "motor8",
    types: [facts],
    kind: "hardware",
    what: "The last of eight motors: beside its place, which way it turns against its partner.",
    why: "With upper and lower motors on each arm, the two of a pair turn against each other, and the lower one wants a little more propeller pitch to bite into air that is already moving. Turning a pair the same way still flies, but doubles the twist on that arm, and yaw becomes weak in one direction.",
    needs: [
      { section: "frame", reason: "Eight motors have to be counted under frame before the eighth means anything." },
    ],
    related: ["frame.motors", "frame.propeller-pitch", "motors.spin"],
    words: ["double-decked arms", "coaxial motors", "lower motor"],
  },
];
