/** Heights, distances and speeds of a craft that flies by itself. */
import { openCategory, practice } from "../sources.ts";
import type { Comparison } from "../specs.ts";
import { contradiction } from "./compare.ts";

const definition = "by definition of the two";

export const navigationComparisons: readonly Comparison[] = [
  contradiction("navigation.home-radius", "be below", "navigation.start-distance", "m", {
    reason:
      "Where a return may begin, the craft already counts as being home, so it ends as it begins. Keep the radius well inside the distance.",
    source: definition,
  }),
  contradiction("navigation.landing-height", "be below", "navigation.return-height", "m", {
    reason: "The whole way down would be flown at the landing's speed.",
    source: definition,
  }),
  contradiction("navigation.landing-speed", "be at most", "navigation.descend-speed", "m/s", {
    reason: "The last metres would be flown faster than the rest: the two may have changed places.",
    source: "by definition: the landing is the slower part of the descent",
  }),
  contradiction("navigation.start-distance", "be below", "navigation.fence-distance", "m", {
    reason: "Inside the fence a return would never begin.",
    source: definition,
  }),
  contradiction("osd.distance-alert", "be at most", "navigation.fence-distance", "m", {
    severity: "warning",
    while: [{ setting: "osd.alert-on", has: "far" }],
    reason: "The fence acts before the display has said a word. Let the alert come first.",
    source: definition,
  }),
  contradiction("navigation.home-radius", "be below", "navigation.fence-distance", "m", {
    reason: "All that lies inside the fence would count as home.",
    source: definition,
  }),
  contradiction("navigation.return-height", "be at most", "osd.height-alert", "m", {
    severity: "hint",
    while: [{ setting: "osd.alert-on", has: "high" }],
    reason: "On each way home the display warns of the height. Return lower, or warn higher where the law allows it.",
    source: practice,
  }),
  contradiction("ports.gps-speed", "be at least", "=position-data", "kbit/s", {
    reason:
      "The line is too slow for so many positions a second: they arrive late or broken. Take a faster line, or fewer positions.",
    source: `${practice}: some 250 bytes for each position`,
  }),
  contradiction("navigation.hold-speed", "be at most", "navigation.return-speed", "m/s", {
    times: 3,
    severity: "hint",
    reason: "A craft that is held flies much faster than one that comes home: look at the units of the two.",
    source: practice,
  }),
  contradiction("navigation.return-height", "be at most", "120 m", "m", {
    while: [{ setting: "video.region", is: "europe" }],
    severity: "hint",
    reason:
      "In the European open category a craft stays within 120 m of the ground. Return lower, unless the law of your place or your licence allows more.",
    source: openCategory,
  }),
];
