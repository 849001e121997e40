/** The moments of a flight: readings that agree with each other, texts that fit, and what flashes. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { fillTemplate, sampleText } from "../../shared/osd/element-text.ts";
import { sizeOf } from "../../shared/osd/layout.ts";
import type { Scenario } from "../../shared/osd/placed.ts";
import { displayStateOf } from "../../shared/osd/scenarios.ts";
import { SCENARIOS } from "../../shared/protocol/osd.ts";
import { craftOf } from "../model/effective.ts";
import { workspaceOf } from "../rules/check.ts";

const catalogue = makeCatalogue();
const moments: readonly Scenario[] = SCENARIOS.map(({ name }) => name);

function craft(entries: string): Craft {
  return craftOf({ "a.fettle": `craft "Jug"\n${entries}` });
}
const read = (of: Craft, scenario: Scenario, name: string) => Number(displayStateOf(of, scenario).readings.get(name));
const alert = (of: Craft, scenario: Scenario) => displayStateOf(of, scenario).readings.get("alert");
const flashing = (of: Craft, scenario: Scenario) => [...displayStateOf(of, scenario).flashes].sort();

/** Every craft of the demo's shed, and one that says nothing. */
function shed(): Craft[] {
  const folders = ["craft", "handsets", "layers"];
  const files = Object.fromEntries(
    folders.flatMap((folder) =>
      readdirSync(inProject(`examples/${folder}`)).map((name) => [
        `/shed/${folder}/${name}`,
        readFileSync(inProject(`examples/${folder}/${name}`), "utf8"),
      ]),
    ),
  );
  const workspace = workspaceOf(files);
  return [...Object.keys(files).flatMap((file) => workspace.craft(file) ?? []), craft("")];
}

describe("texts", () => {
  const crafts = shed();

  test("every reading has a sample at every moment", () => {
    for (const of of crafts) {
      for (const scenario of moments) {
        const { readings } = displayStateOf(of, scenario);
        expect(catalogue.readings.map(({ name }) => name).filter((name) => !readings.has(name))).toEqual([]);
      }
    }
  });

  describe.each(catalogue.elements.map((element) => [element.name, element] as const))("%s", (_, element) => {
    test("its text, at every moment and on every craft of the shed, fits its cells uncut", () => {
      for (const of of crafts) {
        const { width, height } = sizeOf(element, of);
        for (const scenario of moments) {
          const { readings } = displayStateOf(of, scenario);
          const whole = element.shows.map((template) => fillTemplate(template, readings, catalogue));
          const shown = sampleText(element, readings, catalogue, width);
          for (const row of [...whole, ...shown]) expect([...row].length, row).toBeLessThanOrEqual(width);
          if (whole.join("").trim() !== "") expect(shown).toEqual(whole);
          expect(shown.length).toBe(element.drawn === "text" ? height : 0);
          expect(shown.join("")).not.toMatch(/[{}]|--|NaN|Infinity|undefined/);
        }
      }
    });

    test("its widest text is one that its template can give", () => {
      if (element.drawn !== "text") {
        expect(element.shows).toEqual([]);
        expect(element.widest.join("")).toMatch(/^#+$/);
        expect(new Set(element.widest.map((row) => row.length)).size).toBe(1);
        return;
      }
      expect(element.widest.length).toBe(element.shows.length);
      for (const [row, template] of element.shows.entries()) expect(element.widest[row]).toMatch(pattern(template));
    });
  });

  /** Every text that a template can give. */
  function pattern(template: string): RegExp {
    const parts = template.split(/(\{[^}]*\})/).map((part) => {
      const reading = /^\{([a-z-]+)(?:\.(\d)|:(clock))?\}$/.exec(part);
      if (!reading) return part.replace(/[.*+?^$()|[\]\\/]/g, "\\$&");
      const [, name, decimals, clock] = reading;
      if (clock) return "\\d+:[0-5]\\d";
      const unit = catalogue.readings.find((each) => each.name === name)?.unit;
      if (decimals) return `-?\\d+\\.\\d{${decimals}}`;
      return unit === "" ? ".+" : "-?\\d+";
    });
    return new RegExp(`^${parts.join("")}$`);
  }

  test("a number beyond an element's digits stands at the highest that it can show", () => {
    const watts = catalogue.element("watts")!;
    expect(sampleText(watts, new Map([["watts", 9999.4]]), catalogue, 5)).toEqual(["9999W"]);
    expect(sampleText(watts, new Map([["watts", 12_345]]), catalogue, 5)).toEqual(["9999W"]);
  });

  test("durations and times of day", () => {
    const text = (template: string, name: string, value: number) =>
      fillTemplate(template, new Map([[name, value]]), catalogue);
    expect(text("{flight-time:clock}", "flight-time", 59.6)).toBe("1:00");
    expect(text("{flight-time:clock}", "flight-time", 0)).toBe("0:00");
    expect(text("{time-of-day:clock}", "time-of-day", 15 * 60 + 7)).toBe("15:07");
    expect(text("{climb.1}", "climb", -0.04)).toBe("0.0");
  });
});

