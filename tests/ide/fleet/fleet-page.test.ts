import { expect, test } from "vitest";
import { fleetPage } from "../../../shared/ide/fleet/fleet-page.ts";
import type { Fleet } from "../../../shared/protocol/fleet.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { hostileTexts } from "../../hostile-texts.ts";
import { tagsOf, wordsOf } from "../print/html.ts";
import { cell, fleetOfNames, richFleet, tableOf, video } from "./hand-made-fleets.ts";

/** The rows of all tables but the list of craft, `NAME | cell | …`. */
function rowsOf(fleet: Fleet): string[] {
  const html = fleetPage(fleet);
  return html
    .slice(html.indexOf('<h2 id="table-'))
    .split("<tr>")
    .slice(1)
    .map((row) =>
      row
        .split(/<t[hd](?=[ >])/)
        .slice(1)
        .map((each) => wordsOf(`<t${each}`))
        .join(" | "),
    );
}

test("a cell that is not as on most craft has a sign and what most have", () => {
  const settings = tableOf("Key settings", [
    [cell("stop"), cell("", "4")],
    [cell("descend", "stop"), cell("4")],
    [cell("stop"), cell("6", "")],
  ]);
  expect(rowsOf(fleetOfNames(["Jug", "Urn", "Cup"], { settings }))).toEqual([
    "Craft | c1 | c2",
    "Jug | stop | ≠ nothing most: 4",
    "Urn | ≠ descend most: stop | 4",
    "Cup | stop | ≠ 6 most: nothing",
  ]);
});

test("a table too wide for the paper is in parts, each with the names of the craft", () => {
  const words = Array.from({ length: 20 }, (_, at) => cell(`thirteen-word-${at}`));
  const rows = rowsOf(fleetOfNames(["Jug", "Urn"], { settings: tableOf("Wide", [words, words]) }));
  expect(rows.filter((row) => row.startsWith("Jug |"))).toHaveLength(rows.length / 3);
  expect(rows.filter((row) => row.startsWith("Urn |"))).toHaveLength(rows.length / 3);
  expect(rows.length).toBeGreaterThan(3);
  const html = fleetPage(fleetOfNames(["Jug"], { settings: tableOf("Wide", [words]) }));
  expect(wordsOf(html)).toContain("part 1 of ");
});

test("craft of the same name are told apart by their files", () => {
  const settings = tableOf("T", [[cell("a")], [cell("b")], [cell("c")]]);
  expect(rowsOf(fleetOfNames(["Jug", "Jug", "Urn"], { settings })).slice(1)).toEqual([
    "Jug craft/ 1. fettle | a",
    "Jug craft/ 2. fettle | b",
    "Urn | c",
  ]);
});

test("a row belongs to the craft that it names, where some have no part in a table", () => {
  const table = tableOf("T", [[cell("a")]]);
  const settings = { ...table, rows: [{ craft: 1, cells: [cell("a")] }] };
  expect(rowsOf(fleetOfNames(["Jug", "Urn"], { settings })).slice(1)).toEqual(["Urn | a"]);
});

test("tables in which nothing is are left out, and so is the file without craft but for a word", () => {
  expect(wordsOf(fleetPage(fleetOfNames([])))).toContain("There is no craft here.");
  expect(fleetPage(fleetOfNames([])).match(/<h2/g)).toBeNull();
  expect(fleetPage(fleetOfNames(["Jug"])).match(/<h2/g)).toHaveLength(1);
});

test.each([
  ["nobody was named", {}, ""],
  [
    "nothing is in the way",
    { together: [0, 1], plan: [] },
    "Flown together: Jug and Urn None of them is in the way of another.",
  ],
  [
    "a plan helps",
    {
      together: [0, 1],
      conflicts: [{ kind: "overlap" as const, message: "They overlap.", craft: [0, 1] }],
      plan: [{ craft: 1, fromMhz: 5800, toMhz: 5843, note: "its spare frequency" }],
    },
    "Flown together: Jug and Urn They overlap. With these changes nothing is in the way: Urn : from 5800 MHz to 5843 MHz (its spare frequency)",
  ],
  [
    "no plan helps",
    {
      together: [0, 1],
      conflicts: [{ kind: "overlap" as const, message: "They overlap.", craft: [0, 1] }],
      plan: null,
      noPlan: "No channels are free: fly fewer at a time.",
    },
    "Flown together: Jug and Urn They overlap. No channels are free: fly fewer at a time.",
  ],
])("of video channels: %s", (_, more, said) => {
  const html = fleetPage(fleetOfNames(["Jug", "Urn"], { video: video(more) }));
  const words = wordsOf(html);
  expect(words.includes("Flown together") ? words.slice(words.indexOf("Flown together")) : "").toBe(said);
});

test("what is not known stands at the end", () => {
  const missing = [{ file: "craft/odd.fettle", why: "it is no script" }];
  expect(wordsOf(fleetPage(fleetOfNames(["Jug"], { missing })))).toMatch(
    /What is not known craft\/odd\.fettle : it is no script$/,
  );
});

test("it lies on its side, asks the network for nothing, and runs nothing", () => {
  const html = fleetPage(richFleet(6));
  expect(html).toContain("size: landscape;");
  expect(html).toContain(
    `content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"`,
  );
  expect(html).not.toMatch(/<script|<link|url\(|https?:|\son[a-z]+=/i);
});

/** A fleet in which every text is this one. */
function filled(text: string): Fleet {
  const table = {
    title: text,
    columns: [{ name: text, what: text }],
    rows: [{ craft: 0, cells: [cell(text, text)] }],
  };
  return {
    craft: [{ file: text, name: text, handset: { name: text, file: text } }],
    controls: [table],
    settings: table,
    layers: table,
    checks: table,
    video: {
      table,
      together: [0],
      conflicts: [{ kind: "product", message: text, craft: [0] }],
      plan: [{ craft: 0, fromMhz: 5800, toMhz: 5843, note: text }],
      noPlan: text,
    },
    missing: [{ file: text, why: text }],
  };
}

/** Widths depend on the text, and so does where a name may break and whether nothing is said. */
const shape = (html: string) =>
  tagsOf(html.replaceAll('<span class="aside">nothing</span>', "")).filter((tag) => tag !== "<wbr>");

test.each(hostileTexts.map((text) => [text.slice(0, 40), text]))("%j stays text wherever it stands", (_, text) => {
  const html = fleetPage(filled(text));
  expect(shape(html)).toEqual(shape(fleetPage(filled("plain"))));
  const once = visibleText(text).replaceAll(/\s+/g, "");
  if (once.length > 3) expect(wordsOf(html).replaceAll(/\s+/g, "").split(once).length - 1).toBeGreaterThanOrEqual(35);
});
