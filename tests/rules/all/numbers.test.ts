/** Rules that compute: the loop's time, the filters' delay, and where and how strongly the video transmitter sends. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { checkOnly, reported, workspaceOf } from "../check.ts";

describe("loop-budget", () => {
  const check = (rate: string, loop: string, more = "", mark = "") =>
    checkOnly(
      "loop-budget",
      `
    craft "Jug"
    motors
      esc-signal digital
      esc-rate ${rate}${mark && `\n               ${"^".repeat(rate.length)} loop-budget`}
      ${more}
    sensors
      loop-rate ${loop}
  `,
    );

  // Computed: 16 bits at 160 kbit/s are 100 us; with 25 us of pause 125 us, one round at 8 kHz.
  test("a command that fills the round fits, and a microsecond more does not", () => {
    check("160 kbit/s", "8 kHz", "esc-pause 25 us");
    const [found] = check("160 kbit/s", "8 kHz", "esc-pause 26 us", "not");
    expect(found).toMatchObject({ severity: "warning" });
    expect(found!.message).toContain("One command takes 126 us (16 bits at 160 kbit/s and 26 us of pause)");
    expect(found!.message).toContain(
      "one round at 8 kHz 125 us: take at least 162 kbit/s, or a loop of 7.93 kHz at most",
    );
    check("160 kbit/s", "4000 Hz", "esc-pause 0.15 ms");
  });

  // Computed: 53.3 us of command, 2 of pause, 25 to turn the wire round and 66.7 of answer are 147 us.
  test("an answer on the same wire counts", () => {
    const [found] = check("300 kbit/s", "8 kHz", "rpm-feedback yes", "not");
    expect(found!.message).toContain(
      "its answer on the same wire 91.7 us, together 147 us; one round at 8 kHz is 125 us",
    );
    check("600 kbit/s", "8 kHz", "rpm-feedback yes");
    check("300 kbit/s", "4 kHz", "rpm-feedback yes");
    check("300 kbit/s", "8 kHz", "rpm-feedback no");
  });

  // The catalogue's default pause is 2 us: 16 / 128 + 2 is 127 us.
  test("the pause counts where nobody says it", () => {
    check("130.1 kbit/s", "8 kHz");
    check("128 kbit/s", "8 kHz", "", "not");
    check("128 kbit/s", "8 kHz", "esc-pause 0 us");
  });

  test("a pause that alone fills the round leaves no bit rate to offer", () => {
    const [found] = check("600 kbit/s", "8 kHz", "esc-pause 130 us", "not");
    expect(found!.message).toContain("125 us: take a loop of 6.38 kHz at most");
  });

  test("silent for pulses, for a signal nobody said, and without a loop's rate", () => {
    for (const signal of ["esc-signal pulse", "idle 5 %"])
      checkOnly(
        "loop-budget",
        `
        craft "Jug"
        motors
          ${signal}
          esc-rate 100 kbit/s
        sensors
          loop-rate 8 kHz
      `,
      );
    checkOnly("loop-budget", 'craft "Jug"\nmotors\n  esc-signal digital\n  esc-rate 100 kbit/s\n');
  });
});

describe("filter-delay", () => {
  const check = (marked: string) => checkOnly("filter-delay", marked);

  // Analogue, at low frequency: order 1 at 100 Hz 1.5915 ms, order-2 Butterworth 2.2508 ms (computed).
  test("delays add up, and above 3 ms the slowest filter is pointed at", () => {
    const [found] = check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        smooth-gyro cut 100 Hz order 2
                    ^^^^^^^^^^^^^^^^^^ filter-delay
        smooth-d cut 100 Hz
    `);
    expect(found).toMatchObject({ severity: "hint" });
    expect(found!.message).toContain(
      "by 3.84 ms, more than the 3 ms that suit propellers of 5 in (the project's own figure)",
    );
    expect(found!.message).toContain("smooth-gyro 2.25 ms, smooth-d 1.59 ms");
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        smooth-gyro cut 100 Hz order 2
        smooth-d cut 250 Hz
    `);
  });

  // Sampled at 4 kHz: 1.588 and 2.246 ms (computed).
  test("at the loop's rate it is the sampled filters that count", () => {
    const [found] = check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      sensors
        loop-rate 4 kHz
      filters
        smooth-gyro cut 100 Hz order 2
                    ^^^^^^^^^^^^^^^^^^ filter-delay
        smooth-d cut 100 Hz
    `);
    expect(found!.message).toContain("smooth-gyro 2.25 ms, smooth-d 1.59 ms");
    expect(found!.related.map(({ message }) => message)).toEqual(["smooth-d: 1.59 ms"]);
  });

  // Order 1: 1 / (2 pi f) is 3.0 ms at 53.05 Hz.
  test("just under 3 ms is nothing, just over is", () => {
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        smooth-gyro cut 53.1 Hz
    `);
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        smooth-gyro cut 52.9 Hz
                    ^^^^^^^^^^^ filter-delay
    `);
  });

  // A notch delays by width / (2 pi f²): 30 Hz wide at 60 Hz is 1.33 ms.
  test("notches and moving cuts count, these at their idle end", () => {
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        notch at 60 Hz width 30 Hz
        notch at 60 Hz width 30 Hz
        notch at 60 Hz width 31 Hz
              ^^^^^^^^^^^^^^^^^^^^ filter-delay
    `);
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        notch at 60 Hz width 30 Hz
        notch at 60 Hz width 30 Hz
    `);
    check(`
      craft "Jug"
      frame
        propeller-diameter 5 in
      filters
        moving-cut idle 50 Hz full 400 Hz
                   ^^^^^^^^^^^^^^^^^^^^^^ filter-delay
    `);
  });

  test("larger craft are given more time, and twice as much is a warning", () => {
    // Computed: order 1 delays by 1000 / (2 pi f) ms: 3.98 at 40 Hz, 5.31 at 30 Hz, 6.37 at 25 Hz, 9.09 at 17.5 Hz, 12.24 at 13 Hz.
    const severity = (inches: string, cut: number) =>
      reported("filter-delay", [
        ...(inches === "" ? [] : ["frame", `  propeller-diameter ${inches}`]),
        "filters",
        `  smooth-gyro cut ${cut} Hz`,
      ])
        .map((each) => each.split(" ")[0])
        .join();
    expect([40, 25].map((cut) => severity("5.5 in", cut))).toEqual(["hint", "warning"]);
    expect([40, 30, 17.5].map((cut) => severity("7 in", cut))).toEqual(["", "hint", "warning"]);
    expect([30, 25, 13].map((cut) => severity("10 in", cut))).toEqual(["", "hint", "warning"]);
    // Where no size is said the mildest of the figures counts.
    expect([30, 25, 13].map((cut) => severity("", cut))).toEqual(["", "hint", "warning"]);
  });

  test("the notches of the motors count where the hover's turns are known", () => {
    const text = (known: string, mark = "") => `
      craft "Jug"
      frame
        propeller-diameter 5 in
        motors 4
        ${known}
      pack
        cells 6
        chemistry lipo
      motors
        kv 1750 rpm/V
      sensors
        loop-rate 8 kHz
      filters
        smooth-gyro cut 60 Hz${mark}
        motor-notches count 1 floor 60 Hz width 20 Hz
    `;
    check(text("mass 600 g"));
    // Computed: 0.24 of 22.2 V at 1750 rpm/V is 155 turns a second; four notches of 20 Hz there take 0.53 ms, the low-pass 2.65 ms.
    const [found] = check(text("hover-throttle 24 %", "\n                    ^^^^^^^^^ filter-delay"));
    expect(found!.message).toContain("by 3.18 ms");
    expect(found!.message).toContain("motor-notches in the hover 0.53 ms");
  });
});

describe("video-band", () => {
  const check = (lines: string, others = {}) => checkOnly("video-band", `craft "Jug"\nvideo\n${lines}`, others);
  const at = (mhz: number, region: string, signal: string, mark = "") =>
    check(
      `  frequency ${mhz} MHz\n${mark && `            ${"^".repeat(`${mhz} MHz`.length)} video-band\n`}  region ${region}\n  signal ${signal}`,
    );

  // Eight channels 5658 + 37 (n - 1) MHz: of their carriers only these four lie in 5725 to 5875 MHz
  // (ETSI EN 300 440 V2.2.1 Table 1). An analogue signal is about 18 MHz wide, so 5732 spills over, which is usual (practice).
  test("of eight channels in Europe", () => {
    const found = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => {
      const mhz = 5658 + 37 * (n - 1);
      const text = `craft "Jug"\nvideo\n  frequency ${mhz} MHz\n  region europe\n  signal analogue\n`;
      return [mhz, checkSeverity(text)];
    });
    expect(found).toEqual([
      [5658, "warning"],
      [5695, "warning"],
      [5732, undefined],
      [5769, undefined],
      [5806, undefined],
      [5843, undefined],
      [5880, "warning"],
      [5917, "warning"],
    ]);
  });

  test("a band holds its own edges, and a digital signal is judged by its carrier", () => {
    at(5725, "europe", "digital");
    at(5875, "europe", "digital");
    at(5876, "europe", "digital", "outside");
    at(2483.5, "europe", "analogue");
    at(2483.5, "europe", "digital");
  });

  test("a digital signal that spills over by the width that is said of it is a warning; an analogue one never is", () => {
    const wide = (mhz: number, signal: string, widthMhz: number) =>
      checkSeverity(
        `craft "Jug"\nvideo\n  signal ${signal}\n  region europe\n  signal-width ${widthMhz} MHz\n  frequency ${mhz} MHz\n`,
      );
    // Computed: 5735 - 10 is the band's own edge.
    expect(wide(5735, "digital", 20)).toBeUndefined();
    expect(wide(5735, "digital", 21)).toBe("warning");
    expect(wide(5865, "digital", 20)).toBeUndefined();
    expect(wide(5866, "digital", 20)).toBe("warning");
    expect(wide(5732, "analogue", 40)).toBeUndefined();
  });

  // 47 CFR 97.301(a): 5.650 to 5.925 GHz in Region 2, 5.650 to 5.850 in Regions 1 and 3.
  test("licensed amateurs have bands of their own, which differ between regions", () => {
    at(5917, "amateur-region-2", "digital");
    at(5917, "amateur-region-1", "digital", "outside");
    at(5843, "amateur-region-3", "digital");
    at(5658, "amateur-region-3", "digital");
    at(5645, "amateur-region-3", "digital", "outside");
    // Of an amateur's bands further down nothing is known here.
    at(1280, "amateur-region-1", "digital");
  });

  test("in other units, at the spare channel, and silent without a region", () => {
    const [found] = check(
      "  frequency 5.8 GHz\n  spare-frequency 5.9 GHz\n                  ^^^^^^^ video-band\n  region usa",
    );
    expect(found!.message).toMatch(
      /^5900 MHz lies outside the bands of the region .* Local rules have the last word\.$/,
    );
    check("  frequency 5.9 GHz");
  });

  // 47 CFR 15.407: 5150-5350 and 5470-5725 MHz; (EU) 2022/179: on unmanned craft 5170-5250 MHz only. Both from memory.
  test("in network bands a digital link may be network equipment: a hint, where such may fly", () => {
    for (const [mhz, region] of [
      [5660, "usa"],
      [5320, "usa"],
      [5180, "europe"],
    ] as const)
      expect(at(mhz, region, "digital", "network")[0]).toMatchObject({ severity: "hint" });
    for (const [mhz, region, signal] of [
      [5660, "usa", "analogue"],
      [5400, "usa", "digital"],
      [5660, "europe", "digital"],
      [5160, "europe", "digital"],
    ] as const)
      expect(at(mhz, region, signal, "outside")[0]).toMatchObject({ severity: "warning" });
  });

  test("bands that lie in one another are named as one", () => {
    const [found] = at(5900, "usa", "digital", "outside");
    expect(found!.message).toContain("usa has 902 to 928 MHz, 2400 to 2483.5 MHz, 5725 to 5875 MHz)");
  });
});

describe("video-power", () => {
  const check = (lines: string) => checkOnly("video-power", `craft "Jug"\nvideo\n${lines}`);
  const sends = (power: string, mhz: number, region: string, signal: string, mark = "") =>
    check(
      `  power ${power}\n${mark && `        ${"^".repeat(power.length)} video-power\n`}  frequency ${mhz} MHz\n  region ${region}\n  signal ${signal}`,
    );

  // 25 mW e.i.r.p. in 5725 to 5875 MHz: ERC/REC 70-03 annex 1, from memory. 25 mW are 13.98 dBm (computed).
  test("25 mW at 5.8 GHz in Europe, also as 14 dBm, and not 15 dBm", () => {
    sends("25 mW", 5800, "europe", "analogue");
    sends("14 dBm", 5800, "europe", "analogue");
    sends("0.025 W", 5800, "europe", "digital");
    const [found] = sends("15 dBm", 5800, "europe", "analogue", "above");
    expect(found!.message).toContain("power is 31.6 mW, and europe allows 25 mW from 5725 to 5875 MHz");
    expect(found!.message).toMatch(/Local rules have the last word\.$/);
  });

  // ETSI EN 300 328: 20 dBm e.i.r.p. at 2.4 GHz (quoted); 100 mW are 20 dBm (computed).
  test("100 mW at 2.4 GHz in Europe", () => {
    sends("100 mW", 2420, "europe", "digital");
    sends("200 mW", 2420, "europe", "digital", "above");
  });

  // 47 CFR 15.247(b): 1 W for digital signals, up to 5850 MHz (quoted, read); 15.249(a): 0.75 mW (computed, OET Bulletin 63).
  test("in the United States a digital signal may send 1 W, an analogue one hardly anything", () => {
    sends("1 W", 5800, "usa", "digital");
    sends("1100 mW", 5800, "usa", "digital", "above");
    sends("25 mW", 5860, "usa", "digital", "above");
    sends("25 mW", 5800, "usa", "analogue", "above");
    sends("0.75 mW", 5800, "usa", "analogue");
  });

  test("an amateur's power is the licence's business, and without a region nothing is known", () => {
    sends("1 W", 5800, "amateur-region-1", "analogue");
    check("  power 800 mW\n  frequency 5800 MHz");
  });

  test("outside every band the nearest one's limit counts; without a channel, the most that any allows", () => {
    sends("600 mW", 5658, "europe", "analogue", "above");
    check("  power 100 mW\n  region europe");
    check("  power 200 mW\n        ^^^^^^ video-power\n  region europe");
  });

  test("disarmed and after loss it transmits too; the strongest step only where a mode takes it", () => {
    check(
      "  power 25 mW\n  power-disarmed lowest\n  power-lost 200 mW\n             ^^^^^^ video-power\n  power-steps 25, 200 mW\n  frequency 5800 MHz\n  region europe",
    );
    check(
      "  power-steps 25, 200 mW\n              ^^^^^^^^^^ video-power\n  frequency 5800 MHz\n  region europe\nmodes\n  video-high when always",
    );
  });
});

function checkSeverity(text: string): string | undefined {
  const findings = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle");
  return findings.find(({ code }) => code === "video-band")?.severity;
}
