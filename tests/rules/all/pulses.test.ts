/** Pulses as they arrive: channels of two levels, coarse links, sticks as they were measured. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { understood, WHEEL, workspaceOf } from "../check.ts";

/** The findings of a craft with the handset “Wheel”, as `code: message`, those on what else it lacks aside. */
function findings(...lines: string[]): string[] {
  const text = [
    'craft "Jug"',
    'use "wheel.fettle"',
    ...lines,
    "modes",
    "  arm when TL is down",
    "failsafe",
    "  then stop",
  ].join("\n");
  const found = findingsOf(workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": text }), "jug.fettle");
  return understood(found).map(({ code, message }) => `${code}: ${message}`);
}

const thin = (...lines: string[]) => findings(...lines).filter((finding) => finding.startsWith("thin-margin"));

const LOST =
  "levels-lost: ch6 carries two levels only: “mid” of TR cannot arrive. It stands in line 4 of wheel.fettle: TR switch ch6 up 1000 us mid 1500 us down 2000 us.";

test("a middle position on a channel of two levels is lost, and a mode that waits for it never comes on", () => {
  expect(findings("link", "  two-level 6", "modes", "  level when TR is mid")).toEqual([
    LOST,
    "condition-never: No state of the controls makes this true: level can never be on. TR at “mid” is lost on ch6, which carries two levels only.",
  ]);
});

test("the middle is the pulse between the ends, in whatever order the handset lists them", () => {
  expect(findings("controls", "  TR switch ch6 mid 1500 us up 1000 us down 2000 us", "link", "  two-level 6")).toEqual([
    "levels-lost: ch6 carries two levels only: “mid” of TR cannot arrive.",
  ]);
});

test("a mode at an end of two levels may be on with the switch half-way: the link decides", () => {
  const level = ["link", "  two-level 6", "modes", "  level when TR is not up"];
  expect(findings(...level)).toEqual([LOST]);
});

test("of a handset's control that the craft makes no use of nothing is lost", () => {
  const spare = (...lines: string[]) =>
    findings("link", "  two-level 6, 9", ...lines).map((each) => each.split(":")[0]);
  expect(spare()).toEqual([]);
  expect(spare("modes", "  lights when ch6 above 1700 us")).toEqual(["levels-lost"]);
  expect(
    spare("adjust", "  level-stiffness follows KN from 20 to 80").filter((code) => code === "levels-lost"),
  ).toEqual(["levels-lost"]);
});

// Common practice, no source: end points are off by up to 10 us.
test("a bound 20 us from a position is too near; on a coarse link 10 us and a step are", () => {
  const above = (boundUs: number) => ["modes", `  level when ch6 above ${boundUs} us`];
  expect(thin(...above(1520))).toHaveLength(1);
  expect(thin(...above(1521))).toEqual([]);
  const coarse = ["link", "  resolution 40 us"];
  expect(thin(...coarse, ...above(1550))).toEqual([
    "thin-margin: TR at “mid” sends 1500 us, 50 us from the bound of 1550 us: on a link that sends steps of 40 us, too near to be sure of.",
  ]);
  expect(thin(...coarse, ...above(1551))).toEqual([]);
  // A fine link does not make the tolerance of the handset any finer.
  expect(thin("link", "  resolution 1 us", ...above(1520))).toHaveLength(1);
});

test("a position that never arrives is near to nothing", () => {
  expect(findings("link", "  two-level 6", "modes", "  level when ch6 above 1510 us").join()).not.toContain(
    "thin-margin",
  );
});

test("a stick reaches the ends that were measured, and not those that it should", () => {
  const launch = ["modes", "  launch-hold when ch3 above 1985 us"];
  expect(findings(...launch)).toEqual([]);
  const checked = ["  order-checked 2026-04-02", "  direction-checked 2026-04-02"];
  expect(findings("bench", "  throttle 1002 us to 1994 us", ...checked, ...launch)).toEqual([]);
  expect(findings("bench", "  throttle 1002 us to 1980 us", ...launch).join("\n")).toContain(
    "condition-never: No state of the controls makes this true: launch-hold can never be on.",
  );
  // With the sticks in another order it is another channel that was measured.
  const order = ["link", "  order throttle roll pitch yaw"];
  expect(findings(...order, "bench", "  throttle 1002 us to 1980 us", ...launch).join("\n")).not.toContain(
    "condition-never",
  );
});
