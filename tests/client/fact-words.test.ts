/** The words of the rows of comparisons and reviews, and the pages to which their names lead. */
import { describe, expect, test } from "vitest";
import { counted, leadOf, pageOfRow } from "../../client/panel/fact-words.ts";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { pageView } from "../../shared/ide/reference/page-view.ts";

const catalogue = makeCatalogue();
/** The page that the name of a row leads to, by its title; null where nothing is called so. */
const titleOf = (what: string, kind: string) => {
  const page = pageView(catalogue, pageOfRow(what, kind)!);
  return page.html.includes("Nothing is called") ? null : page.title;
};

describe("the name of a row leads to a page", () => {
  test("every setting, mode and element of the catalogue to its own", () => {
    const settings = catalogue.sections.flatMap(({ name, settings }) => settings.map((each) => `${name}.${each.name}`));
    const modes = catalogue.modes.map(({ name }) => name);
    const elements = catalogue.elements.map(({ name }) => name);
    expect(Math.min(settings.length / 10, modes.length, elements.length)).toBeGreaterThan(20);
    expect(settings.filter((what) => titleOf(what, "setting") !== what)).toEqual([]);
    expect(modes.filter((name) => titleOf(`modes.${name}`, "mode") !== name)).toEqual([]);
    // A name of two things has both pages in one.
    expect(elements.filter((name) => titleOf(`osd.${name}`, "osd") === null)).toEqual([]);
  });

  test.each([
    ["pack/Winter.cells", "setting", "pack.cells"],
    ["pack/1.1 Ah / old.cells", "setting", "pack.cells"],
    ["osd.grid", "osd", "osd.grid"],
    ["osd-second.craft", "osd", "craft"],
    ["outputs.tail-lamp", "output", "outputs"],
    ["controls.TL", "control", "controls"],
    ["adjust.overall", "setting", "adjust"],
    ["handset.name", "handset", "handset"],
    ["verbatim.kiln v1.2", "setting", "verbatim"],
  ])("%s, a difference of kind %s, to %s", (what, kind, title) => {
    expect(titleOf(what, kind)).toBe(title);
  });

  test("and what was not understood to none", () => {
    expect(pageOfRow("line 3", null)).toBeNull();
  });
});

test.each([
  ["arm moves from TL down to TR up", "arm moves from TL down to TR up", ""],
  ["warn-at goes up from 3.5 V to 3.6 V.", "warn-at goes up from 3.5\u00a0V to 3.6\u00a0V.", ""],
  ["It moves. It decides when. Try it.", "It moves.", "It decides when. Try it."],
  ["", "", ""],
])("the first sentence of “%s” stands out", (words, lead, rest) => {
  expect(leadOf(words)).toEqual([lead, rest]);
});

test.each([
  "warn-at goes up from 3.5_V/cell to 3.6_V/cell",
  "idle goes down from 5_% to 4.5_%",
  "slope 120_deg/s, at 1750_rpm/V, after 300_ms",
  "cells goes up from 4 to 6",
  "pack-volts moves 2 columns to the right, 1 row up",
  "two-level is new: 5, 8 and 9",
])("no line breaks between a number and its unit: %s", (shown) => {
  expect(leadOf(shown.replaceAll("_", " "))).toEqual([shown.replaceAll("_", "\u00a0"), ""]);
});

test("one and many are counted", () => {
  expect([counted(1, "line"), counted(2, "line")]).toEqual(["one line", "2 lines"]);
});