// --- Packs of all kinds ------------------------------------------------------------------------

const packs = fc
  .record({
    chemistry: fc.constantFrom("lipo", "lihv", "li-ion"),
    cells: fc.integer({ min: 1, max: 14 }),
    parallel: fc.integer({ min: 1, max: 4 }),
    capacity: fc.integer({ min: 80, max: 40_000 }),
    hover: fc.integer({ min: 1, max: 60 }),
    land: fc.option(fc.integer({ min: 26, max: 37 })),
    warn: fc.option(fc.integer({ min: 28, max: 39 })),
    after: fc.option(fc.integer({ min: 30, max: 95 })),
    reserve: fc.option(fc.integer({ min: 0, max: 50 })),
    resistance: fc.option(fc.integer({ min: 1, max: 120 })),
  })
  .map((pack) => {
    const lines = [
      `chemistry ${pack.chemistry}`,
      `cells ${pack.cells}`,
      `parallel ${pack.parallel}`,
      `capacity ${pack.capacity} mAh`,
      `hover-current ${pack.hover} A`,
      ...(pack.land === null ? [] : [`land-at ${pack.land / 10} V/cell`]),
      ...(pack.warn === null ? [] : [`warn-at ${pack.warn / 10} V/cell`]),
      ...(pack.after === null ? [] : [`warn-after ${pack.after} %`]),
      ...(pack.reserve === null ? [] : [`reserve ${pack.reserve} %`]),
      ...(pack.resistance === null ? [] : [`cell-resistance ${pack.resistance} mohm`]),
    ];
    return { ...pack, craft: craft(`pack\n${lines.map((line) => `  ${line}\n`).join("")}`) };
  });

