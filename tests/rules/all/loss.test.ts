/** What is found of a lost signal: how long the craft flies on, and what a receiver's presets make of it. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { knownCode, reported, understood, WHEEL, workspaceOf } from "../check.ts";

function found(code: string, ...lines: string[]): { line: number; message: string }[] {
  const text = ['craft "Jug"', 'use "wheel.fettle"', ...lines].join("\n");
  knownCode(code);
  return understood(findingsOf(workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": text }), "jug.fettle"))
    .filter((finding) => finding.code === code)
    .map(({ message, range }) => ({ line: range.start.line, message }));
}

const holds = (...lines: string[]) => found("failsafe-holds-arm", ...lines).length > 0;

describe("failsafe-holds-arm", () => {
  test.each([
    [["hold-for 10 s"], false],
    [["hold-for 10.1 s"], true],
    [["hold-for 10000 ms"], false],
    [["then stop", "hold-for 0.2 min"], true],
    [["then descend", "descend-throttle 20 %", "descend-for 0 s"], true],
    [["then descend", "descend-throttle 20 %", "descend-for 60 s"], false],
    [["then descend", "descend-throttle 20 %", "descend-for 61 s"], true],
    [["then descend", "descend-throttle 0 %", "descend-for 0 s"], false],
    [["then stop", "descend-throttle 20 %", "descend-for 0 s"], false],
    // What is not set is not reported.
    [["then descend", "descend-for 0 s"], false],
    [["then descend", "descend-throttle 20 %"], false],
  ])("failsafe %j: %s", (lines, expected) =>
    expect(holds("failsafe", ...lines.map((line) => `  ${line}`))).toBe(expected),
  );

  test("a throttle as a pulse counts from the low end point, and idle is no descent", () => {
    const descent = ["failsafe", "  then descend", "  descend-for 0 s"];
    expect(holds("motors", "  idle 6 %", ...descent, "  descend-throttle 1060 us")).toBe(false);
    expect(holds("motors", "  idle 6 %", ...descent, "  descend-throttle 1070 us")).toBe(true);
  });

  const preset = (channels: string, arm = "TL is down", ...link: string[]) =>
    found(
      "failsafe-holds-arm",
      "link",
      "  on-loss preset",
      `  preset-channels ${channels}`,
      ...link,
      "modes",
      `  arm when ${arm}`,
    );

  test("presets that leave the craft armed with an open throttle are a finding on their line", () => {
    expect(preset("1500 us, 1500 us, 1500 us, 1500 us, 2000 us")).toEqual([
      {
        line: 4,
        message:
          "When the signal is lost the receiver sends a throttle of 1500 us and leaves the craft armed: it flies on with nobody at the sticks. Send arm off and a closed throttle.",
      },
    ]);
  });

  test.each([
    // Arm off, a closed throttle, one within the tolerance of its end (common practice, no source).
    ["1500 us, 1500 us, 1500 us, 1500 us, 1000 us", "TL is down", [], false],
    ["1500 us, 1500 us, 1000 us, 1500 us, 2000 us", "TL is down", [], false],
    ["1500 us, 1500 us, 1010 us, 1500 us, 2000 us", "TL is down", [], false],
    ["1500 us, 1500 us, 1011 us, 1500 us, 2000 us", "TL is down", [], true],
    // The list does not reach the arm channel, so where it stands is not known: nothing disarms the craft for sure.
    ["1500 us, 1500 us, 1500 us, 1500 us", "TL is down", [], true],
    ["1500 us, 1500 us, 1500 us, 1500 us, 2000 us", "TL is down and TR is up", [], true],
    ["1500 us, 1500 us, 1500 us, 1500 us, 2000 us, 1000 us", "TL is down and TR is up", [], true],
    ["1500 us, 1000 us, 1500 us, 1500 us, 2000 us", "TL is down", ["  order roll throttle pitch yaw"], false],
    ["1500 us, 1500 us, 2000 us, 1500 us, 2000 us", "TL is down", ["  reversed throttle"], false],
    ["1500 us, 1500 us, 1000 us, 1500 us, 2000 us", "TL is down", ["  reversed throttle"], true],
  ])("presets %s, arm when %s %j: %s", (channels, arm, link, expected) =>
    expect(preset(channels, arm, ...link).length > 0).toBe(expected),
  );

  test("of a channel without a preset nothing is known; presets that ask for the way home look after the craft", () => {
    const open = "1500 us, 1500 us, 1500 us, 1500 us";
    expect(preset(open)).toHaveLength(1);
    expect(preset("1500 us, 1500 us, 1000 us, 1500 us")).toEqual([]);
    const home = (ch6: string) =>
      reported("failsafe-holds-arm", [
        "link",
        "  on-loss preset",
        `  preset-channels ${open}, 2000 us, ${ch6}`,
        "modes",
        "  arm when TL is down",
        "  return-home when TR is down",
      ]);
    expect(home("2000 us")).toEqual([]);
    expect(home("1000 us")).toHaveLength(1);
  });

  test("a receiver that falls silent sends no presets", () => {
    const lines = ["link", "  on-loss silent", "  preset-channels 1500 us, 1500 us, 1500 us, 1500 us, 2000 us"];
    expect(holds(...lines, "modes", "  arm when TL is down")).toBe(false);
  });
});

describe("descend-blind", () => {
  const blind = (...lines: string[]) => found("descend-blind", "frame", "  hover-throttle 30 %", ...lines).length > 0;

  test.each([
    ["29 %", false],
    ["30 %", true],
    ["1299 us", false],
    ["1300 us", true],
  ])("hover at 30 %%, descent at %s: %s", (throttle, expected) =>
    expect(blind("failsafe", "  then descend", `  descend-throttle ${throttle}`)).toBe(expected),
  );

  test("silent where the craft does something else, and where hover is not said", () => {
    expect(blind("failsafe", "  then stop", "  descend-throttle 40 %")).toBe(false);
    expect(found("descend-blind", "failsafe", "  then descend", "  descend-throttle 90 %")).toEqual([]);
  });
});

test("loss-hidden: only a receiver that holds hides the loss", () => {
  for (const [word, count] of [
    ["hold", 1],
    ["silent", 0],
    ["preset", 0],
  ] as const)
    expect(found("loss-hidden", "link", `  on-loss ${word}`)).toHaveLength(count);
});
