/** Rates, the gyro's range, gains and throttle: what cannot be true together in flight. */
import { practice } from "../sources.ts";
import type { Comparison } from "../specs.ts";
import { AXES, contradiction, rating } from "./compare.ts";

const definition = "by definition of the two";

/** What holds for each axis of a set of rates. */
function ofAxis(axis: (typeof AXES)[number]): Comparison[] {
  const end = `rates.${axis}.end`;
  return [
    contradiction(`rates.${axis}.slope`, "be at most", end, "deg/s", {
      reason:
        "A curve that begins steeper than its end needs is slow at full stick and wild in the middle: perhaps the two figures have changed places.",
      source: "by the formula of the curve: its end lies above the straight line only then",
    }),
    contradiction("rates.top-rate", "be at least", end, "deg/s", {
      severity: "warning",
      reason:
        "The cap cuts the curve off, so the last part of the stick does nothing. Raise the cap, or lower the curve's end.",
      source: definition,
    }),
    rating(end, "be at most", "sensors.gyro-range", "deg/s", {
      reason:
        "The gyro reads no more than its range, so the craft fights a turn that it cannot see and may not recover. Take a lower end, or set top-rate.",
      source: "by definition: a sensor reads no further than its range",
    }),
    rating("gains.spin-guard", "be above", end, "deg/s", {
      reason:
        "The guard takes an ordinary flip at full stick for a spin and stops it in the air. Set it well above the fastest curve.",
      source: "by definition: a guard below what is asked for acts in ordinary flight",
    }),
  ];
}

export const flightComparisons: readonly Comparison[] = [
  ...AXES.flatMap(ofAxis),
  ...AXES.map((axis) =>
    contradiction(`gains.d-fast.${axis}`, "be at least", `gains.${axis}.d`, "", {
      severity: "warning",
      reason:
        "The figure for fast moves lies below the ordinary one, so there is nothing to rise to. Take the higher of the two for fast moves.",
      source: "by definition: d rises from the one to the other",
    }),
  ),
  rating("rates.top-rate", "be at most", "sensors.gyro-range", "deg/s", {
    reason: "A cap above what the gyro can read caps nothing that matters. Set it below the gyro's range.",
    source: "by definition: a sensor reads no further than its range",
  }),
  rating("gains.spin-guard", "be at most", "sensors.gyro-range", "deg/s", {
    severity: "warning",
    reason: "The gyro never reads so much, so the guard never acts. Set it below the gyro's range and above the rates.",
    source: "by definition: a sensor reads no further than its range",
  }),
  contradiction("safety.arm-throttle-limit", "be above", "link.endpoints.from", "us", {
    reason: "The throttle can never be below the limit, so the craft never arms. Set it some 50 us above the low end.",
    source: definition,
  }),
  contradiction("safety.arm-throttle-limit", "be below", "link.centre", "us", {
    while: [
      { setting: "motors.reverse-band", unsaid: "wanted" },
      { setting: "safety.arm-throttle", unsaid: "wanted" },
    ],
    severity: "warning",
    reason:
      "The craft arms with the stick half open, and leaps. Set the limit some 50 us above the throttle's low end.",
    source: practice,
  }),
  contradiction("safety.arm-throttle-limit", "be above", "link.centre", "us", {
    while: [{ setting: "safety.arm-throttle", is: "middle" }],
    reason:
      "The craft is to arm with the stick in its middle, and the limit lies below that, so it never does. Set the limit some 50 us above the middle.",
    source: definition,
  }),
  contradiction("motors.reverse-band.from", "be below", "link.centre", "us", {
    reason: "The stick's middle lies outside the band in which the motors stand, so they run as soon as it is let go.",
    source: definition,
  }),
  contradiction("motors.reverse-band.to", "be above", "link.centre", "us", {
    reason: "The stick's middle lies outside the band in which the motors stand, so they run as soon as it is let go.",
    source: definition,
  }),
  contradiction("safety.turtle-stop-after", "be below", "safety.idle-disarm-after", "s", {
    severity: "hint",
    reason:
      "Turning over counts as sitting with the throttle closed, so the craft may disarm before the push ends. Let it wait longer before it disarms.",
    source: practice,
  }),
  contradiction("safety.idle-disarm-after", "be at least", "10 s", "s", {
    while: [{ mode: "grip-at-idle" }],
    severity: "warning",
    reason:
      "With grip-at-idle one flies with the throttle closed, in a dive or over the top of a loop, and the craft would disarm in the air. Say never, or wait much longer.",
    source: practice,
  }),
  contradiction("failsafe.hold-for", "be at most", "failsafe.descend-for", "s", {
    while: [{ setting: "failsafe.then", is: "descend" }],
    severity: "warning",
    reason:
      "The craft goes on by itself for longer than it then takes to come down: the two figures may have changed places.",
    source: practice,
  }),
  contradiction("failsafe.descend-throttle", "be at least", "frame.hover-throttle", "%", {
    times: 0.4,
    severity: "warning",
    reason: "That is no descent but a fall. Take a little less than what the craft hovers with, tried low over grass.",
    source: practice,
  }),
  contradiction("rates.throttle-hover", "agree with", "frame.hover-throttle", "%", {
    by: 15,
    severity: "warning",
    while: [
      { setting: "rates.throttle-curve", unsaid: "wanted" },
      { setting: "rates.throttle-limit", unsaid: "wanted" },
    ],
    reason:
      "Both say where the throttle stands in a hover: the soft part lies elsewhere, or one of them is out of date.",
    source: practice,
  }),
  contradiction("filters.smooth-sticks", "be at most", "link.packet-rate", "Hz", {
    severity: "hint",
    reason:
      "Each packet reaches the motors as a step. Smooth the sticks below the rate at which they come, at about a third of it.",
    source: "sampling theorem: above half of the rate nothing is smoothed",
  }),
  ...AXES.map((axis) =>
    contradiction(`bench.centres.${axis}`, "agree with", "link.centre", "us", {
      by: 15,
      severity: "warning",
      reason:
        "With the stick let go the craft goes on turning. Move the handset's middle to the board's, or the other way round.",
      source: `${practice}: a middle within some ten microseconds needs no change`,
    }),
  ),
];
