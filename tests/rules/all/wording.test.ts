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
    const never = (twoLevel: number, condition: string) =>
      reported("condition-never", ["link", `  two-level ${twoLevel}`, "modes", `  level when ${condition}`]).map(
        (each) => each.split("can never be on.")[1],
      );
    expect(never(6, "TR is up and TR is down")).toEqual([""]);
    expect(never(6, "TR is up and TR is mid")).toEqual([" TR at “mid” is lost on ch6, which carries two levels only."]);
    expect(never(7, "TR is up and TR is mid")).toEqual([""]);
  });

  test("an unknown control, an unknown position, and a dial, which has no positions", () => {
    const level = (code: string, condition: string) =>
      reported(code, ["modes", `  level when ${condition}`]).map((each) => each.split(": ").slice(1).join(": "));
    expect(level("unknown-name", "TK is up")).toEqual([
      "No handset of this craft has a control TK. Did you mean TL or TR?",
    ]);
    expect(level("unknown-name", "TL is boiling")).toEqual(["TL has no position “boiling”. Did you mean down or up?"]);
    expect(level("wrong-type", "KN is up")).toEqual([
      "KN is a dial and has no positions: test its pulse, as in “KN above 1500 us”.",
    ]);
  });

  test("condition-always is silent where one of several lines says so itself", () => {
    const always = (...lines: string[]) => reported("condition-always", ["modes", ...lines]).length;
    expect(always("  level when always", "  level when TL is up")).toBe(0);
    expect(always("  level when TL is down", "  level when TL is up")).toBe(1);
  });

  test("control-idle is told once for a control, with its first two positions that do the same", () => {
    const level = "  level when S4 is d or S4 is b or S4 is c";
    const idle = reported("control-idle", ["modes", "  arm when TL is down", level], {
      "wheel.fettle": `${WHEEL}  S4 selector ch10 a 1000 us b 1300 us c 1600 us d 2000 us\n`,
    });
    expect(idle).toEqual([
      'info use "wheel.fettle": S4 does the same at “b” and at “c”, whatever else is set. It stands in line 7 of wheel.fettle: S4 selector ch10 a 1000 us b 1300 us c 1600 us d 2000 us.',
    ]);
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

test("two findings in one line are in the order of their places, whatever their codes", () => {
  const level = (condition: string) =>
    findingsOf(
      workspaceOf({
        "wheel.fettle": WHEEL,
        "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\nmodes\n  level when ${condition}\n`,
      }),
      "jug.fettle",
    ).flatMap(({ code, range }) => (range.start.line === 3 ? code : []));
  expect(level("KN is up and TK is up")).toEqual(["wrong-type", "unknown-name"]);
  expect(level("TK is up and KN is up")).toEqual(["unknown-name", "wrong-type"]);
});

describe("places that are shown with a finding", () => {
  const related = (wanted: string, ...lines: string[]) =>
    findingsOf(workspaceOf({ "jug.fettle": `craft "Jug"\n${lines.join("\n")}\n` }), "jug.fettle")
      .filter(({ code }) => code === wanted)
      .map((finding) => finding.related.map(({ message, range }) => `${message}, line ${range.start.line}`));

  test("grid-mismatch: the craft's grid", () => {
    expect(related("grid-mismatch", "video", "  viewer-grid 53 x 20", "osd", "  grid 50 x 18")).toEqual([
      ["The craft's grid, line 4"],
    ]);
  });

  test("video-band and video-power: the region", () => {
    const video = ["video", "  frequency 5658 MHz", "  power 600 mW", "  region europe"];
    expect(related("video-band", ...video)).toEqual([["The region, line 4"]]);
    expect(related("video-power", ...video)).toEqual([["The region, line 4"]]);
  });
});

describe("channel-shared", () => {
  const shared = (first: string, second: string, more: Record<string, string>) =>
    findingsOf(workspaceOf({ ...more, "jug.fettle": `craft "Jug"\nuse "${first}"\nuse "${second}"\n` }), "jug.fettle")
      .filter(({ code }) => code === "channel-shared")
      .map(({ range, message }) => `line ${range.start.line}: ${message}`);
  const controls = "controls\n  XL switch ch5 up 1000 us down 2000 us\n";
  const files = {
    "wheel.fettle": WHEEL,
    "base.fettle": `layer "Base"\n${controls}`,
    "two.fettle": `handset "Two"\nuse "wheel.fettle"\n${controls}`,
  };

  test("of a layer and a handset the layer is to correct, in whichever order they are used", () => {
    const message =
      "XL and TL both drive ch5: give one of them a channel of its own. It stands in line 3 of base.fettle: XL switch ch5 up 1000 us down 2000 us.";
    expect(shared("wheel.fettle", "base.fettle", files)).toEqual([`line 2: ${message}`]);
    expect(shared("base.fettle", "wheel.fettle", files)).toEqual([`line 1: ${message}`]);
  });

  test("of a handset and the one that it uses, in the craft", () => {
    const none = { ...files, "none.fettle": 'layer "None"\n' };
    expect(shared("none.fettle", "two.fettle", none)).toEqual([
      "line 2: XL and TL both drive ch5: give one of them a channel of its own. It stands in line 4 of two.fettle: XL switch ch5 up 1000 us down 2000 us.",
    ]);
  });
});

test("unusual-value: what is unusual in a layer by itself hides nothing else that is unusual in the craft", () => {
  const unusual = reported("unusual-value", ['use "motors.fettle"', "frame", "  propeller-diameter 10 in"], {
    "motors.fettle": 'layer "Motors"\nsafety\n  arm-tilt-limit 2 deg\nmotors\n  kv 5000 rpm/V\n',
  });
  expect(unusual).toEqual([expect.stringContaining("5000 rpm/V, where")]);
});

test("video-power: outside all bands the limit of the nearest counts", () => {
  const power = (mw: number) =>
    reported("video-power", ["video", "  frequency 5658 MHz", `  power ${mw} mW`, "  region europe"]);
  expect(power(25)).toEqual([]);
  expect(power(30)).toEqual([expect.stringContaining("europe allows 25 mW from 5725 to 5875 MHz")]);
});

test("throttle-cannot-arm waits for a measured throttle", () => {
  expect(reported("throttle-cannot-arm", ["safety", "  arm-throttle-limit 1020 us"])).toEqual([]);
});

test("tune-hot: only a filter that is new takes the place of a dropped one", () => {
  const [smooth, moving] = ["smooth-gyro cut 90 Hz", "moving-cut idle 200 Hz full 500 Hz"];
  const dropped = (base: readonly string[], own: readonly string[], middle: readonly string[] = []) =>
    reported("tune-hot", ['use "base.fettle"', 'use "middle.fettle"', "filters", ...own.map((line) => `  ${line}`)], {
      "base.fettle": `layer "Base"\nfilters\n${base.map((line) => `  ${line}\n`).join("")}`,
      "middle.fettle": `layer "Middle"\nfilters\n${middle.map((line) => `  ${line}\n`).join("")}`,
    }).map((each) => each.split(": ")[1]!.split(", which")[0]);
  expect(dropped([smooth], ["drop smooth-gyro", moving])).toEqual([]);
  expect(dropped([smooth], [moving], ["drop smooth-gyro"])).toEqual([]);
  // Both were at work together, and one of them is left.
  const gone = "smooth-gyro (cut 90 Hz) is taken away";
  expect(dropped([smooth, moving], ["drop smooth-gyro"])).toEqual([gone]);
  expect(dropped([smooth], ["drop smooth-gyro"], [moving])).toEqual([gone]);
  expect(dropped([smooth, moving], ["drop smooth-gyro", moving])).toEqual([gone]);
  expect(dropped([smooth, moving], ["drop moving-cut"])).toEqual([
    "moving-cut (idle 200 Hz full 500 Hz) is taken away",
  ]);
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
    ]).map((each) => / So (.*?)\. /.exec(each)?.[1]);
  const four = ["home-distance", "home-arrow", "speed", "satellites"];
  expect(also("satellites")).toEqual([undefined]);
  expect(also(...four)).toEqual(["do home-arrow, speed and satellites"]);
  expect(also(...four, "latitude", "longitude")).toEqual(["do home-arrow, speed, satellites and 2 more"]);
});

describe("a line with a fault stops no rule", () => {
  test.each([
    ["direction-unchecked", "wrong-type", ["bench", "  roll kettle"]],
    ["levels-lost", "syntax", ["link", "  two-level 6", "adjust", "  overall kettle"]],
    ["port-missing", "wrong-type", ["ports", "  port1 receiver", "osd", "  satellites at kettle"]],
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

  test("nor does a handset's", () => {
    const workspace = workspaceOf({ "wheel.fettle": `${WHEEL}  XL switch ch5 up 1000\n` });
    expect(findingsOf(workspace, "wheel.fettle").map(({ code }) => code)).toEqual(["missing-unit"]);
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
