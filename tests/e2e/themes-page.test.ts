/**
 * Every state of the panel in the page by itself, in the colours of the editor's own themes: axe finds nothing wrong, and
 * nothing is wider than the page, also at 250 px and at half of that of a wider panel, as at 200 %.
 */
import { readdirSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { benchPicture } from "../../shared/ide/bench/bench-picture.ts";
import { type PanelQuery, panelOf } from "../../shared/ide/panel/panel.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import type { BenchShown } from "../../shared/protocol/bench.ts";
import type { PanelModel, ViewName } from "../../shared/protocol/panel.ts";
import { withFile } from "../ide/panel/told-against.ts";
import { pageViolations, type Theme, themes } from "./looks.ts";
import { openPanelPage, type PanelPage, wear } from "./panel-page.ts";

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage();
});
afterAll(() => panel?.close());

const examples = ["craft", "handsets", "layers"].flatMap((folder) =>
  readdirSync(inProject("examples", folder)).map((name) => `${folder}/${name}`),
);
const texts = Object.fromEntries(
  examples.map((name) => [`/shed/${name}`, readFileSync(inProject("examples", name), "utf8")]),
);
const tankard = texts["/shed/craft/tankard.fettle"]!;
const workspace = makeCore(makeCatalogue()).at(
  memoryFiles({
    ...texts,
    "/shed/craft/clash.fettle": tankard.replace(/^ {2}video-high .*$/m, "$&\n  video-low  when FL is down"),
    "/shed/craft/missing.fettle": tankard.replace(/^use .*osd-wide.*$/m, '$&\nuse "../layers/gone.fettle"'),
    "/shed/craft/bare.fettle": 'craft "Saucer"\n',
    "/shed/craft/other.fettle":
      'craft "Saucer"\nuse "../handsets/wheel.fettle"\nmodes\n  arm when SA is down\n  level when SB is mid\n',
    "/shed/craft/packs.fettle": `${tankard}${"abcdefgh"
      .split("")
      .map((name) => `\npack "${name}"\n  capacity  900 mAh\n`)
      .join("")}`,
    "/shed/craft/shared.fettle":
      'craft "Saucer"\nosd\n  grid 30 x 16\n  amps at left+2, bottom-2\n  pack-volts at left+1, bottom-2\n',
    "/shed/layers/alone.fettle": 'layer "Alone"\n',
    "/shed/craft/friend.fettle": `${tankard
      .replace(/^craft .*$/m, 'craft "A friend’s Tankard"')
      .replace(/^use .*osd-wide.*$/m, 'use "../layers/osd-narrow.fettle"')
      .replace(
        /^ {2}rates-second .*$/m,
        "  rates-second  when FL is mid and TL is down",
      )}\nrates\n  roll  slope 150 deg/s  end 900 deg/s\n`,
  }),
);

interface State {
  readonly view: ViewName;
  readonly file: string;
  readonly query?: PanelQuery;
  /** Something to do on the page that is there. */
  readonly act?: () => Promise<unknown>;
  /** What is there in this state and in few others. */
  readonly sees: string;
}

const unfold = () =>
  panel.page.evaluate(() => {
    for (const details of document.querySelectorAll("details")) details.open = true;
  });
const lost = (course: number, phase: number): PanelQuery => ({
  scenario: "signal-lost",
  signal: { course, phase },
});
const against = (file: string): PanelQuery => ({
  against: withFile(workspace, `/shed/${file}.fettle`),
});
const benchOf = (shown: BenchShown): PanelQuery => ({ benchOf: (craft) => benchPicture(craft, workspace, shown) });
const bare = { file: "craft/bare", sees: ".empty" } as const;
const states: Readonly<Record<string, State>> = {
  "an element chosen": {
    view: "goggles",
    file: "craft/tankard",
    act: () => panel.page.locator("[data-element=craft]").focus(),
    sees: ".chosen",
  },
  "elements that share cells": { view: "goggles", file: "craft/shared", sees: ".fault" },
  "the goggles of a lost signal": { view: "goggles", file: "craft/amphora", query: lost(0, 2), sees: ".signal-line" },
  "another grid, all folded out": {
    view: "goggles",
    file: "craft/tankard",
    query: { fit: { columns: 30, rows: 13 } },
    act: unfold,
    sees: ".preview",
  },
  "both pictures, all folded out": {
    view: "goggles",
    file: "craft/tankard",
    query: against("craft/friend"),
    act: async () => {
      await panel.page.getByRole("button", { name: "Both", exact: true }).click();
      await unfold();
    },
    sees: ".there-label",
  },
  "the picture there": {
    view: "goggles",
    file: "craft/tankard",
    query: against("craft/friend"),
    act: () => panel.page.getByRole("button", { name: "There", exact: true }).click(),
    sees: ".against",
  },
  "what is compared with is gone": {
    view: "goggles",
    file: "craft/tankard",
    query: against("craft/gone"),
    sees: ".against",
  },
  "both switches, all folded out": {
    view: "switches",
    file: "craft/tankard",
    query: against("craft/friend"),
    act: unfold,
    sees: ".change",
  },
  "both switches, of other handsets": {
    view: "switches",
    file: "craft/tankard",
    query: against("craft/gravy-boat"),
    sees: ".against",
  },
  "both numbers": { view: "numbers", file: "craft/tankard", query: against("craft/friend"), sees: ".against" },
  "no OSD yet": { view: "goggles", ...bare },
  "the switches at rest, all folded out": {
    view: "switches",
    file: "craft/tankard",
    act: unfold,
    sees: "details[open] li",
  },
  "armed, and a dial turned": {
    view: "switches",
    file: "craft/tankard",
    query: { positions: { TL: "down", FL: "down", KN: 1720 } },
    sees: ".armed-yes",
  },
  "a clash": { view: "switches", file: "craft/clash", query: { positions: { FL: "down" } }, sees: ".finding.error" },
  "a lost signal, played": { view: "switches", file: "craft/amphora", query: lost(0, 2), sees: ".phase.loose" },
  "a lost signal of which little is said": {
    view: "switches",
    file: "craft/wobbly-jug",
    query: lost(0, 0),
    sees: ".track.unknown",
  },
  "a part that is missing": { view: "switches", file: "craft/missing", sees: ".gap" },
  "controls of another handset": { view: "switches", file: "craft/other", sees: ".gap" },
  "no handset": { view: "switches", ...bare },
  "the numbers, all folded out": { view: "numbers", file: "craft/tankard", act: unfold, sees: "details[open] table" },
  "many packs": { view: "numbers", file: "craft/packs", sees: ".pack-list" },
  "numbers with faults": { view: "numbers", file: "craft/wobbly-jug", sees: ".empty, .gap" },
  "no numbers": { view: "numbers", ...bare },
  "the bench list": { view: "bench", file: "craft/tankard", sees: ".step" },
  "a bench list of which little is due": { view: "bench", file: "craft/amphora", query: benchOf("due"), sees: ".step" },
  "the bench list of a craft that says nothing": { view: "bench", file: "craft/bare", sees: ".step" },
  "a layer that no craft uses": { view: "goggles", file: "layers/alone", sees: ".empty" },
};

