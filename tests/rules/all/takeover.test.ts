/** Modes that take the craft over: at rest, with arming, and over one another. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { clauses, picker, switches } from "../../logic/tangled.ts";
import { knownCode, reported, understood, WHEEL, workspaceOf } from "../check.ts";

const ARM = "arm when TL is down";
const modes = (...lines: string[]) => ["modes", ...lines.map((line) => `  ${line}`)];

/** What a rule finds in these modes: severity and line of each. Fails where a line is not understood. */
function found(code: string, ...lines: string[]): string[] {
  const text = `craft "Jug"\nuse "wheel.fettle"\nosd-second\n${modes(...lines).join("\n")}\n`;
  understood(findingsOf(workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": text }), "jug.fettle"));
  return reported(code, modes(...lines)).map((each) => each.split(": ")[0]!);
}

describe("mode-at-rest", () => {
  test.each([
    ["turtle when TR is up", "warning"],
    ["turtle when TR is not down", "warning"],
    ["turtle when TL is up", "warning"],
    ["turtle when PB is rest and TR is up", "warning"],
    ["return-home when TR is up", "warning"],
    ["return-home when TR below 1200 us", "warning"],
    ["return-home when ch6 below 1200 us", "warning"],
    // Wherever the dial is, and whatever comes on a channel that no control drives.
    ["return-home when TR is up and (KN above 1500 us or KN below 1600 us)", "warning"],
    ["return-home when TR is up and (ch12 above 1500 us or ch12 below 1600 us)", "warning"],
    ["return-home when always", "warning"],
    ["launch-hold when TR is not mid", "warning"],
    ["loss-trial when TR is up", "warning"],
    ["osd-hide when TR is up", "hint"],
    ["osd-hide when TR is up and arm", null],
    // What only a dial brings about, or an empty channel.
    ["return-home when KN below 1100 us", null],
    ["turtle when TR is up and KN below 1100 us", null],
    ["turtle when ch12 below 1100 us", null],
    // Asked for by moving something.
    ["turtle when TR is down", null],
    ["turtle when TR is down and not arm", null],
    ["return-home when PB is held", null],
    ["osd-hide when TR is mid", null],
    // Always, and meant so; bare only until it counts.
    ["osd-hide when always", null],
    ["launch-hold when always", null],
    ["osd-hide when not arm", null],
    ["osd-hide when TL is up", null],
    // Never on while armed, which another rule says.
    ["return-home when TL is up", null],
    ["launch-hold when TL is up", null],
    // Modes that may well be on at rest.
    ["level when TR is up", null],
    ["level-now when TR is up", null],
    ["osd-second when TR is up", null],
    ["hold-height when TR is up", null],
  ])("%s: %s", (line, severity) => {
    const expected = severity === null ? [] : [`${severity} ${line}`];
    expect(found("mode-at-rest", ARM, line)).toEqual(expected);
  });

  test("where the switch lies is what the handset says", () => {
    const restated = (rest: string) => [
      "controls",
      `  TR switch ch6 up 1000 us mid 1500 us down 2000 us rests ${rest}`,
    ];
    const of = (rest: string) => reported("mode-at-rest", [...restated(rest), ...modes(ARM, "turtle when TR is down")]);
    expect(of("up")).toEqual([]);
    expect(of("down")).toEqual([
      "warning turtle when TR is down: With every control at rest (TR down) turtle is selected: the first start is a somersault.",
    ]);
  });
});

describe("turtle-with-arm", () => {
  test.each([
    [["arm when TL is down", "turtle when TL is down"], true],
    [["arm when TL is down", "turtle when always"], true],
    [["arm when TL is down", "turtle when arm"], true],
    [["arm when TL is down and TR is down", "turtle when TR is down"], true],
    [["arm when TL is down", "turtle when TR is mid", "turtle when TR is not mid"], true],
    [["arm when TL is down", "arm-permit when PB is held", "turtle when PB is held"], true],
    [["arm when TL is down", "turtle when ch5 above 1500 us"], true],
    [["arm when TL is down", "turtle when TR is down"], false],
    [["arm when TL is down", "turtle when TR is not down"], false],
    [["arm when TL is down", "turtle when TL is up"], false],
    [["arm when TL is down"], false],
    [["turtle when always"], false],
    [["arm when TL is down and TL is up", "turtle when TR is down"], false],
  ])("%j: %s", (lines, expected) => {
    expect(found("turtle-with-arm", ...lines).length > 0).toBe(expected);
  });

  test("also where a layer brings it about, on the line of the craft that it meets", () => {
    const files = {
      "wheel.fettle": WHEEL,
      "base.fettle": 'layer "Base"\nmodes\n  turtle when TL is down\n',
      "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\nuse "base.fettle"\nmodes\n  ${ARM}\n`,
    };
    const [finding] = findingsOf(workspaceOf(files), "jug.fettle").filter(({ code }) => code === "turtle-with-arm");
    expect(finding).toMatchObject({ severity: "error", range: { start: { line: 4 } } });
    expect(finding!.related.map(({ file, range }) => [file, range.start.line])).toEqual([["base.fettle", 2]]);
  });
});

test.each([
  [["arm when TL is down", "arm-permit when TL is down"], true],
  [["arm when TL is down", "arm-permit when always"], true],
  [["arm when TL is down and PB is held", "arm-permit when PB is held"], true],
  [["arm when TL is down", "arm-permit when TL is down or PB is held"], true],
  [["arm when TL is down", "arm-permit when PB is held"], false],
  [["arm when TL is down", "arm-permit when TL is down and PB is held"], false],
  [["arm when TL is down or TR is down", "arm-permit when TL is down"], false],
  [["arm when TL is down"], false],
  [["arm-permit when always"], false],
  [["arm when TL is down and TL is up", "arm-permit when PB is held"], false],
])("permit-idle, %j: %s", (lines, expected) => {
  expect(found("permit-idle", ...lines).length > 0).toBe(expected);
});

test("nothing is claimed of a condition that is too tangled to follow, or has a fault", () => {
  const handset = ['handset "Desk"', "controls", ...switches(40).map((line) => `  ${line}`), ""].join("\n");
  for (const turtle of [clauses(picker(1), { count: 80, size: 3, of: 40 }), "S1 is"]) {
    const lines = [
      "arm when S0 is down",
      ...["arm-permit", "turtle", "return-home"].map((mode) => `${mode} when ${turtle}`),
    ];
    const text = `craft "Jug"\nuse "desk.fettle"\n${modes(...lines).join("\n")}\n`;
    const codes = findingsOf(workspaceOf({ "desk.fettle": handset, "jug.fettle": text }), "jug.fettle").map(
      ({ code }) => code,
    );
    expect(codes).toContain(turtle === "S1 is" ? "syntax" : "condition-tangled");
    for (const code of ["mode-at-rest", "turtle-with-arm", "permit-idle"]) expect(codes).not.toContain(knownCode(code));
  }
});

describe("a mode over another", () => {
  const overlap = (...lines: string[]) => found("mode-overlap", ...lines).length > 0;
  const shadowed = (...lines: string[]) => found("mode-shadowed", ...lines).length > 0;

  test.each(["return-home", "level-now"])("%s is there to take over", (mode) => {
    expect(overlap("level when TR is not up", `${mode} when TR is down`)).toBe(false);
    expect(overlap("hold-height when TR is not up", `${mode} when TR is down`)).toBe(false);
    expect(shadowed("level when TR is down", `${mode} when TR is down`)).toBe(false);
  });

  test("holding the place holds the height too", () => {
    expect(overlap("hold-height when TR is not up", "hold-place when TR is down")).toBe(false);
    expect(shadowed("hold-height when TR is down", "hold-place when TR is not up")).toBe(true);
  });

  test("of two ways to level one does nothing", () => {
    expect(overlap("level when TR is not up", "level-blend when TR is not mid")).toBe(true);
    expect(shadowed("level when TR is not up", "level-blend when TR is down")).toBe(true);
  });

  test.each([
    ["motors yes", true, true],
    ["motors yes; sounder none", true, true],
    ["motors yes; sounder board", false, false],
    ["motors yes; sounder own-cell", false, false],
    ["sounder own-cell", false, false],
    // Only motors that are said to sound have to fly instead.
    ["motors no", false, true],
    ["tone low", false, true],
  ])("finder with %s: overlap %s, shadowed %s", (entries, overlapping, shadow) => {
    const finder = ["finder", ...entries.split("; ").map((entry) => `  ${entry}`)];
    expect(reported("mode-overlap", [...finder, ...modes(ARM, "finder when PB is held")]).length > 0).toBe(overlapping);
    expect(reported("mode-shadowed", [...finder, ...modes(ARM, "finder when TL is down")]).length > 0).toBe(shadow);
  });
});
