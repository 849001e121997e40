/** The sensors: gyro, accelerometer, barometer, compass, and how they are mounted. */
import { meaning, practice, turns } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { otherSensors } from "./sensors-more.ts";

export const sensors: SectionSpec = {
  name: "sensors",
  what: "The sensors on the board: which there are, how they are mounted, and how often they are read.",
  why: "The controller believes its gyro without question. A mount angle that is wrong by a quarter turn makes a correction on one axis push another, and no tune can help.",
  words: ["gyro", "accelerometer settings", "board orientation", "calibration"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "gyro-rate",
      types: [
        {
          is: "quantity",
          unit: "kHz",
          min: { at: 0.05, source: practice },
          max: { at: 64, source: practice },
          usual: [{ from: 0.9, to: 9, source: practice }],
        },
      ],
      kind: "hardware",
      what: "How often the gyro delivers a new measurement.",
      why: "Fast sampling catches motor vibration cleanly instead of folding it down into false slow movement, and it shortens the wait for each correction. It costs the processor time at every sample, and some sensors are noisier at their top rate. Below a kilohertz, vibration of small motors appears as a wobble that no filter can remove.",
      related: ["sensors.loop-rate", "filters.smooth-gyro"],
      words: ["gyro frequency", "sample rate", "gyro sampling"],
    },
    {
      name: "loop-rate",
      types: [
        {
          is: "quantity",
          unit: "kHz",
          min: { at: 0.05, source: practice },
          max: { at: 64, source: practice },
          usual: [{ from: 0.45, to: 9, source: practice }],
        },
      ],
      kind: "hardware",
      what: "How often the controller works out new motor commands.",
      why: "It should divide the gyro's rate evenly, so that each round works on fresh samples. Higher rates pay off on small, twitchy craft up to the point where the processor is full: then rounds come late and unevenly, which is worse than a slower steady beat. Every round has to end with its command sent, so the motor signal must keep pace.",
      related: ["sensors.gyro-rate", "motors.esc-rate", "motors.esc-pause"],
      words: ["how fast is the loop", "control loop", "processor load", "loop time"],
    },
    {
      name: "gyro-range",
      types: [
        {
          is: "quantity",
          unit: "deg/s",
          min: { at: 100, source: practice },
          max: { at: 10000, source: practice },
          usual: [{ from: 450, to: 4000, source: practice }],
        },
      ],
      kind: "hardware",
      what: "The fastest rotation that the gyro can measure.",
      why: "Beyond it the reading stands still at its stop, and the craft does not know how fast it spins: a hard bounce off a gate then becomes a long tumble. A wide range makes each step of the reading coarser, which a racer never notices and a steady camera craft hardly does. It needs to lie well above the end of the rates.",
      related: ["rates.roll", "rates.yaw", "gains.spin-guard"],
      words: ["gyro full scale", "gyro saturation", "fastest turn that is felt"],
    },
    {
      name: "gyros-read",
      types: [
        {
          is: "list",
          of: {
            is: "integer",
            min: { at: 1, source: meaning },
            max: { at: 8, source: "common practice, no source: no board carries more gyros" },
            usual: [{ from: 1, to: 2, source: practice }],
          },
          fewest: 1,
          most: 8,
        },
      ],
      kind: "hardware",
      what: "Numbers of the gyros that are read, on a board that carries more than one; several are averaged.",
      why: "Averaging two cancels part of their own noise, at nearly double the reading time, and only if both sit on firm ground with the same orientation. One that was damaged in a crash poisons the average: a craft that began to drift or twitch without a reason is worth trying on each of them alone.",
      related: ["sensors.gyro-rate", "sensors.mount-yaw"],
      words: ["two gyros", "gyro pair", "second gyro", "which gyro"],
    },
    {
      name: "still-limit",
      types: [
        {
          is: "quantity",
          unit: "deg/s",
          min: { at: 0, source: meaning },
          max: { at: 90, source: practice },
          usual: [{ from: 0.5, to: 20, source: practice }],
        },
      ],
      kind: "hardware",
      what: "The movement allowed while the gyro finds its zero after power-up.",
      why: "At rest a gyro never reads quite nothing, and the craft learns that offset in its first second: moved meanwhile, it believes that turning is standing still and drifts for the whole flight. Strict limits can keep a craft from ever getting ready on a windy day or a rocking boat; lax ones accept a bad zero.",
      related: ["safety.arm-needs-still"],
      words: ["gyro calibration", "drifts in the air", "moved during start", "does not get ready in wind"],
    },
    {
      name: "mount-roll",
      types: [
        {
          is: "quantity",
          unit: "deg",
          min: { at: -180, source: meaning },
          max: { at: 360, source: turns },
        },
      ],
      default: "0 deg",
      kind: "hardware",
      what: "How far the board is rolled against the frame: 180 deg is upside down.",
      why: "A board screwed in upside down is at 180 deg; small figures straighten one that sits crooked on its foam. Wrong by half a turn, the craft believes it flies inverted and flips as soon as it is armed and light on its feet. Set the board's turns before trimming anything: trims cannot stand in for them.",
      hazard:
        "After any change, with the propellers off, lean the craft by hand and see that the drawn horizon leans the right way.",
      related: ["sensors.mount-pitch", "sensors.mount-yaw", "bench.mount-checked"],
      words: ["board upside down", "board rolled", "board flipped"],
    },
    {
      name: "mount-pitch",
      types: [
        {
          is: "quantity",
          unit: "deg",
          min: { at: -180, source: meaning },
          max: { at: 360, source: turns },
        },
      ],
      default: "0 deg",
      kind: "hardware",
      what: "How far the board is pitched against the frame, about the line from left to right.",
      why: "Ducted and wedge-shaped frames tilt the board forwards or back to save height. Leaving it out mixes yaw into roll, so that the craft banks in every flat turn, and level flight settles at that same angle. Turns are applied in the order roll, pitch, yaw: with two of them large, get the order right by looking at the horizon, not by reasoning.",
      related: ["sensors.mount-roll", "sensors.level-trim-pitch", "bench.mount-checked"],
      words: ["tilted board", "board pitched", "board on a wedge"],
    },
    {
      name: "mount-yaw",
      types: [
        {
          is: "quantity",
          unit: "deg",
          min: { at: -180, source: meaning },
          max: { at: 360, source: turns },
        },
      ],
      default: "0 deg",
      kind: "hardware",
      what: "How far the board is turned about the craft's upright axis, clockwise from above.",
      why: "It frees the builder to point the plug to wherever there is room. At 90 deg off, a push on the nose is answered by a roll, and the craft somersaults on take-off; at 45 deg off it flies in odd spirals and seems badly tuned. Diagonal boards are meant to be off by 45.",
      related: ["sensors.mount-roll", "sensors.compass-yaw", "bench.mount-checked"],
      words: ["board rotated", "arrow does not point forward", "board turned", "usb to the side"],
    },
    {
      name: "accelerometer",
      types: [{ is: "yes-no" }],
      kind: "hardware",
      what: "Whether the board has an accelerometer that is switched on.",
      why: "It tells the craft which way is down. Level flight, the arming tilt check, the horizon line and coming home need it; flying by rates does not, and a pilot who never levels can switch it off and save processor time. On a frame full of vibration it lies, and level mode slowly leans over.",
      related: ["level", "level-blend", "level-now", "safety.arm-tilt-limit", "horizon-line"],
      words: ["acc", "level sensor", "gravity sensor", "self level does not work"],
    },
    {
      name: "barometer",
      types: [{ is: "yes-no" }],
      kind: "hardware",
      what: "Whether the craft feels the air's pressure, and from it its height.",
      why: "It gives height to within a metre or so as long as it breathes calm air. Light on the open sensor or propeller wash over it moves the reading by metres, and weather drifts it by some metres in an hour; a scrap of open foam over it cures the first two. Without one, height comes from satellites only and jumps about.",
      related: ["hold-height", "height", "climb", "osd.height-alert"],
      words: ["pressure sensor", "altitude sensor", "height jumps"],
    },
    {
      name: "compass",
      types: [{ is: "yes-no" }],
      kind: "hardware",
      what: "Whether a compass is fitted and believed.",
      why: "It knows the heading at a standstill, which satellites can tell only while moving. On a small craft it sits centimetres from pack leads that carry tens of amperes, and their field turns the needle with the throttle: an untrue compass makes a craft that should hold its place circle ever wider. No compass is better than a bad one.",
      related: ["heading", "return-home", "hold-place", "sensors.declination"],
      words: ["magnetometer", "mag", "compass calibration", "heading sensor", "circles in position hold"],
    },
    ...otherSensors,
  ],
};
