/** The video transmitter, the lights and the OSD's figures. */
import type { Comparison } from "../specs.ts";
import { contradiction } from "./compare.ts";

const oneOfSteps = {
  reason:
    "The transmitter has no such step: it sends something else, or nothing. Take one of its steps, or look them up again.",
  source: "by definition: the steps are all that it can send",
} as const;

export const pictureComparisons: readonly Comparison[] = [
  contradiction("video.power", "be one of", "video.power-steps", "mW", oneOfSteps),
  contradiction("video.power-disarmed", "be one of", "video.power-steps", "mW", oneOfSteps),
  contradiction("video.power-lost", "be one of", "video.power-steps", "mW", oneOfSteps),
  contradiction("video.power-disarmed", "be at most", "video.power", "mW", {
    severity: "warning",
    reason:
      "On the ground, with no air moving, it would send more than in flight: it overheats, and drowns out those who fly. The two may have changed places.",
    source: "common practice, no source",
  }),
  contradiction("lights.rear-first", "be at most", "lights.count", "", {
    reason: "The strip has no such light, so none of them faces backwards.",
    source: "by definition: lights are counted from 1",
  }),
  contradiction("video.spare-frequency", "keep away from", "video.frequency", "MHz", {
    by: 18,
    severity: "warning",
    reason: "The spare lies inside the first signal, so it is taken as well. Move it by some 37 MHz or more.",
    source: "common practice, no source: an analogue signal is some 18 MHz wide",
  }),
];
