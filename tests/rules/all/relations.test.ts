/**
 * Each comparison of the catalogue by a craft that breaks it and one that just keeps it: in a line the section, then
 * what must not stand together, `|` what may. Sources of the bounds stand beside the comparisons.
 */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { reported, understood, workspaceOf } from "../check.ts";
import { CASES as FIRST_CASES } from "./relation-cases.ts";
import { MORE_CASES } from "./relation-more-cases.ts";

const RULES = ["values-contradict", "beyond-rating"];
const catalogue = makeCatalogue();

const CASES = [...FIRST_CASES, ...MORE_CASES];
const HANDSET = ["transmitter"];

/** The files of a craft with these entries; those of a handset stand in one of its own. */
function filesOf(entries: string): Record<string, string> {
  const lines = entries.split("; ").filter((each) => each !== "");
  const text = (isOfHandset: boolean) =>
    lines
      .filter((each) => HANDSET.includes(each.split(".")[0]!) === isOfHandset)
      .map((each) => each.replace(/^([a-z-]+)\.(.*)$/, "$1\n  $2"))
      .join("\n");
  return {
    "jug.fettle": `craft "Jug"\nuse "hand.fettle"\n${text(false)}\n`,
    "hand.fettle": `handset "Hand"\n${text(true)}\n`,
  };
}

function found(entries: string): string[] {
  return understood(findingsOf(workspaceOf(filesOf(entries)), "jug.fettle"))
    .filter(({ code }) => RULES.includes(code))
    .map(({ message }) => message);
}

test.each(CASES)("%s", (bad, good, says) => {
  expect(found(bad)).toContainEqual(expect.stringContaining(says));
  expect(found(good)).toEqual([]);
});

test("every comparison has a case", () => {
  const said = CASES.flatMap(([bad]) => found(bad)).join("\n");
  expect(
    catalogue.comparisons.filter(({ reason }) => !said.includes(reason)).map(({ of, than }) => `${of} ${than}`),
  ).toEqual([]);
});

test("each pack is looked at by itself, and what it only inherits is reported once", () => {
  const packs = (...lines: string[]) => reported("values-contradict", lines);
  expect(
    packs("pack", "  capacity 1100 mAh", "  warn-after 1500 mAh", 'pack "B"', "  warn-at 3.5 V/cell"),
  ).toHaveLength(1);
  expect(packs("pack", "  capacity 1500 mAh", "  warn-after 1200 mAh", 'pack "B"', "  capacity 850 mAh")).toEqual([
    expect.stringMatching(/^error capacity 850 mAh: Pack “B”: warn-after is 1200 mAh and must be at most capacity/),
  ]);
});

test("a second set is looked at with what it takes from the first", () => {
  const rates = (...lines: string[]) =>
    reported("values-contradict", ["rates", "  roll slope 200 deg/s end 700 deg/s", ...lines]);
  expect(rates("rates-second", "  pitch slope 100 deg/s end 300 deg/s")).toEqual([]);
  expect(rates("rates-second", "  roll end 150 deg/s")).toEqual([
    expect.stringMatching(
      /^error roll end 150 deg\/s: In rates-second: roll slope is 200 deg\/s and must be at most roll end/,
    ),
  ]);
});

test("nothing is said of defaults alone, nor of a line with a fault", () => {
  expect(reported("values-contradict", ["pack", "  capacity much", "  warn-after 1500 mAh"])).toEqual([]);
  expect(reported("values-contradict", ["link", "  channels 8"])).toEqual([]);
});
