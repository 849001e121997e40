/** An idle that is held by speed, and the servo that turns the rear motor of a craft with three. */
import { practice } from "../sources.ts";
import type { Need, SettingSpec } from "../specs.ts";
import { bySize, choice, integer, quantity, usually, yesNo } from "../value-types.ts";

const servo: Need[] = [
  { setting: "frame.arm-layout", is: "tri", reason: "Only the rear motor of a craft with three is tilted by a servo." },
];

export const otherMotors: readonly SettingSpec[] = [
  {
    name: "idle-speed",
    types: [
      quantity(
        "Hz",
        1,
        2000,
        practice,
        bySize([2.2, 40, 350], [3.2, 30, 220], [4.5, 20, 160], [6, 15, 110], [8, 10, 80], [11, 6, 60]),
      ),
      choice({ off: "No speed is held: the motors idle at their share of the command." }),
    ],
    kind: "hardware",
    what: "Turns a second below which no motor is let fall, or `off`; 60 turns a second are 60 Hz and 3600 rpm.",
    why: "A share of the command turns a motor slower as the pack empties, or while the air pushes its propeller backwards in a dive; a speed that is held does not. So it may lie lower without a motor losing step, and the craft drops and stops more freely. Too low, a motor still stalls in a hard stop; too high, the craft floats and will not settle. Some fifty turns suit five inches, smaller propellers want more and larger ones less.",
    hazard: "A motor that is helped over a blockage draws current and heats: disarm at once when a propeller is held.",
    needs: [
      {
        setting: "motors.rpm-feedback",
        is: "yes",
        misleads: true,
        reason: "A speed can only be held where each motor reports its own.",
      },
      {
        setting: "motors.poles",
        reason: "Reported speeds are electrical turns, which the magnets make into real ones.",
      },
    ],
    related: ["motors.idle", "motors.rpm-feedback", "motors.poles", "filters.motor-notches"],
    words: ["governed idle", "idle by speed", "lowest rpm", "minimum revolutions", "idle that adjusts itself"],
  },
  {
    name: "yaw-servo-output",
    types: [integer(1, 16, "common practice, no source: no small board has more outputs", usually(1, 10))],
    kind: "hardware",
    what: "The board's output to which the yaw servo of a craft with three motors is wired.",
    why: "The servo leans the rear motor to one side, and with it the craft holds its nose and turns. On an output that shares its timer with a motor it gets pulses at the motor's rhythm, of which an analogue servo burns; on one that a motor has already, one of the two stands still. Note the output that really moves it, and look again after a board swap.",
    hazard: "Propellers off while outputs are tried: the next one over is a motor.",
    needs: servo,
    related: ["motors.yaw-servo-pulses", "frame.arm-layout", "motors.motor3"],
    words: ["tail servo", "tricopter yaw", "where the tail servo is plugged in"],
  },
  {
    name: "yaw-servo-pulses",
    types: [
      {
        is: "range",
        of: quantity("us", 400, 2600, "common practice, no source: no servo takes more", usually(700, 2300)),
      },
    ],
    kind: "hardware",
    what: "The shortest and the longest pulse that the yaw servo is given.",
    why: "They stop the tilting motor short of the frame. Find them without the propeller, step by step: wider than the hinge allows, the servo pushes against its stop, hums and burns, and the nose is no longer held; too narrow, yaw is lazy and gives out in a gust. Some thirty degrees to either side are enough.",
    hazard: "A servo that stalls in flight leaves the craft spinning: try both ends by hand with the propellers off.",
    needs: servo,
    related: ["motors.yaw-servo-middle", "motors.yaw-servo-output"],
    words: ["tail servo limits", "servo end points", "tail throw"],
  },
  {
    name: "yaw-servo-middle",
    types: [
      quantity("us", 800, 2200, "common practice, no source: the middle of a servo's pulses", usually(1300, 1700)),
    ],
    kind: "hardware",
    what: "The pulse at which the tilting motor holds the nose still in a hover.",
    why: "It is seldom upright: three propellers never cancel each other's drag, so the rear motor leans a little all the time. Set by eye it is near enough to fly; then correct it until the nose stands without a stick. Far off, i has to hold the rest, less is left of the throw to one side, and the craft turns with every burst of throttle.",
    needs: servo,
    related: ["motors.yaw-servo-pulses", "gains.yaw"],
    words: ["tail servo centre", "tail trim", "nose drifts to one side"],
  },
  {
    name: "yaw-servo-reversed",
    types: [yesNo],
    kind: "hardware",
    what: "Whether the yaw servo has to be turned the other way from what its pulses say.",
    why: "Servos differ, and a servo mounted on the other side turns the hinge the other way. With the nose swung to the right by hand, the rear motor must lean so that its push brings the nose back. The wrong way round, the gyro's own correction feeds the turn: the craft spins up as it lifts, and no stick catches it.",
    hazard:
      "Look at it with the propellers off, craft in the hand: a yaw that works backwards is found otherwise in the first second.",
    needs: servo,
    related: ["motors.spin", "bench.motors-checked", "motors.yaw-servo-middle"],
    words: ["reverse the tail servo", "tail turns the wrong way", "tri spins on take-off"],
  },
  {
    name: "yaw-servo-rate",
    types: [
      quantity("Hz", 20, 560, "common practice, no source: no servo takes more pulses a second", usually(40, 400)),
    ],
    kind: "hardware",
    what: "How often each second the yaw servo gets its pulse.",
    why: "Every servo takes fifty, and at fifty yaw answers late and wags. Digital ones take some three hundred and hold the nose much better. Given that rate, an analogue servo grows hot and weak, and it fails within a pack or two.",
    needs: servo,
    related: ["motors.yaw-servo-output", "camera.servo-rate", "gains.yaw"],
    words: ["tail servo speed", "digital servo", "tail wags"],
  },
];
