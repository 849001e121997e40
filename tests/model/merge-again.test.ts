/** A craft that is merged again after a key: what the key does not touch stays, and all is as if merged for the first time. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { boardOf } from "../../shared/logic/from-craft.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { copyOf, isAsRead, tablesOf } from "../../shared/model/listened-craft.ts";
import { listenTo } from "../../shared/model/reads.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { swapped } from "../swapped.ts";

const JUG = `craft "Jug"
use "base.fettle"

pack
  cells 6
  capacity 1100 mAh

pack "Old"
  capacity 1000 mAh

rates
  drop yaw
  roll slope 120 deg/s end 720 deg/s

filters
  notch at 180 Hz width 20 Hz
  notch at 220 Hz width 20 Hz

modes
  arm when TL is down
  level when TR is mid
  level when TR is up

osd
  grid 53 x 20
  pack-volts at left+3, bottom-2

verbatim "kiln"
  | row 1
`;
const BASE = `layer "Base"

controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us

rates
  roll slope 110 deg/s end 700 deg/s
  yaw slope 100 deg/s end 500 deg/s

pack
  chemistry lipo
`;

const catalogue = makeCatalogue();
const craftIn = (core: ReturnType<typeof makeCore>, jug: string, base = BASE): Craft =>
  core.at(memoryFiles({ "jug.fettle": jug, "base.fettle": base })).craft("jug.fettle")!;

/** All that a craft says, in its order. */
function said(craft: Craft) {
  const { memo, coreMemo, script, scripts, handset, answersFor, settings, ...rest } = copyOf(craft);
  const maps = Object.entries(rest).map(([name, part]) => [name, part instanceof Map ? [...part] : part]);
  return { settings: [...settings].map(([section, table]) => [section, [...table]]), maps };
}

test("only the table of the section with the key is another", () => {
  const core = makeCore(catalogue);
  const before = craftIn(core, JUG);
  const after = craftIn(core, swapped(JUG, "1000 mAh", "1001 mAh"));
  const changed = [...tablesOf(after)].filter(([section, table]) => tablesOf(before).get(section) !== table);
  expect(changed.map(([section]) => section)).toEqual(["pack/Old"]);
  for (const part of ["modes", "controls", "osd", "kept", "sections", "removedByDrop", "answersFor"] as const)
    expect(after[part]).toBe(before[part]);
});

test("a comment touches no part but the script", () => {
  const core = makeCore(catalogue);
  const before = craftIn(core, swapped(JUG, "\n\nrates", "\n# a\nrates"));
  const after = craftIn(core, swapped(JUG, "\n\nrates", "\n# b\nrates"));
  expect(after).not.toBe(before);
  expect(tablesOf(after)).toBe(tablesOf(before));
});

test("a craft tells what is read of it, and what was read before it was remembered", () => {
  const craft = craftIn(makeCore(catalogue), JUG);
  const { reads } = listenTo(craft, () => {
    craft.settings.get("pack");
    craft.settings.has("gains");
    listenTo(craft, () => craft.modes);
  });
  expect([...reads.parts.keys()]).toEqual(["modes"]);
  expect([...reads.tables.keys()]).toEqual(["pack", "gains"]);
  expect(listenTo(craft, () => [...craft.settings.keys()]).reads.parts.has("settings")).toBe(true);
  expect(listenTo({}, () => craft.modes).reads.isOpen).toBe(true);
});

test("without a handset the switches rest on what the scripts use, and not on every line of them", () => {
  const core = makeCore(catalogue);
  const craft = craftIn(core, JUG);
  const { reads } = listenTo(craft, () => boardOf(craft, { catalogue }));
  const noScript = () => null;
  expect(craft.handset).toBe(null);
  expect(isAsRead(reads, craftIn(core, swapped(JUG, "1000 mAh", "1001 mAh")), noScript)).toBe(true);
  expect(isAsRead(reads, craftIn(core, swapped(JUG, "base.fettle", "wheel.fettle")), noScript)).toBe(false);
});

const pieces = ["1", "a", " ", "\n", "\n\n", "# ", '\npack "Old"\n  cells 4\n', "\n  drop all\n", "\n  drop cells\n"];
const edit = fc.record({
  inBase: fc.boolean(),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  without: fc.oneof(fc.constant(0), fc.nat(2), fc.nat(40)),
  put: fc.constantFrom("", ...pieces),
});

test("after any edits of a craft and its layer all parts, in their order, are those of a first merging", () => {
  const core = makeCore(catalogue);
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 10 }), (edits) => {
      const texts = { jug: JUG, base: BASE };
      craftIn(core, JUG);
      for (const { inBase, at, without, put } of edits) {
        const name = inBase ? "base" : "jug";
        const from = Math.floor(at * texts[name].length);
        texts[name] = texts[name].slice(0, from) + put + texts[name].slice(from + without);
        const warm = craftIn(core, texts.jug, texts.base);
        const fresh = craftIn(makeCore(catalogue), texts.jug, texts.base);
        expect(warm && said(warm)).toEqual(fresh && said(fresh));
      }
    }),
    { numRuns: 60, seed: 2027 },
  );
});