let version = 0;
async function show({ view, file, query, act, sees }: State): Promise<void> {
  version++;
  const made: PanelModel = panelOf(workspace, `/shed/${file}.fettle`, version, { ...benchOf("all"), ...query, view });
  // Another craft in between: nothing that was folded out, chosen or lost before is still so.
  await panel.post({ kind: "model", model: { ...made, craft: "", empty: "…", emptyWays: [] } });
  await panel.post({ kind: "show", view });
  await panel.post({ kind: "model", model: made });
  await act?.();
  await panel.page.locator(sees).first().waitFor({ state: "attached" });
}

/** How far the page is wider than its window, in CSS pixels. */
const tooWide = () =>
  panel.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** All rules in one theme, since only colours differ in the others; those there in the states that have colours of their own. */
const ALL_RULES: Theme = "high-contrast-light";
const COLOURFUL = [
  "an element chosen",
  "armed, and a dial turned",
  "a clash",
  "a lost signal, played",
  "many packs",
  "both switches, all folded out",
];

/** What is wrong with the page in a state. */
async function wrongIn(state: State, of: "all rules" | "contrast"): Promise<string[]> {
  await show(state);
  const wrong = await pageViolations(panel.page, of);
  const by = await tooWide();
  return by > 0 ? [...wrong, `${by} px wider than the page`] : wrong;
}

test.each(Object.keys(states))("axe finds nothing wrong at 250 px: %s", async (name) => {
  await wear(panel.page, ALL_RULES);
  await panel.page.setViewportSize({ width: 250, height: 700 });
  expect(await wrongIn(states[name]!, "all rules")).toEqual([]);
});

const others = (Object.keys(themes) as Theme[]).filter((theme) => theme !== ALL_RULES);
test.each(others)("what has colours of its own is read well in the %s theme, at 250 px", async (theme) => {
  await wear(panel.page, theme);
  await panel.page.setViewportSize({ width: 250, height: 700 });
  const found: Record<string, string[]> = {};
  for (const name of COLOURFUL) {
    const wrong = await wrongIn(states[name]!, "contrast");
    if (wrong.length > 0) found[name] = wrong;
  }
  expect(found).toEqual({});
});

test("nothing is wider than the page at 200 %, half of 360 px", async () => {
  await panel.page.setViewportSize({ width: 180, height: 400 });
  const wide: Record<string, number> = {};
  for (const [name, state] of Object.entries(states)) {
    await show(state);
    const by = await tooWide();
    if (by > 0) wide[name] = by;
  }
  expect(wide).toEqual({});
});

test("the colours that the panel names are those of the fixture", () => {
  const named = readdirSync(inProject("client/panel"))
    .filter((name) => name.endsWith(".css"))
    .flatMap((name) => readFileSync(inProject("client/panel", name), "utf8").match(/--vscode-[\w-]+/g) ?? []);
  const fixture: Readonly<Record<string, { colours: object }>> = JSON.parse(
    readFileSync(inProject("tests/fixtures/themes.json"), "utf8"),
  );
  const known = new Set(Object.values(fixture).flatMap(({ colours }) => Object.keys(colours)));
  expect([...new Set(named)].filter((name) => !known.has(name))).toEqual([]);
  expect(panel.errors).toEqual([]);
});
