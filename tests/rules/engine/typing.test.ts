/** What is kept from one key to the next changes nothing: after any edits all is as if read for the first time. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { swapped } from "../../swapped.ts";

/** Every pack here has something wrong with it, and plain `pack`, the layer and the craft's other figures bear on all. */
const shelf = {
  "jug.fettle": `craft "Jug"
use "base.fettle"

pack
  chemistry lipo
  cells 6
  warn-at 3.5 V/cell
  land-at 3.3 V/cell

# bought in spring
pack "Old"
  warn-at 3.2 V/cell
  full-current 120 A
  capacity 3000 mAh
  discharge-rating 60 C

verbatim "kiln"
  | row 1
  | row 2

pack "New"
  cells detect
  full-at 4.35 V/cell

pack "Tall"
  divider-top 10 kohm
  divider-bottom 2 kohm

modes
  arm when TL is down
  level when TL is down or TR is mid
`,
  "base.fettle": `layer "Base"

controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us

motors
  esc-rating 25 A

board
  input-limit 30 V
`,
};

type Files = Readonly<Record<string, string>>;
const starts = fc.oneof(fc.constant<Files>(shelf), fc.constantFrom(...rules.map(({ examples }) => examples.bad)));

/** What may be typed or pasted; some of it moves lines, or changes what stands below it. */
const pieces = `1|0|a|"|#| |\n|\r|\r\n|\n\n|\n  cells 4\n|\npack "Old"\n|\nverbatim "kiln"\n|\nlayer "Jug"\n|
  drop all\n|\n# allow pack-order: so be it\n|\n# allow cells-ambiguous: so\npack "Old"\n|
# allow pack-chemistry: so be it\n|\n<<<<<<< ours\n|\uFEFF|\uFFFD|  warn-at 3.1 V/cell\n|esc-rating 15 A|mid`.split(
  "|",
);

const edit = fc.record({
  file: fc.nat(),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  without: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(60)),
  put: fc.oneof(fc.constant(""), fc.constantFrom(...pieces)),
  /** Goes back to the text of some keys ago instead, as undo does. */
  undo: fc.option(fc.nat(3), { freq: 5 }),
});

/** All that is reported of the files, and how each was read. */
function understood(core: Core, files: Files) {
  const workspace = core.at(memoryFiles(files));
  return Object.keys(files).map((file) => {
    const { noteOf, ...script } = workspace.script(file)!;
    const { lines } = script.tree;
    const notes = lines.map((_, line) => noteOf(line));
    const findings = findingsOf(workspace, file);
    // What was made of a line before is no part of it; the pieces of an entry are made when they are asked for.
    const tree = { ...script.tree, lines: lines.map(({ meaning: _, ...line }) => line) };
    return { findings, script: { ...script, tree }, pieces: script.entries.map(({ pieces }) => pieces), notes };
  });
}

test("after any edits of a craft and its layers, findings and scripts are those of a first reading", () => {
  const core = makeCore(makeCatalogue());
  const found = new Set<string>();
  fc.assert(
    fc.property(starts, fc.array(edit, { minLength: 1, maxLength: 12 }), (start, edits) => {
      const texts: Files[] = [start];
      understood(core, start);
      for (const { file, at, without, put, undo } of edits) {
        const now = texts.at(-1)!;
        const name = Object.keys(now)[file % Object.keys(now).length]!;
        const from = Math.floor(at * now[name]!.length);
        const typed = now[name]!.slice(0, from) + put + now[name]!.slice(from + without);
        texts.push(undo === null ? { ...now, [name]: typed } : (texts.at(-1 - undo) ?? now));
        const read = understood(core, texts.at(-1)!);
        expect(read).toEqual(understood(makeCore(makeCatalogue()), texts.at(-1)!));
        for (const { findings } of read) for (const { code } of findings) found.add(code);
      }
    }),
    { numRuns: 80, seed: 2026 },
  );
  // The packs had their say, so that silence is not all that was compared.
  for (const code of ["pack-order", "pack-chemistry", "cells-ambiguous", "current-over-rating", "divider-clips"])
    expect(found).toContain(code);
});

test("a pack that does not change is looked at again where the craft around it does", () => {
  const core = makeCore(makeCatalogue());
  const found = (from: string, to: string) => {
    const files = { ...shelf, "base.fettle": swapped(shelf["base.fettle"], from, to) };
    const all = findingsOf(core.at(memoryFiles(files)), "jug.fettle").map(({ code }) => code);
    return all.filter((code) => code === "current-over-rating" || code === "cells-ambiguous");
  };
  expect(found("esc-rating 25 A", "esc-rating 35 A")).toEqual(["cells-ambiguous"]);
  expect(found("", "")).toEqual(["current-over-rating", "cells-ambiguous"]);
  expect(found("input-limit 30 V", "input-limit 8 V")).toEqual(["current-over-rating"]);
  expect(found("", "")).toEqual(["current-over-rating", "cells-ambiguous"]);
});

test("a check of a pack is asked again where a setting that it alone reads is another, and not its figures", () => {
  const core = makeCore(makeCatalogue());
  const clips = (from: string, to: string) => {
    const files = { ...shelf, "jug.fettle": swapped(shelf["jug.fettle"], from, to) };
    return findingsOf(core.at(memoryFiles(files)), "jug.fettle").filter(({ code }) => code === "divider-clips").length;
  };
  const ofTall = "divider-bottom 2 kohm";
  expect(clips(ofTall, "divider-bottom 0.5 kohm")).toBe(0);
  expect(clips(ofTall, "divider-bottom 0.51 kohm")).toBe(0);
  expect(clips(ofTall, ofTall)).toBe(1);
  expect(clips(ofTall, "divider-bottom 0.5 kohm")).toBe(0);
});
