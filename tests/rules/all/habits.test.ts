/** Words that pilots bring along: each is unknown here, and the finding offers the name that is meant. */
import { describe, expect, test } from "vitest";
import { reported } from "../check.ts";

/** What is said of a name that nobody knows, in a section of a craft. */
const unknown = (section: string, line: string) => reported("unknown-name", [section, `  ${line}`]).join("\n");

describe("names", () => {
  test.each([
    ["link", 'binding-phrase "the cat"', "pair-secret"],
    ["link", "yaw-deadband 4 us", "yaw-rest-zone"],
    ["safety", "runaway-stop yes", "tumble-stop"],
    ["sensors", "gyro-pick first", "gyros-read"],
    ["gains", "windup-guard roll-pitch", "i-waits-on"],
    ["gains", "windup-cut 15 Hz", "i-waits-above"],
    ["modes", "heading-free when TR is mid", "heading-by-pilot"],
  ])("in %s, %s is offered %s", (section, line, name) => {
    expect(unknown(section, line)).toContain(`Did you mean “${name}”`);
  });
});

describe("choices and parts", () => {
  test.each([
    ["rates", "throttle-limit-by scaling", "stretched, cut-off"],
    ["rates", "throttle-limit-by clipping", "stretched, cut-off"],
    ["navigation", "home-set first-arming", "kept, renewed"],
    ["gains", "after-crash calm", "go-on, ease-in, disarm"],
    ["filters", "motor-notches count 2  fade 40 Hz", "eases-in"],
  ])("in %s, %s is told the words there are", (section, line, words) => {
    expect(unknown(section, line)).toContain(words);
  });
});
