/** Handset, receiver and the sticks' pulses. */
import { practice } from "../sources.ts";
import type { Comparison } from "../specs.ts";
import { contradiction, rating } from "./compare.ts";

const definition = "by definition of the two";

export const radioComparisons: readonly Comparison[] = [
  contradiction("transmitter.power-least", "be at most", "transmitter.power", "mW", {
    reason: "The least power lies above the most: the two may have changed places.",
    source: definition,
  }),
  contradiction("link.lost-after", "be at least", "=packet-time", "ms", {
    times: 3,
    reason:
      "The link would be called lost between packets that come in time. Wait for several packets: some 300 ms suit most links.",
    source: `${practice}: one lost packet is ordinary, so at least three are waited for`,
  }),
  contradiction("link.endpoints.from", "be below", "link.centre", "us", {
    reason: "The middle of the sticks lies outside their ends.",
    source: definition,
  }),
  contradiction("link.endpoints.to", "be above", "link.centre", "us", {
    reason: "The middle of the sticks lies outside their ends.",
    source: definition,
  }),
  contradiction("transmitter.travel.from", "be at most", "link.endpoints.from", "us", {
    times: 1.015,
    severity: "warning",
    reason:
      "The handset's sticks fall short of what the board takes for their low end, so full stick is never full, and the throttle may never be low enough to arm. Widen the travel on the handset.",
    source: `${practice}: within some 15 us of 1000 no change is needed`,
  }),
  contradiction("transmitter.travel.to", "be at least", "link.endpoints.to", "us", {
    times: 0.9925,
    severity: "warning",
    reason:
      "The handset's sticks fall short of what the board takes for their high end, so full stick is never full. Widen the travel on the handset.",
    source: `${practice}: within some 15 us of 2000 no change is needed`,
  }),
  contradiction("safety.arm-throttle-limit", "be above", "transmitter.travel.from", "us", {
    reason:
      "The handset's throttle never comes below the limit, so the craft never arms. Raise the limit, or widen the handset's travel.",
    source: definition,
  }),
  contradiction("bench.stick-jitter", "be at most", "link.deadband", "us", {
    severity: "hint",
    reason: "Sticks that are let go still move the craft. Widen the rest zone to a little more than they tremble.",
    source: practice,
  }),
  ...(["transmitter.power", "link.receiver-power"] as const).flatMap((power) => [
    rating(power, "be at most", "100 mW", "mW", {
      severity: "warning",
      while: [
        { setting: "link.region", is: "europe" },
        { setting: "link.band", is: "2.4 GHz" },
      ],
      reason:
        "Europe leaves 100 mW e.i.r.p. at 2.4 GHz free, the aerial's gain included. Send less, or say the rules that hold for you; local rules have the last word.",
      source: "ETSI EN 300 328: 20 dBm e.i.r.p. at 2.4 GHz (quoted); 20 dBm are 100 mW",
    }),
    rating(power, "be at most", "1000 mW", "mW", {
      severity: "warning",
      while: [{ setting: "link.region", is: "usa" }],
      reason:
        "The United States leave up to 1 W free to such links. Send less, or say the rules that hold for you; local rules have the last word.",
      source: "47 CFR 15.247(b): 1 W (quoted)",
    }),
  ]),
  contradiction("camera.channels-used", "be below", "link.channels", "", {
    reason: "Four channels carry the sticks, and the camera asks for more than are left.",
    source: definition,
  }),
  contradiction("link.packet-rate", "be at most", "100 Hz", "Hz", {
    while: [{ setting: "link.wiring", is: "pulse-train" }],
    severity: "warning",
    reason:
      "A train of pulses carries one channel after the other and takes some twenty milliseconds to go round. Say the rate at which the train comes, or the wiring that there really is.",
    source: `${practice}: eight pulses of up to two milliseconds and a pause`,
  }),
];
