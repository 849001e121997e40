/** Motors and their controllers: what they are, and how they are driven. */
import { meaning, practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { bySize } from "../value-types.ts";
import { eachMotor } from "./motors-each.ts";
import { motorControllers } from "./motors-esc.ts";
import { otherMotors } from "./motors-more.ts";

export const motors: SectionSpec = {
  name: "motors",
  what: "The motors and their controllers: what they are, how they are driven, and which one sits where.",
  why: "Everything else assumes that the right motor speeds up in the right direction. What stands here is hardware: copied from another craft it is the fastest way to a flip on take-off.",
  words: ["motor settings", "esc", "propeller direction", "speed controllers"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "poles",
      types: [
        {
          is: "integer",
          min: { at: 2, source: "by definition: magnets come in pairs" },
          max: { at: 64, source: practice },
          usual: bySize([8, 8, 28], [null, 8, 48]),
          multiple: { of: 2, source: "by definition: magnets come in pairs, and a motor of 7 pairs has 14 poles" },
        },
      ],
      kind: "hardware",
      what: "The number of magnets in one motor's bell.",
      why: "A controller counts electrical cycles, and half as many turns of the shaft as there are magnets make one cycle: the revolutions shown, and every notch that follows them, depend on this number. Count the magnets, not the coils. With 12 set for a motor of 14, every notch stands about a sixth too high and cuts clean air while the real vibration passes beside it.",
      related: ["filters.motor-notches", "motor-rpm", "motors.rpm-feedback"],
      words: ["magnets", "pole count", "wrong rpm shown", "number of magnets in the motor"],
    },
    {
      name: "kv",
      types: [
        {
          is: "quantity",
          unit: "rpm/V",
          min: { at: 10, source: practice },
          max: { at: 100000, source: practice },
          usual: bySize(
            [2.1, 3500, 45_000],
            [3.2, 1500, 16_000],
            [5.6, 1000, 8500],
            [8, 500, 3500],
            [11, 200, 2500],
            [null, 80, 1200],
          ),
        },
      ],
      kind: "hardware",
      what: "How fast the unloaded motor turns for each volt.",
      why: "It ties the pack to the propeller. A high figure on a high pack spins the tips faster than the propeller can use, and motor, controller and pack pay for it in heat and current; a low figure makes a gentle, efficient craft that runs out of push before the stick is at its end. A motor meant for six cells has about a third less of it than its twin for four.",
      hazard: "A motor wound for fewer cells, put on a full pack, can burn its windings on the first full throttle.",
      related: ["pack.cells", "frame.propeller-diameter", "motors.limit"],
      words: ["motor constant", "rpm per volt", "how fast is the motor", "motor winding"],
    },
    {
      name: "spin",
      types: [
        {
          is: "choice",
          choices: [
            { word: "props-in", what: "At the front the inner blade tips move backwards, towards the craft's body." },
            { word: "props-out", what: "At the front the inner blade tips move forwards, away from the craft's body." },
          ],
        },
      ],
      kind: "hardware",
      what: "Which way round the whole set of propellers turns.",
      why: "Either flies the same if the board is told the truth. Turning outwards throws grass and dirt away from the lens and slides along a branch rather than pulling it in; turning inwards is how older builds and many spare parts come. If board and propellers disagree, yaw works against itself and the craft spins up faster and faster the moment it leaves the ground.",
      hazard: "Look at it with the propellers off, motor by motor: no stick catches a craft whose yaw works backwards.",
      related: ["motors.motor1", "bench.motors-checked"],
      words: [
        "motor direction",
        "propeller rotation",
        "props in or out",
        "reversed propellers",
        "yaw spins on take-off",
      ],
    },
    {
      name: "idle",
      types: [
        {
          is: "quantity",
          unit: "%",
          min: { at: 0, source: meaning },
          max: { at: 40, source: practice },
          usual: bySize([2.6, 1, 18], [4.5, 1, 12], [null, 1, 10]),
        },
      ],
      kind: "hardware",
      what: "How much of the command the motors get when armed with the throttle at its low end.",
      why: "No motor turns slower than this in flight, however hard the others work. Too low, and in a dive or a sharp stop a motor loses step, stutters or stands, and the craft falls out of the turn; too high, and it will not come down, floats after a flip and skates along the ground. Small propellers with little inertia need more of it than large ones: some 4 % are common on five inches. Where `idle-speed` holds the turns themselves, less will do.",
      hazard: "Idle near what the craft hovers with lifts it off as soon as it is armed, with the stick closed.",
      related: [
        "motors.idle-speed",
        "safety.spin-when-armed",
        "grip-at-idle",
        "safety.arm-throttle-limit",
        "frame.hover-throttle",
      ],
      words: ["idle speed", "minimum throttle", "motor stops in the air", "desync"],
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
      default: "100 %",
      kind: "hardware",
      what: "The most that any motor is ever asked for.",
      why: "It lets motors made for fewer cells live on a larger pack, or keeps a craft calm for a beginner or a small hall. Unlike a limit on the throttle stick it also takes from the corrections, so set low the craft runs out of control authority in hard turns and washes about in its own wake.",
      related: ["rates.throttle-limit", "motors.kv", "pack.full-current"],
      words: ["limit of all motors", "tame the craft", "less power", "more cells on old motors"],
    },
    {
      name: "reversible",
      types: [{ is: "yes-no" }],
      kind: "hardware",
      what: "Whether the controllers can turn the motors backwards while running.",
      why: "The mode `turtle` rights a craft that lies on its back by running two motors in reverse, and needs it. By plain pulses only those can that keep standing still in the middle of the pulse. Set although it is not so, turtle spins the motors forwards instead, and grinds the propellers into the ground with full force.",
      related: ["turtle", "motors.esc-signal"],
      words: ["reverse motors", "turn over after a crash", "upside down in the grass"],
    },
    {
      name: "reverse-band",
      types: [
        {
          is: "range",
          of: {
            is: "quantity",
            unit: "us",
            min: { at: 800, source: practice },
            max: { at: 2200, source: practice },
            usual: [{ from: 1350, to: 1650, source: practice }],
          },
        },
      ],
      kind: "hardware",
      what: "The part of the throttle stick's travel, around its middle, in which the motors of a craft that flies inverted stand still.",
      why: "A craft that pushes both ways needs a place where it does neither, or the motors would chatter between forwards and backwards with every breath on the stick. Too narrow it still does; too wide there is a dead zone in the middle of every roll to inverted, and the craft drops through it.",
      needs: [
        {
          setting: "motors.reversible",
          is: "yes",
          misleads: true,
          reason: "The motors have to run backwards in flight.",
        },
      ],
      related: ["safety.arm-throttle", "link.deadband", "link.centre"],
      words: ["inverted flight", "neutral throttle", "3d", "3d mode", "3d flying", "throttle in the middle"],
    },
    ...otherMotors,
    ...motorControllers,
    ...eachMotor,
  ],
};