describe("of any pack", () => {
  test("the readings of a moment agree with each other", () => {
    fc.assert(
      fc.property(packs, fc.constantFrom(...moments), ({ craft: of, cells, capacity }, scenario) => {
        const value = (name: string) => read(of, scenario, name);
        expect(value("pack-volts")).toBeCloseTo(cells * value("cell-volts"), 6);
        expect(value("watts")).toBeCloseTo(value("pack-volts") * value("amps"), 6);
        // Ohm's law: under load a cell shows less than at rest.
        expect(value("rested-volts")).toBeGreaterThan(value("cell-volts"));
        expect(value("used-capacity")).toBeLessThanOrEqual(capacity);
        expect(Math.abs(value("charge-left") - 100 * (1 - value("used-capacity") / capacity))).toBeLessThanOrEqual(0.5);
        expect(value("time-left")).toBeGreaterThanOrEqual(0);
        expect(value("power-time")).toBeGreaterThan(value("flight-time"));
      }),
    );
  });

  test("where the craft is, how far it came and what time it is agree with each other", () => {
    const radiusM = 6_371_009;
    const rad = (deg: number) => (deg * Math.PI) / 180;
    fc.assert(
      fc.property(packs, ({ craft: of }) => {
        const homes = moments.map((scenario) => {
          const value = (name: string) => read(of, scenario, name);
          expect(value("travelled")).toBeGreaterThanOrEqual(value("home-distance"));
          for (const name of ["height", "speed"]) expect(value(`top-${name}`)).toBeGreaterThanOrEqual(value(name));
          expect(value("time-of-day")).toBeCloseTo((15 * 60 + 40 + value("flight-time") / 60) % (24 * 60), 6);
          // Along the arrow, as far as the figure says: the destination formula of the great circle (from memory).
          const [latitude, way] = [rad(value("latitude")), rad(value("heading") + value("home-bearing"))];
          const arc = value("home-distance") / radiusM;
          const home = Math.asin(
            Math.sin(latitude) * Math.cos(arc) + Math.cos(latitude) * Math.sin(arc) * Math.cos(way),
          );
          const east = Math.atan2(
            Math.sin(way) * Math.sin(arc) * Math.cos(latitude),
            Math.cos(arc) - Math.sin(latitude) * Math.sin(home),
          );
          return [home, rad(value("longitude")) + east];
        });
        const [first, ...others] = homes as [number[], ...number[][]];
        // All moments are of one flight, from one home: to a metre.
        for (const other of others) {
          expect(Math.abs(other[0]! - first[0]!) * radiusM).toBeLessThan(1);
          expect(Math.abs(other[1]! - first[1]!) * radiusM).toBeLessThan(1);
        }
      }),
      { numRuns: 30 },
    );
  });

  test("a flight empties the pack: fresh, half way, at its end", () => {
    fc.assert(
      fc.property(packs, ({ craft: of }) => {
        const along = (name: string) => (["fresh-pack", "mid-flight"] as const).map((each) => read(of, each, name));
        const [freshV, midV] = along("rested-volts") as [number, number];
        expect(freshV).toBeGreaterThanOrEqual(midV);
        const [freshMah, midMah] = along("used-capacity") as [number, number];
        expect(freshMah).toBeLessThanOrEqual(midMah);
      }),
    );
  });

  test("with a low pack, what the script warns at is passed, and only that flashes", () => {
    fc.assert(
      fc.property(packs, ({ craft: of, land, warn, after, reserve, capacity }) => {
        const volts = read(of, "low-pack", "cell-volts");
        if (land !== null) expect(volts).toBeLessThan(land / 10);
        else if (warn !== null) expect(volts).toBeLessThan(warn / 10);
        const isLow = land !== null || warn !== null;
        const flashes = flashing(of, "low-pack");
        expect(flashes.includes("cell-volts")).toBe(isLow);
        const used = read(of, "low-pack", "used-capacity");
        expect(flashes.includes("used-capacity")).toBe(after !== null && used >= (capacity * after) / 100);
        expect(flashes.includes("time-left")).toBe(reserve !== null && read(of, "low-pack", "time-left") === 0);
        expect(flashes.includes("alerts")).toBe(alert(of, "low-pack") !== "");
      }),
    );
  });

  test("no text is wider than its element, whatever the pack", () => {
    fc.assert(
      fc.property(packs, fc.constantFrom(...moments), ({ craft: of }, scenario) => {
        const { readings } = displayStateOf(of, scenario);
        for (const element of catalogue.elements) {
          const { width } = sizeOf(element, of);
          for (const row of sampleText(element, readings, catalogue, width)) {
            expect([...row].length, `${element.name}: ${row}`).toBeLessThanOrEqual(width);
          }
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe("by definition", () => {
  const of = craft("pack\n  cells 6\n  capacity 1000 mAh\n  hover-current 5 A\n");

  test("1 mAh is 3.6 A·s", () => {
    const value = (name: string) => read(of, "mid-flight", name);
    expect((value("amps") * value("flight-time")) / 3.6).toBeCloseTo(value("used-capacity"), -1);
    expect(((1000 - 200 - value("used-capacity")) * 3.6) / value("amps")).toBeCloseTo(value("time-left"), -1);
  });

  test("a cell's resistance in ohms, times the amperes, is the sag; strings side by side share the current", () => {
    const sag = (more: string) => {
      const each = craft(`pack\n  hover-current 10 A\n  cell-resistance 9 mohm\n${more}`);
      return read(each, "fresh-pack", "rested-volts") - read(each, "fresh-pack", "cell-volts");
    };
    expect(sag("")).toBeCloseTo(0.09, 9);
    expect(sag("  parallel 2\n")).toBeCloseTo(0.045, 9);
  });

  // A flying-club article (read): no more than about 80 % of the capacity: 2600 mAh gives 2080 mAh.
  test("half way is half of what may be used, by the script or by the club's rule", () => {
    const half = (more: string) => read(craft(`pack\n  capacity 2600 mAh\n${more}`), "mid-flight", "used-capacity");
    expect(half("")).toBe(2080 / 2);
    expect(half("  warn-after 1000 mAh\n")).toBe(500);
    expect(half("  warn-after 50 %\n")).toBe(650);
    expect(half("  reserve 30 %\n")).toBe(910);
  });

  // Cell makers' summaries (read): 4.20 V charge limit; ACT2804 datasheet (read): 4.35 V for the high-voltage kind.
  test.each([
    ["lipo", 4.2],
    ["li-ion", 4.2],
    ["lihv", 4.35],
  ])("a fresh %s cell rests a little under %f V", (chemistry, full) => {
    const volts = read(craft(`pack\n  chemistry ${chemistry}\n  capacity 1000 mAh\n`), "fresh-pack", "rested-volts");
    expect(volts).toBeLessThan(full);
    expect(volts).toBeGreaterThan(full - 0.06);
  });

  test("a pack that is charged short starts from there", () => {
    expect(read(craft("pack\n  full-at 4.1 V/cell\n"), "fresh-pack", "rested-volts")).toBeLessThanOrEqual(4.1);
  });
});

describe("alerts and what flashes", () => {
  test("warn and land: the more urgent one is shown", () => {
    const thresholds = "pack\n  warn-at 3.5 V/cell\n  land-at 3.3 V/cell\n";
    expect(alert(craft(thresholds), "low-pack")).toBe("PACK EMPTY");
    expect(alert(craft("pack\n  warn-at 3.5 V/cell\n"), "low-pack")).toBe("PACK LOW");
    expect(flashing(craft(thresholds), "low-pack")).toEqual(["alerts", "cell-volts", "pack-bar", "pack-volts"]);
    expect(flashing(craft(thresholds), "mid-flight")).toEqual([]);
    // Under load a cell of a craft that warns so early is below it in the middle of every flight.
    expect(alert(craft("pack\n  warn-at 3.8 V/cell\n"), "mid-flight")).toBe("PACK LOW");
  });

  test("a script that sets no threshold has no alert", () => {
    for (const scenario of moments.filter((each) => each !== "signal-lost")) {
      expect(alert(craft(""), scenario)).toBe("");
      expect(flashing(craft(""), scenario)).toEqual([]);
    }
  });

  test("the link: below the script's figures while it fades, nothing at all once it is lost", () => {
    const of = craft("osd\n  link-alert 60 %\n  signal-alert -95 dBm\n");
    expect(flashing(of, "mid-flight")).toEqual([]);
    expect(flashing(of, "link-fading")).toEqual(["alerts", "link-quality", "signal"]);
    expect(alert(of, "link-fading")).toBe("LINK WEAK");
    expect(read(of, "signal-lost", "link-quality")).toBe(0);
    expect(alert(of, "signal-lost")).toBe("SIGNAL LOST");
    expect(flashing(craft("osd\n  signal-alert -95 dBm\n"), "link-fading")).toEqual(["alerts", "signal"]);
  });

  test("once the signal is lost, the craft says what it will do", () => {
    const message = (more: string) => displayStateOf(craft(more), "signal-lost").readings.get("message");
    expect(message("")).toBe("SIGNAL LOST");
    for (const then of ["stop", "descend", "return"]) {
      expect(message(`failsafe\n  then ${then}\n`)).toBe(`SIGNAL LOST: ${then.toUpperCase()}`);
    }
  });

  test("only the alerts that the script lets through are shown; the figures flash all the same", () => {
    const of = craft("pack\n  land-at 3.3 V/cell\nosd\n  alert-on weak-link\n");
    expect(alert(of, "low-pack")).toBe("");
    expect(flashing(of, "low-pack")).toEqual(["cell-volts", "pack-bar", "pack-volts"]);
    expect(alert(of, "signal-lost")).toBe("SIGNAL LOST");
  });

  test.each([
    ["osd\n  height-alert 20 m\n", "height", "TOO HIGH"],
    ["osd\n  distance-alert 100 m\n", "home-distance", "TOO FAR"],
    ["osd\n  heat-alert 50 degC\n", "esc-heat", "ESC HOT"],
    ["osd\n  flight-time-alert 0.5 min\n", "flight-time", "FLIGHT TIME"],
    ["navigation\n  fix-needs 20\n", "satellites", "NO FIX"],
    ["pack\n  warn-after 1 %\n  capacity 100000 mAh\n", "used-capacity", "CHARGE USED UP"],
  ])("%j", (entries, element, text) => {
    const scenario = element === "used-capacity" ? "low-pack" : "mid-flight";
    expect(alert(craft(entries), scenario)).toBe(text);
    expect(flashing(craft(entries), scenario)).toContain(element);
  });

  test("what is not measured cannot be used up", () => {
    const pack = "pack\n  capacity 300 mAh\n  warn-after 240 mAh\n  reserve 20 %\n";
    expect(flashing(craft(pack), "low-pack")).toContain("used-capacity");
    expect(flashing(craft(`${pack}  current-from none\n`), "low-pack")).toEqual([]);
  });

  test("everything that may flash is an element, and every alert fits", () => {
    for (const of of [...shed(), craft("osd\n  link-alert 60 %\n  signal-alert -95 dBm\n  height-alert 5 m\n")]) {
      for (const scenario of moments) {
        for (const name of flashing(of, scenario)) expect(catalogue.element(name)?.name).toBe(name);
      }
    }
  });
});
