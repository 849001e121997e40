/**
 * Each comparison of the catalogue by a craft that breaks it and one that just keeps it: in a line the section, then
 * what must not stand together, `|` what may. Sources of the bounds stand beside the comparisons.
 */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { reported, understood, workspaceOf } from "../check.ts";
import { CASES as FIRST_CASES } from "./relation-cases.ts";
import { KIND_CASES } from "./relation-kind-cases.ts";
import { MORE_CASES } from "./relation-more-cases.ts";

const RULES = ["values-contradict", "beyond-rating"];
const catalogue = makeCatalogue();

const CASES = [...FIRST_CASES, ...MORE_CASES, ...KIND_CASES];
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

describe("a need that is not met", () => {
  const words = (...lines: string[]) =>
    [...reported("mode-needs", lines), ...reported("setting-needs", lines)].map((each) => each.replace(/^[^:]*: /, ""));

  test("is named in plain words, with what is said instead and where", () => {
    expect(words("motors", "  reversible no", "modes", "  turtle when TR is down")).toEqual([
      "turtle needs motors that can run backwards, and motors.reversible is no, line 4. Only motors that can run backwards lift the craft off its back.",
    ]);
  });

  test("with alternatives says of each why it is not there", () => {
    expect(words("sensors", "  barometer no", "ports", "  port1 receiver", "osd", "  climb at 2, 2")).toEqual([
      "climb needs a barometer or a satellite receiver on a port; sensors.barometer is no (line 4) and no port is said to serve gps. Climb is height that changes, felt by a barometer or seen by satellites.",
    ]);
  });

  test("names a word of a setting in quotes, and what makes it needed", () => {
    expect(words("failsafe", "  then return", "sensors", "  accelerometer no")).toEqual([
      "“then return” needs an accelerometer, and sensors.accelerometer is no, line 6. The way home is flown by angles, which an accelerometer measures.",
    ]);
    const alert = ["osd", "  height-alert 50 m", "  alert-on high", "sensors", "  barometer no"];
    expect(words(...alert, "ports", "  port1 receiver")).toContainEqual(
      expect.stringMatching(/^With osd\.alert-on high \(line 5\), height-alert needs a barometer or a satellite/),
    );
  });
});

test("what a layer brings in names its own line, once", () => {
  const habits = 'layer "Habits"\n\nmodes\n  # on its back\n  turtle   when TR is down # pulled\n';
  const shown = (lines: string[], more: Record<string, string>) =>
    reported("mode-needs", ['use "habits.fettle"', ...lines], more).map((each) => each.replace(/^[^:]*: /, ""));
  expect(shown(["motors", "  reversible no"], { "habits.fettle": habits })).toEqual([
    expect.stringMatching(
      /lift the craft off its back\. The other line is line 5 of habits\.fettle: turtle when TR is down\.$/,
    ),
  ]);
});

test("one value against the three axes is one finding that names them all", () => {
  const [only, ...more] = found(
    "gains.spin-guard 500 deg/s; rates.roll end 700 deg/s; rates.pitch end 720 deg/s; rates.yaw end 450 deg/s",
  );
  expect(more).toEqual([]);
  expect(only).toMatch(
    /^spin-guard is 500 deg\/s and must be above .*roll end .*\. So it is with pitch end\. The guard takes/,
  );
});
