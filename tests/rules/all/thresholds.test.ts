/** From which value on a rule reports, and with which of its messages: one case for each way. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { reported, WHEEL, workspaceOf } from "../check.ts";

describe("arm-tilt-open", () => {
  const propellers = (inches: number) => ["frame", `  propeller-diameter ${inches} in`];
  const open = (limit: string, inches = 5, ...more: string[]) =>
    reported("arm-tilt-open", ["safety", `  arm-tilt-limit ${limit}`, ...propellers(inches), ...more]);
  const HAND = "The craft arms in any attitude, also in the hand.";

  test("from 90 degrees on a limit is open", () => {
    expect(open("89 deg")).toEqual([]);
    expect(open("90 deg")).toEqual([`hint arm-tilt-limit 90 deg: ${HAND}`]);
    expect(open("any")).toEqual([`hint arm-tilt-limit any: ${HAND}`]);
    expect(open("90")).toEqual([]);
  });

  test("with propellers of 7 in it is a warning, unless a second switch permits arming", () => {
    const advice = "With propellers of 7 in set a limit, or a second switch as arm-permit.";
    const permit = ["modes", "  arm-permit when TR is up"];
    expect(open("any", 6.9)).toEqual([`hint arm-tilt-limit any: ${HAND}`]);
    expect(open("any", 7)).toEqual([`warning arm-tilt-limit any: ${HAND} ${advice}`]);
    expect(open("any", 7, ...permit)).toEqual([`hint arm-tilt-limit any: ${HAND}`]);
  });

  test("of a small craft, or one of which the size is not said, nothing is said", () => {
    expect(open("any", 1.9)).toEqual([]);
    expect(open("any", 2)).toEqual([`hint arm-tilt-limit any: ${HAND}`]);
    expect(reported("arm-tilt-open", ["safety", "  arm-tilt-limit any"])).toEqual([]);
  });
});

test("band-mismatch is silent where either band is not known", () => {
  const bands = (own: string, handset: string) =>
    reported("band-mismatch", ['use "h.fettle"', "link", `  ${own}`], {
      "h.fettle": `handset "H"\ntransmitter\n  ${handset}\n`,
    });
  expect(bands("band 868 MHz", "band 2.4 GHz")).toEqual([
    "error band 868 MHz: The receiver is on 868 MHz and the handset's module on 2.4 GHz: the two never bind.",
  ]);
  expect(bands("band 868 MHz", "band red")).toEqual([]);
  expect(bands("band red", "band 2.4 GHz")).toEqual([]);
});

test("cells-ambiguous needs both ends of a cell", () => {
  const detected = (...lines: string[]) =>
    reported("cells-ambiguous", ["pack", "  cells detect", ...lines.map((line) => `  ${line}`)]).length;
  expect(detected("full-at 4.2 V/cell", "land-at 3.3 V/cell")).toBe(1);
  expect(detected("full-at 4.2 V/cell", "warn-at 3.3 V/cell")).toBe(1);
  expect(detected("full-at 4.2 V/cell")).toBe(0);
  expect(detected("land-at 3.3 V/cell")).toBe(0);
});

test("channel-beyond passes over a control whose line has a fault", () => {
  const beyond = (line: string) => reported("channel-beyond", ["controls", `  ${line}`, "link", "  channels 8"]);
  expect(beyond("XL switch ch9 up 1000 us down 2000 us")).toEqual([
    "error XL switch ch9 up 1000 us down 2000 us: XL drives ch9, and the link carries 8 channels.",
  ]);
  expect(beyond("XL switch ch8 up 1000 us down 2000 us")).toEqual([]);
  expect(beyond("XL switch ch9 up 1000")).toEqual([]);
});

test("two modes that clash wherever the controls are", () => {
  const [found] = reported("mode-clash", ["modes", "  lights when always", "  lights-off when always"]);
  expect(found).toContain("lights and lights-off are on together with any position of the controls.");
});

describe("current-over-rating", () => {
  const over = (allowed: string, pack: string) =>
    reported("current-over-rating", [
      "motors",
      `  esc-rating 20 A${allowed}`,
      "pack",
      `  capacity 1000 mAh${pack}`,
      "  discharge-rating 90 C",
      "  full-current 85 A",
    ]);
  const note = " # allow current-over-rating: a bench supply";

  test("controllers that are overdrawn are told alone, and only a note on a line of theirs accepts it", () => {
    expect(over("", "")).toEqual([
      "hint full-current 85 A: The craft draws 85 A at full throttle, and 4 controllers of 20 A carry 80 A: take stronger controllers, or limit the motors.",
    ]);
    expect(over(note, "")).toEqual([]);
    expect(over("", note)).toHaveLength(1);
  });
});

test("endpoints-off says whether an end falls short of the end point or goes beyond it", () => {
  const ends = (range: string) =>
    reported("endpoints-off", ["bench", `  roll ${range}`]).map((each) => each.split(" and ")[1]);
  const of = "an end point (1000 us to 2000 us): adjust it on the handset.";
  expect(ends("1000 us to 2000 us")).toEqual([]);
  expect(ends("1020 us to 2000 us")).toEqual([`falls 20 us short of ${of}`]);
  expect(ends("1000 us to 1980 us")).toEqual([`falls 20 us short of ${of}`]);
  expect(ends("975 us to 2025 us")).toEqual([]);
  expect(ends("974 us to 2000 us")).toEqual([`goes 26 us beyond ${of}`]);
  expect(ends("1000 us to 2026 us")).toEqual([`goes 26 us beyond ${of}`]);
});

describe("where findings stand, and in which order", () => {
  const code = (wanted: string) => (finding: { code: string }) => finding.code === wanted;

  test("of a handset that stands in for the craft's own, on the craft's first line", () => {
    const workspace = workspaceOf({
      "jug.fettle": 'craft "Jug"\nlink\n  channels 8\nmodes\n  arm when XL is up\n',
      "other.fettle": 'handset "Other"\ncontrols\n  XL switch ch9 up 1000 us down 2000 us\n',
    });
    expect(findingsOf(workspace, "jug.fettle", "other.fettle").filter(code("channel-beyond"))).toMatchObject([
      {
        file: "jug.fettle",
        range: { start: { line: 0, character: 0 }, end: { line: 0, character: 11 } },
        related: [{ message: "This line says so", file: "other.fettle", range: { start: { line: 2, character: 12 } } }],
      },
    ]);
  });

  test("two of one rule in one place, by their messages", () => {
    const never = reported("condition-never", ['use "base.fettle"'], {
      "base.fettle":
        'layer "Base"\nmodes\n  level when TL is up and TL is down\n  finder when TL is up and TL is down\n',
    });
    expect(never.map((each) => each.match(/\w+ can never be on/)![0])).toEqual([
      "finder can never be on",
      "level can never be on",
    ]);
  });

  test("two of different rules in one place, by their codes", () => {
    const workspace = workspaceOf({
      "jug.fettle": 'craft "Jug"\nuse "base.fettle"\n',
      "base.fettle": 'layer "Base"\npack\n  cells 99\nmodes\n  level when always and not always\n',
    });
    const onUse = findingsOf(workspace, "jug.fettle").filter(({ range }) => range.start.character === 4);
    expect(onUse.map((finding) => finding.code)).toEqual(["arm-missing", "condition-never", "use-broken"]);
  });

  test("of a file in a newer edition nothing else is told", () => {
    const text = 'pack\n  cells 99\nkettle\ncraft "Jug" edition 99\nuse "none.fettle"\n';
    const found = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle");
    expect(found.map((finding) => finding.code)).toEqual(["edition-newer"]);
  });
});

test("a handset's control beyond the link counts where the craft makes use of it, and is told at a test of its channel", () => {
  const beyond = (condition: string) =>
    reported("channel-beyond", ['use "long.fettle"', "link", "  channels 8", "modes", `  arm when ${condition}`], {
      "long.fettle": `${WHEEL}  XL switch ch10 up 1000 us down 2000 us\n`,
    });
  expect(beyond("TL is up")).toEqual([]);
  expect(beyond("XL is up")).toEqual([
    'error use "long.fettle": XL drives ch10, and the link carries 8 channels. It stands in line 7 of long.fettle: XL switch ch10 up 1000 us down 2000 us.',
  ]);
  expect(beyond("ch10 above 1500 us")).toEqual([
    "error arm when ch10 above 1500 us: The link carries 8 channels: ch10 never arrives.",
  ]);
});

test("failsafe-holds-arm is silent where what the failsafe does has a fault", () => {
  const holds = (then: string) =>
    reported("failsafe-holds-arm", ["failsafe", `  then ${then}`, "  descend-throttle 20 %", "  descend-for 0 s"]);
  expect(holds("descend")).toEqual([
    "error descend-for 0 s: When the signal is lost the descent has no end with its motors above idle.",
  ]);
  expect(holds("kettle")).toEqual([]);
});

test("filter-delay: notches that go with the motors are named where they are said, and are no finding alone", () => {
  const late = (...filters: string[]) =>
    reported("filter-delay", [
      ...[
        "frame",
        "  propeller-diameter 5 in",
        "  motors 4",
        "  hover-throttle 24 %",
        "pack",
        "  cells 6",
        "  chemistry lipo",
      ],
      ...["motors", "  kv 1750 rpm/V", "sensors", "  loop-rate 8 kHz", "filters", ...filters],
    ]).map((each) => each.match(/\(the project's own figure\): (.*)\. Damping/)![1]);
  const notches = (width: number) => `  motor-notches count 1 floor 60 Hz width ${width} Hz`;
  expect(late("  smooth-gyro cut 50 Hz")).toEqual(["smooth-gyro 3.18 ms"]);
  expect(late("  smooth-gyro cut 60 Hz", notches(20))).toEqual([
    "smooth-gyro 2.65 ms, motor-notches in the hover 0.53 ms",
  ]);
  expect(late(notches(200))).toEqual([]);
});

describe("two modes of which one yields", () => {
  const both = (code: string, ...modes: string[]) => reported(code, ["modes", ...modes.map((mode) => `  ${mode}`)]);

  test("mode-overlap names positions in which both are on", () => {
    const [found] = both("mode-overlap", "level when TL is up", "level-blend when TR is up");
    expect(found).toMatch(/^hint level-blend when TR is up: With TL up, TR up both level and level-blend are on, and/);
    expect(both("mode-overlap", "level when TL is up", "level-blend when TL is down")).toEqual([]);
  });

  test("mode-shadowed is said where the one is never on alone, and mode-overlap then keeps silent", () => {
    const lines = ["level when TL is up", "level-blend when TL is up and TR is up"];
    expect(both("mode-shadowed", ...lines)).toHaveLength(1);
    expect(both("mode-overlap", ...lines)).toEqual([]);
  });

  test("both are silent where a condition has a fault, or can never be true", () => {
    for (const code of ["mode-overlap", "mode-shadowed"]) {
      expect(both(code, "level when TL is up", "level-blend when TL")).toEqual([]);
      expect(both(code, "level when TL", "level-blend when TL is up")).toEqual([]);
      expect(both(code, "level when TL is up", "level-blend when TL is up and TL is down")).toEqual([]);
      expect(both(code, "level when TL is up and TL is down", "level-blend when TL is up")).toEqual([]);
    }
  });
});

test("mode-needs: a setting that must not say one word may say any other, or nothing", () => {
  const lacks = (...recorder: string[]) => reported("mode-needs", [...recorder, "modes", "  recorder when TL is up"]);
  expect(lacks("recorder", "  to off")).toEqual([
    "error recorder when TL is up: recorder needs a recorder that is on, and recorder.to is off, line 4. The recording has to have somewhere to go.",
  ]);
  expect(lacks("recorder", "  to card")).toEqual([]);
  expect(lacks()).toEqual([]);
});

describe("the display", () => {
  test("osd-essentials lists all that is missing", () => {
    const missing = (...osd: string[]) =>
      reported("osd-essentials", ["osd", "  sight at centre, centre", ...osd]).map((each) => each.split(": ")[1]);
    expect(missing()).toEqual([
      "In flight the display shows no voltage (pack-volts or cell-volts), no link figure (link-quality or signal), no alerts and no flight-time.",
    ]);
    expect(missing("  pack-volts at 2, 2", "  link-quality at 10, 2")).toEqual([
      "In flight the display shows no alerts and no flight-time.",
    ]);
    expect(missing("  pack-volts at 2, 2", "  link-quality at 10, 2", "  alerts at 2, 5")).toEqual([]);
  });

  test("osd-unsafe-area says how much is sure to be seen", () => {
    const [found] = reported("osd-unsafe-area", [
      "video",
      "  signal analogue",
      "osd",
      "  grid pal",
      "  pack-volts at 0, 0",
    ]);
    expect(found).toContain("of a 4:3 picture only the middle 90 % is sure to be seen, here columns 2 to 27");
  });
});

describe("port-missing", () => {
  const missing = (...lines: string[]) => reported("port-missing", ["ports", "  port1 receiver", ...lines]);

  test("a named pack needs the port of its own meter", () => {
    expect(missing('pack "6S"', "  volts-from esc-data")).toEqual([
      expect.stringMatching(
        /^error volts-from esc-data: “volts-from esc-data” needs the controllers' data wire on a port, and no port is said/,
      ),
    ]);
    expect(missing('pack "6S"', "  volts-from board")).toEqual([]);
  });

  test("an alert's threshold needs it once the alert is on", () => {
    const far = (...alerts: string[]) => missing("osd", "  distance-alert 500 m", ...alerts).length;
    expect(far("  alert-on far")).toBe(1);
    expect(far("  alert-on low-pack, far")).toBe(1);
    expect(far("  alert-on low-pack")).toBe(0);
    expect(far()).toBe(0);
  });
});

describe("tune-hot", () => {
  const over = (layer: readonly string[], ...lines: string[]) =>
    reported("tune-hot", ['use "base.fettle"', ...lines], { "base.fettle": `layer "Base"\n${layer.join("\n")}\n` }).map(
      (each) => each.split(", which")[0],
    );

  test("a number that is no heat to the motors may rise", () => {
    expect(over(["gains", "  i-limit 20 %"], "gains", "  i-limit 30 %")).toEqual([]);
    expect(over(["gains", "  overall 1"], "gains", "  overall 1.1")).toEqual([
      "warning overall 1.1: overall is 1.1, up from 1",
    ]);
    expect(over(["filters", "  smooth-yaw 0.09 kHz"], "filters", "  smooth-yaw 91 Hz")).toEqual([
      "warning smooth-yaw 91 Hz: smooth-yaw is 91 Hz, up from 0.09 kHz",
    ]);
    expect(over(["filters", "  smooth-yaw 0.09 kHz"], "filters", "  smooth-yaw 90 Hz")).toEqual([]);
  });

  test("a filter that is dropped is missed, in whatever way it is set; a gain, or what smooths the sticks, is not", () => {
    expect(over(["gains", "  roll d 0.5"], "gains", "  drop roll")).toEqual([]);
    expect(over(["filters", "  smooth-yaw 90 Hz"], "filters", "  drop smooth-yaw")).toEqual([
      "warning drop smooth-yaw: smooth-yaw (90 Hz) is taken away",
    ]);
    expect(over(["filters", "  smooth-sticks 100 Hz"], "filters", "  drop smooth-sticks")).toEqual([]);
  });
});

describe("use lines", () => {
  test("a path that is near to none has no question", () => {
    expect(reported("use-missing", ['use "kettle-of-fish.fettle"'])[0]).toMatch(
      /^error use "kettle-of-fish.fettle": .*\.$/,
    );
    expect(reported("use-missing", ['use "wheels.fettle"'])[0]).toMatch(/Did you mean “wheel.fettle”\?$/);
  });

  test("a note accepts no unknown name, so the file stays broken", () => {
    const base = (line: string) => ({ "base.fettle": `layer "Base"\npack\n  ${line}\n` });
    const use = ['use "base.fettle"'];
    expect(reported("use-broken", use, base("cells 99 # allow out-of-range: a bench supply"))).toEqual([]);
    expect(reported("use-broken", use, base("kettle 4 # allow unknown-name: one fine day"))).toHaveLength(1);
  });
});

test("video-power: a limit for digital signals counts where the kind of signal is not said", () => {
  const power = (mw: number, ...signal: string[]) =>
    reported("video-power", ["video", "  frequency 5800 MHz", `  power ${mw} mW`, "  region usa", ...signal]).length;
  expect(power(600)).toBe(0);
  expect(power(600, "  signal digital")).toBe(0);
  expect(power(600, "  signal analogue")).toBe(1);
  expect(power(1200)).toBe(1);
  // Without a frequency the band that allows most counts.
  const anywhere = (mw: number, ...signal: string[]) =>
    reported("video-power", ["video", `  power ${mw} mW`, "  region usa", ...signal]).length;
  expect(anywhere(600)).toBe(0);
  expect(anywhere(1200)).toBe(1);
  expect(anywhere(600, "  signal analogue")).toBe(1);
});
