/** What findings say in each case, which notes accept them, and that a line with a fault stops no rule. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { reported, WHEEL, workspaceOf } from "../check.ts";

describe("arming", () => {
  const arm = (code: string, condition: string) => reported(code, ["modes", `  arm when ${condition}`]);

  test("arm-at-rest says where the dials stand, if any has to do with it", () => {
    expect(arm("arm-at-rest", "TL is up")).toEqual([
      "error arm when TL is up: Armed with every control at rest: the motors may start when the pack goes in.",
    ]);
    expect(arm("arm-at-rest", "TL is up and KN above 1700 us")).toEqual([
      "error arm when TL is up and KN above 1700 us: Armed with every switch at rest and KN at 1851 us: the motors may start when the pack goes in.",
    ]);
  });

  test("arm-on-low-pulse names the channels, and none decide a craft that is always armed", () => {
    expect(arm("arm-on-low-pulse", "TL is up and TR is up")).toEqual([
      "warning arm when TL is up and TR is up: Armed with ch5 and ch6 at 1000 us, which many receivers give before the link is up.",
    ]);
    expect(arm("arm-on-low-pulse", "always")).toEqual([]);
  });
});

describe("conditions", () => {
  test("condition-never blames a channel of two levels only for a position that it loses", () => {
    const never = (condition: string) =>
      reported("condition-never", ["link", "  two-level 6", "modes", `  level when ${condition}`]).map(
        (each) => each.split("can never be on.")[1],
      );
    expect(never("TR is up and TR is down")).toEqual([""]);
    expect(never("TR is up and TR is mid")).toEqual([" TR at “mid” is lost on ch6, which carries two levels only."]);
  });

  test("condition-always is silent where one of several lines says so itself", () => {
    const always = (...lines: string[]) => reported("condition-always", ["modes", ...lines]).length;
    expect(always("  level when always", "  level when TL is up")).toBe(0);
    expect(always("  level when TL is down", "  level when TL is up")).toBe(1);
  });

  test("control-idle is told once for a control, with its first two positions that do the same", () => {
    const idle = reported("control-idle", ["modes", "  arm when TL is down", "  level when S4 is d"], {
      "wheel.fettle": `${WHEEL}  S4 selector ch10 a 1000 us b 1300 us c 1600 us d 2000 us\n`,
    });
    expect(idle).toEqual(['info use "wheel.fettle": S4 does the same at “a” and at “b”, whatever else is set.']);
  });

  test("a setting may follow any dial as long as no handset is said", () => {
    const text = 'craft "Jug"\nadjust\n  overall follows KM from 0.9 to 1.1\n';
    const codes = (files: Record<string, string>) =>
      findingsOf(workspaceOf(files), "jug.fettle").map((finding) => finding.code);
    expect(codes({ "jug.fettle": text })).not.toContain("unknown-name");
    expect(codes({ "wheel.fettle": WHEEL, "jug.fettle": `use "wheel.fettle"\n${text}` })).toContain("unknown-name");
  });
});

describe("a handset that stands in", () => {
  const standIn = (handset: string) =>
    findingsOf(
      workspaceOf({ "jug.fettle": '# a jug\ncraft "Jug"\n', "other.fettle": handset }),
      "jug.fettle",
      "other.fettle",
    ).filter(({ code }) => code === "use-broken");
  const controls = (line: string) => `controls\n  ${line}\n`;

  test("use-broken is told on the craft's header, with the handset's name", () => {
    expect(standIn(`handset "Other"\n${controls("XL switch ch9 up 1000 us down 2000 us")}`)).toEqual([]);
    expect(standIn(`handset "Other"\n${controls("XL switch ch9 up 1000")}`)).toMatchObject([
      {
        message:
          "The handset that stands in, “Other”, has errors of its own, and what they affect is missing here: correct it there.",
        range: { start: { line: 1, character: 0 }, end: { line: 1, character: 11 } },
      },
    ]);
  });
});

test("of a file that is not there nothing is found", () => {
  expect(findingsOf(workspaceOf({}), "none.fettle")).toEqual([]);
});

test("two findings of one rule in one place are in the order of their messages, in whichever order they were made", () => {
  const subjects = (...modes: string[]) =>
    reported("condition-never", ['use "base.fettle"'], {
      "base.fettle": `layer "Base"\nmodes\n${modes.map((mode) => `  ${mode} when TL is up and TL is down\n`).join("")}`,
    }).map((each) => each.match(/(\w+) can never be on/)![1]);
  expect(subjects("level", "finder")).toEqual(["finder", "level"]);
  expect(subjects("finder", "level")).toEqual(["finder", "level"]);
});

describe("notes that accept a finding", () => {
  test("current-over-rating of the pack alone: none on the rating of the controllers", () => {
    const over = (esc: string, capacity: string) =>
      reported("current-over-rating", [
        ...["motors", `  esc-rating 60 A${esc}`, "pack", `  capacity 1000 mAh${capacity}`],
        ...["  discharge-rating 60 C", "  full-current 85 A"],
      ]).length;
    const note = " # allow current-over-rating: a bench supply";
    expect(over("", "")).toBe(1);
    expect(over(note, "")).toBe(1);
    expect(over("", note)).toBe(0);
  });

  test("loop-budget: one on any of the three settings, which are shown with it", () => {
    const slow = (rate: string, pause: string, loop: string) =>
      findingsOf(
        workspaceOf({
          "jug.fettle": `craft "Jug"\nmotors\n  esc-signal digital\n  esc-rate 150 kbit/s${rate}\n  esc-pause 30 us${pause}\nsensors\n  loop-rate 8 kHz${loop}\n`,
        }),
        "jug.fettle",
      )
        .filter(({ code }) => code === "loop-budget")
        .map(({ related }) => related.map(({ message, range }) => `${message}, line ${range.start.line}`));
    const note = " # allow loop-budget: only on the bench";
    expect(slow("", "", "")).toEqual([["loop-rate 8 kHz, line 6", "esc-pause 30 us, line 4"]]);
    expect([slow(note, "", ""), slow("", note, ""), slow("", "", note)]).toEqual([[], [], []]);
  });
});

test("divider-clips says the resistor that is needed", () => {
  const clips = (top: string) =>
    reported("divider-clips", [
      ...["pack", "  chemistry lipo", "  cells 6", "  full-at 4.2 V/cell", "  adc-reference 3.3 V"],
      ...[`  divider-top ${top} kohm`, "  divider-bottom 2 kohm"],
    ]).map((each) => each.match(/the top has to be .* or more/)![0]);
  // 2 kohm * (25.2 V / 3.3 V - 1) is 13.273 kohm, in whole hundredths 13.28.
  expect(clips("10")).toEqual(["the top has to be 13.28 kohm or more"]);
  expect(clips("13.27")).toEqual(["the top has to be 13.28 kohm or more"]);
  expect(clips("13.28")).toEqual([]);
});

test("failsafe-holds-arm is silent about presets that a receiver which holds does not send", () => {
  const holds = (onLoss: string) =>
    reported("failsafe-holds-arm", [
      ...["link", `  on-loss ${onLoss}`, "  preset-channels 1500 us, 1500 us, 1500 us, 1500 us, 2000 us"],
      ...["modes", "  arm when TL is down or always"],
    ]).length;
  expect(holds("preset")).toBe(1);
  expect(holds("hold")).toBe(0);
  expect(holds("silent")).toBe(0);
});

test("osd-centre-clutter leaves what is off the grid to osd-off-grid", () => {
  const osd = (place: string) => ["osd", "  grid 12 x 9", `  top-height at ${place}`];
  expect(reported("osd-centre-clutter", osd("1, middle"))).toHaveLength(1);
  expect(reported("osd-centre-clutter", osd("5, middle"))).toEqual([]);
  expect(reported("osd-off-grid", osd("5, middle"))).toHaveLength(1);
});

test("port-missing names four things in want of a port, and says when there are more", () => {
  const also = (...lines: string[]) =>
    reported("port-missing", [
      "ports",
      "  port1 receiver",
      "osd",
      ...lines.map((each, i) => `  ${each} at 2, ${i}`),
    ]).map((each) => each.match(/serves gps(.*), and none/)![1]);
  const four = ["home-distance", "home-arrow", "speed", "satellites"];
  expect(also("satellites")).toEqual([""]);
  expect(also(...four)).toEqual([", as do home-arrow, speed, satellites"]);
  expect(also(...four, "latitude")).toEqual([", as do home-arrow, speed, satellites and more"]);
});

describe("a line with a fault stops no rule", () => {
  test.each([
    ["endpoints-off", "wrong-type", ["bench", "  roll kettle"]],
    [
      "throttle-cannot-arm",
      "wrong-type",
      ["safety", "  arm-throttle-limit red", "bench", "  throttle 1040 us to 2 ms"],
    ],
    ["levels-lost", "missing-unit", ["controls", "  XL switch ch6 up 1000", "link", "  two-level 6"]],
    ["arm-tilt-open", "unknown-name", ["safety", "  arm-tilt-limit kettle"]],
  ])("%s is silent about what is a %s: %j", (silent, fault, lines) => {
    expect(reported(silent, lines)).toEqual([]);
    expect(reported(fault, lines)).toHaveLength(1);
  });

  test("tune-hot compares with no faulty number, and a faulty one with none", () => {
    const hot = (base: string, own: string) =>
      reported("tune-hot", ['use "base.fettle"', "gains", `  overall ${own}`], {
        "base.fettle": `layer "Base"\ngains\n  overall ${base}\n`,
      }).length;
    expect(hot("1", "1.1")).toBe(1);
    expect(hot("kettle", "1.1")).toBe(0);
    expect(hot("1", "kettle")).toBe(0);
  });
});

test("tune-hot takes less than a hundredth of a decibel for rounding", () => {
  const loose = (own: string) =>
    reported("tune-hot", ['use "base.fettle"', "filters", `  smooth-gyro cut ${own} Hz`], {
      "base.fettle": 'layer "Base"\nfilters\n  smooth-gyro cut 100 Hz\n',
    }).length;
  expect(loose("100.1")).toBe(0);
  expect(loose("101")).toBe(1);
});
