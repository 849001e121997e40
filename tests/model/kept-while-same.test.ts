/** What is kept from one craft of a file to the next, by what was read of it: worked out again where that is another, and only there. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { keptWhileSame, namedPacksOf, tableOf } from "../../shared/model/listened-craft.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { swapped } from "../swapped.ts";

const jug = `craft "Jug"

use "base.fettle"

pack
  cells     6
  capacity  1100 mAh

pack "Old"
  capacity  900 mAh

rates
  roll   slope 120 deg/s  end 720 deg/s
  pitch  slope 130 deg/s  end 700 deg/s

motors
  poles  14
`;
const base = `layer "Base"

pack
  warn-at  3.5 V/cell
`;

/** Gives how often `read` was asked, in a craft that is changed step by step. */
function asked(read: (craft: Craft) => unknown, steps: readonly (readonly [from: string, to: string])[]): number[] {
  const core = makeCore(makeCatalogue());
  let [count, text] = [0, jug];
  const kept = keptWhileSame((craft: Craft, _: null) => {
    count++;
    return read(craft);
  });
  const counts: number[] = [];
  for (const [from, to] of [["", ""] as const, ...steps]) {
    text = swapped(text, from, to);
    kept(core.at(memoryFiles({ "jug.fettle": text, "base.fettle": base })).craft("jug.fettle")!, null);
    counts.push(count);
  }
  return counts;
}

const MORE = ["capacity  1100", "capacity  1300"] as const;
const MORE_BACK = ["capacity  1300", "capacity  1100"] as const;
const FEWER = ["cells     6", "cells     4"] as const;
const LATER = ["\npack\n", "\n\npack\n"] as const;

test("a setting that was asked for, and not the one beside it", () => {
  expect(asked((craft) => craft.settings.get("pack")?.get("cells")?.text, [MORE, FEWER, MORE_BACK])).toEqual([
    1, 1, 2, 2,
  ]);
});
test("a setting that is not there, until it is", () => {
  const read = (craft: Craft) => craft.settings.get("pack")?.has("pack-mass");
  expect(asked(read, [MORE, ["1300 mAh\n", "1300 mAh\n  pack-mass  90 g\n"]])).toEqual([1, 1, 2]);
  expect(asked((craft) => craft.settings.has("osd"), [MORE, ["rates", "osd\n  grid  53 x 20\n\nrates"]])).toEqual([
    1, 1, 2,
  ]);
});

test("all settings of a section, where they were gone through", () => {
  expect(asked((craft) => [...craft.settings.get("pack")!.values()], [MORE, ["14", "12"]])).toEqual([1, 2, 2]);
  expect(asked((craft) => craft.settings.get("pack")!.size, [MORE])).toEqual([1, 2]);
  expect(asked((craft) => tableOf(craft, "pack"), [MORE, ["14", "12"]])).toEqual([1, 2, 2]);
});

test("all sections, or the named packs alone", () => {
  expect(asked((craft) => [...craft.settings.keys()], [["14", "12"]])).toEqual([1, 2]);
  expect(asked((craft) => [...namedPacksOf(craft).keys()], [["14", "12"], MORE, ["900", "800"]])).toEqual([1, 1, 1, 2]);
});

test("fields of a value, and a value above one of a layer, while nothing of them changes", () => {
  const rolls = (craft: Craft) => craft.settings.get("rates")?.get("roll");
  expect(
    asked(rolls, [
      ["130", "140"],
      ["120", "110"],
    ]),
  ).toEqual([1, 1, 2]);
  expect(asked((craft) => craft.settings.get("pack")?.get("warn-at"), [MORE, FEWER])).toEqual([1, 1, 1]);
});

test("a line that moves is another, as it stands elsewhere", () => {
  expect(asked((craft) => craft.settings.get("pack")?.get("cells")?.source.line, [LATER, MORE])).toEqual([1, 2, 2]);
});
