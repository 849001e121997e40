/** The same craft said otherwise is the same craft: in other units, in other files, in another order. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../check.ts";

/** Rules that compute with a whole craft's figures. */
const COMPUTING = new Set(
  `pack-order pack-chemistry cells-ambiguous current-over-rating divider-clips shunt-clips loop-budget filter-delay
  video-band video-power return-unready port-missing direction-unchecked`.split(/\s+/),
);

/** A line, and the same said in another unit; each with its section. */
type Line = readonly [section: string, plain: string, other: string];

const quantity = (section: string, name: string, numbers: readonly number[], unit: string, other: string, by: number) =>
  fc.constantFrom(...numbers).map((n): Line => {
    const digits = (value: number) => String(Number(value.toPrecision(10)));
    return [section, `${name} ${digits(n)} ${unit}`, `${name} ${digits(n * by)} ${other}`];
  });
const word = (section: string, name: string, words: readonly string[]) =>
  fc.constantFrom(...words).map((each): Line => [section, `${name} ${each}`, `${name} ${each}`]);

const lines = fc.tuple(
  word("pack", "chemistry", ["lipo", "lihv", "li-ion"]),
  word("pack", "cells", ["1", "4", "6", "detect"]),
  word("pack", "full-at", ["4.1 V/cell", "4.2 V/cell", "4.35 V/cell"]),
  word("pack", "warn-at", ["2.7 V/cell", "3.1 V/cell", "3.5 V/cell", "4.25 V/cell"]),
  word("pack", "land-at", ["2.75 V/cell", "2.9 V/cell", "3.3 V/cell", "3.5 V/cell"]),
  quantity("pack", "capacity", [300, 1100, 8000], "mAh", "Ah", 1e-3),
  word("pack", "discharge-rating", ["8 C", "60 C"]),
  quantity("pack", "full-current", [12, 66, 180, 264], "A", "mA", 1e3),
  quantity("pack", "divider-top", [5, 10, 20], "kohm", "ohm", 1e3),
  quantity("pack", "divider-bottom", [1, 3], "kohm", "ohm", 1e3),
  quantity("pack", "shunt", [0.25, 5], "mohm", "ohm", 1e-3),
  word("pack", "shunt-gain", ["20", "50"]),
  word("motors", "esc-signal", ["digital", "pulse"]),
  word("motors", "esc-rate", ["120 kbit/s", "300 kbit/s"]),
  quantity("motors", "esc-pause", [2, 60], "us", "ms", 1e-3),
  quantity("motors", "esc-rating", [5, 45], "A", "mA", 1e3),
  quantity("sensors", "loop-rate", [4, 8], "kHz", "Hz", 1e3),
  quantity("filters", "smooth-d cut", [20, 300], "Hz", "kHz", 1e-3),
  word("video", "signal", ["analogue", "digital"]),
  quantity("video", "frequency", [5658, 5732, 5800], "MHz", "GHz", 1e-3),
  quantity("video", "power", [25, 600], "mW", "W", 1e-3),
  word("video", "region", ["europe", "usa", "amateur-region-1"]),
  word("failsafe", "then", ["return", "stop"]),
  quantity("navigation", "return-height", [30, 60], "m", "cm", 100),
  quantity("navigation", "obstacle-height", [30, 45], "m", "mm", 1000),
  word("safety", "arm-needs-fix", ["yes", "no"]),
  word("ports", "port2", ["gps", "spare"]),
  word("bench", "roll", ["1000 us to 2000 us"]),
);

const script = (header: string, said: readonly Line[], in_: 1 | 2) =>
  `${header}\n${said.map((line) => `${line[0]}\n  ${line[in_]}\n`).join("")}`;

function codesOf(files: Readonly<Record<string, string>>): string[] {
  const found = findingsOf(workspaceOf(files), "jug.fettle").map(({ code, severity }) => `${code} ${severity}`);
  return found.filter((each) => COMPUTING.has(each.split(" ")[0]!)).sort();
}

/** Gives what takes the findings of a run, and in the end asks that each of the rules had its say: none is held to silence alone. */
function recorder() {
  const seen = new Set<string>();
  return {
    take(found: readonly string[]) {
      for (const each of found) seen.add(each.split(" ")[0]!);
      return found;
    },
    expectAll: () => expect([...COMPUTING].filter((code) => !seen.has(code))).toEqual([]),
  };
}

const RUNS = { numRuns: 60, seed: 2026 };
const CRAFT = 'craft "Jug"';

test("in other units it has the same findings", () => {
  const { take, expectAll } = recorder();
  fc.assert(
    fc.property(lines, (said) => {
      const found = take(codesOf({ "jug.fettle": script(CRAFT, said, 1) }));
      expect(codesOf({ "jug.fettle": script(CRAFT, said, 2) })).toEqual(found);
    }),
    RUNS,
  );
  expectAll();
});

test("in another order, and with any of its lines in a layer, it has the same findings", () => {
  const { take, expectAll } = recorder();
  fc.assert(
    fc.property(lines, fc.array(fc.boolean(), { minLength: 28, maxLength: 28 }), (said, inLayer) => {
      const layer = script('layer "Base"', said.filter((_, i) => inLayer[i]).reverse(), 1);
      const craft = script(
        `${CRAFT}\nuse "base.fettle"`,
        said.filter((_, i) => !inLayer[i]),
        1,
      );
      expect(codesOf({ "jug.fettle": craft, "base.fettle": layer })).toEqual(
        take(codesOf({ "jug.fettle": script(CRAFT, said, 1) })),
      );
    }),
    RUNS,
  );
  expectAll();
});

test("a named pack that says nothing of its own has no finding of its own", () => {
  const { take, expectAll } = recorder();
  fc.assert(
    fc.property(lines, (said) => {
      const text = script(CRAFT, said, 1);
      expect(codesOf({ "jug.fettle": `${text}pack "Twin"\n  plug "60"\n` })).toEqual(
        take(codesOf({ "jug.fettle": text })),
      );
    }),
    RUNS,
  );
  expectAll();
});

test("said of a named pack instead of the plain one, all findings on the pack are its own", () => {
  const { take, expectAll } = recorder();
  fc.assert(
    fc.property(lines, (said) => {
      const text = script(CRAFT, said, 1);
      const named = text.replaceAll(/^pack$/gm, 'pack "Only"');
      expect(codesOf({ "jug.fettle": named })).toEqual(take(codesOf({ "jug.fettle": text })));
    }),
    RUNS,
  );
  expectAll();
});
