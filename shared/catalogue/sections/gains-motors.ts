/** Gains that depend on thrust, throttle and the pack, and the protection after a crash. */
import { meaning, practice } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";

export const motorGains: readonly SettingSpec[] = [
  {
    name: "throttle-fade",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 0, to: 90, source: practice }],
      },
    ],
    kind: "hardware",
    what: "By how much p and d have shrunk once the throttle is fully open.",
    why: "Propellers bite harder the faster they turn, so gains that are right at hover are too much in a full-throttle climb, heard as a buzz that was not there before. Fade until the buzz is gone. Faded too far, the craft goes slack exactly when it flies fastest, and it wobbles through the gate it meant to hit.",
    related: ["gains.throttle-fade-from", "gains.thrust-curve"],
    words: ["gains shrink with throttle", "oscillates at full throttle", "buzz at high throttle"],
  },
  {
    name: "throttle-fade-from",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 20, to: 95, source: practice }],
      },
    ],
    kind: "hardware",
    what: "The throttle at which the gains begin to fade.",
    why: "Find it by opening the throttle slowly in a climb and noting where the buzz starts; begin a little below. Beginning at hover takes crispness from ordinary flying; beginning close to the end leaves a stretch that still shakes, and a sudden change behind it.",
    needs: [{ setting: "gains.throttle-fade", reason: "It says by how much the gains fade." }],
    related: ["gains.throttle-fade"],
    words: ["where fading begins", "where the gains start to drop"],
  },
  {
    name: "thrust-curve",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 150, source: practice },
        usual: [{ from: 0, to: 100, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How much the motors' commands are bent to make thrust follow them evenly.",
    why: "Thrust grows with about the square of the revolutions, so a step in the command gives little push when slow and much when fast. Straightening that makes one set of gains fit the whole throttle, most of all on whoops and other light craft that idle low. It multiplies what happens near idle: too much, and the craft trembles on the way down.",
    related: ["gains.throttle-fade", "motors.idle"],
    words: ["even thrust over the throttle", "loose at low throttle", "uneven over the throttle"],
  },
  {
    name: "throttle-kick",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 300, source: practice },
        usual: [{ from: 0, to: 100, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far a quick throttle movement is exaggerated for an instant: 100 % is twice the movement.",
    why: "Motors need some hundredths of a second to spin up; asking for more than is wanted, briefly, hides that and makes the throttle feel attached to the craft. Strong, it makes height hard to hold because every small touch bumps, and it draws the sharpest current peaks a pack will ever see.",
    related: ["filters.smooth-throttle", "gains.i-throttle-lift", "pack.full-current"],
    words: ["throttle response", "throttle feels lazy", "more punch"],
  },
  {
    name: "sag-makeup",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 150, source: practice },
        usual: [{ from: 0, to: 100, source: practice }],
      },
    ],
    kind: "taste",
    what: "How much of the pack's falling volts is made good in the motor commands.",
    why: "A full pack makes a craft wild and an empty one makes it soft; evened out, it flies alike from first to last, and a tune found at mid pack holds. The price is honesty: the feel no longer tells that the pack is going, so the volts on the display must. And near the end there is nothing left to make up with.",
    hazard: "The craft feels strong until the pack collapses: land by the volts, not by the feel.",
    needs: [{ section: "pack", reason: "It is worked out from the pack's volts and cells." }],
    related: ["pack-volts", "pack.warn-at", "pack.land-at", "osd.alert-on"],
    words: ["voltage compensation", "same feel on an empty pack", "battery sag"],
  },
  {
    name: "axis-limit",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 5, source: practice },
        max: { at: 100, source: meaning },
        usual: [{ from: 25, to: 100, source: practice }],
      },
    ],
    kind: "hardware",
    what: "The most of the motors' range that the correction of one axis may claim.",
    why: "When everything is asked for at once, one axis must not starve the others: a hard yaw that takes all the range lets the craft fall out of its bank. Set low, recoveries from a tumble are slow; left open, a strong tune can drive a motor from end to end many times a second, until its winding or its controller burns.",
    related: ["gains.i-limit", "motors.limit"],
    words: ["limit of the correction", "control authority", "yaw eats the thrust"],
  },
  {
    name: "spin-guard",
    types: [
      {
        is: "quantity",
        unit: "deg/s",
        min: { at: 100, source: practice },
        max: { at: 10000, source: practice },
        usual: [
          {
            from: 450,
            to: 2000,
            source: "common practice, no source: few gyros on small boards measure more than 2000 deg/s",
          },
        ],
      },
      {
        is: "choice",
        choices: [{ word: "off", what: "A runaway spin is left to the pilot." }],
      },
    ],
    kind: "safety",
    what: "The yaw rate above which the craft drops everything else and stops the spin.",
    why: "A knock on one arm can set off a spin so fast that gyro and pilot lose track, and the craft climbs away whirling. Stopping yaw first and steering afterwards brings most of them back. It has to lie well above the end of the yaw rates, or a deliberate pirouette is cut short; at or beyond what the gyro can measure it never acts.",
    related: ["rates.yaw", "sensors.gyro-range", "gains.yaw"],
    words: ["stop a flat spin", "uncontrolled spin", "climbs away spinning"],
  },
  {
    name: "after-crash",
    types: [
      {
        is: "choice",
        choices: [
          { word: "go-on", what: "The craft goes on correcting, on its back in the grass too." },
          { word: "ease-in", what: "It stops the tumble first and lets the gains back in little by little." },
          { word: "disarm", what: "It disarms when it is knocked about and cannot answer." },
        ],
      },
    ],
    kind: "safety",
    what: "What the craft does of itself when it notices that it has hit something.",
    why: "Motors that go on fighting inside a bush burn out in seconds, and they are close to the hands that reach in. Disarming saves motors, fingers and packs. But the sign it looks for, a large error with the motors at their stop, also appears when a racer clips a gate and could have flown on: above water, ending the flight is the one thing not wanted.",
    hazard:
      "Whatever stands here, disarm before anyone reaches for the craft: one that lies still may be waiting to spin up.",
    related: ["arm", "safety.idle-disarm-after", "turtle"],
    words: ["crash detection", "motors keep spinning after a crash", "what it does after a crash", "tumbles"],
  },
  {
    name: "grip-from",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 0, to: 60, source: practice }],
      },
    ],
    kind: "taste",
    what: "The throttle that must have been reached once since arming before full control is kept at idle.",
    why: "Control at closed throttle is what lets a craft turn over in a dive, and what makes it hop and wind itself up while still on the ground. Waiting for the first real throttle keeps it quiet on the pad. At half throttle a gentle take-off never switches it on; at nothing, the motors begin to hunt as soon as the craft is armed.",
    hazard: "With control kept at closed throttle the motors wind up by themselves on the bench: propellers off.",
    needs: [{ mode: "grip-at-idle", reason: "It says when that mode takes hold." }],
    related: ["grip-at-idle", "motors.idle"],
    words: ["control at zero throttle", "hops on the ground", "winds up on the pad"],
  },
];
