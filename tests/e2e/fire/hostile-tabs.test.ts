/**
 * The tabs of the extension, and the pages that are printed, drawn of a workspace in which a
 * stranger's text stands everywhere: what is seen and read aloud is text, under the policy that each page has.
 */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type { PagePlace } from "../../../client/src/panel-page.ts";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fleetOf } from "../../../shared/ide/fleet/fleet.ts";
import { fleetPage } from "../../../shared/ide/fleet/fleet-page.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";
import { addressIn, ownAsks } from "../../fire/outputs/own-asks.ts";
import { hostileRows } from "../../fire/outputs/rows.ts";
import { type ServedShed, servedShed } from "../../fire/outputs/served-shed.ts";
import { newPage } from "../browser.ts";
import { postTo } from "../panel-page.ts";
import { readBelow } from "./read-page.ts";
import { openedAt, type Seen, webviewHtml } from "./served-page.ts";

vi.mock("vscode", () => import("./memory-editor.ts"));
const { panelPage } = await import("../../../client/src/panel-page.ts");

let page: Page;
let sheds: readonly ServedShed[];
beforeAll(async () => {
  page = await newPage({ width: 900, height: 900 });
  sheds = await Promise.all(hostileRows().map(([, text]) => servedShed(text)));
});
afterAll(async () => {
  for (const { end } of sheds ?? []) end();
  await page?.close();
});

interface Drawn {
  readonly place: PagePlace;
  /** What its page is told, one group after the other: it is read after each. */
  readonly messages: (shed: ServedShed) => Promise<readonly (readonly object[])[]>;
  /** Elements of its own that lead somewhere within the page. */
  readonly ours?: readonly string[];
  /** Something to do before the messages. */
  readonly before?: () => Promise<unknown>;
}

/** Answers of a shed as results of a tab, and what it is told last; of what can be asked by a method some, by their numbers. */
async function results({ shed, text, ask }: ServedShed, methods: Readonly<Record<string, readonly number[]>>) {
  const asks = ownAsks(shed, text);
  const answers = await Promise.all(
    Object.entries(methods).flatMap(([method, some]) => some.map((number) => ask(method, asks[method]![number]!))),
  );
  return [
    ...answers.map((result) => [{ kind: "result", result }]),
    [{ kind: "told", told: { message: text, undo: true } }],
  ];
}

const TABS: readonly Drawn[] = [
  // With a script, with a text, with a board's text, and carried over.
  { place: "comparison", messages: (shed) => results(shed, { "fettle/compare": [0, 2, 5] }) },
  { place: "review", messages: (shed) => results(shed, { "fettle/review": [0, 2, 5, 6] }) },
  {
    place: "fleet-change",
    messages: (shed) => results(shed, { "fettle/makeAlike": [0], "fettle/changeHabit": [0] }),
  },
  {
    place: "fleet",
    async messages({ ask }) {
      const { fleet } = await ask("fettle/fleet", { known: null });
      return [[{ kind: "result", result: fleet }]];
    },
  },
  {
    place: "page",
    ours: ["a"],
    before: () => page.locator("#query").fill("lamp"),
    async messages({ text, ask }) {
      const { names } = await ask("fettle/names", { typed: "lamp" });
      const pages = ["lights.belly-kind", "finder", text].map(async (name) => [
        { kind: "go", name },
        { kind: "page", asked: name, page: await ask("fettle/page", { name }) },
      ]);
      return [[{ kind: "names", typed: "lamp", names }], ...(await Promise.all(pages))];
    },
  },
  {
    place: "side",
    async messages({ shed, text, ask }) {
      const uri = addressIn(shed.other);
      const past = { uri, revision: "HEAD", title: text };
      const bench = await ask("fettle/panel", { uri, view: "bench", bench: "all" });
      const { fleet } = await ask("fettle/fleet", { known: null });
      return [
        [{ kind: "craft-list", craft: [{ file: uri, name: text, aside: text }] }],
        [
          { kind: "show", view: "bench" },
          { kind: "model", model: bench },
          { kind: "bench-told", name: "bench.order-checked", message: text, isWritten: true },
        ],
        [
          { kind: "show", view: "goggles" },
          { kind: "model", model: await ask("fettle/panel", { uri, view: "goggles", past }) },
        ],
        [
          { kind: "show", view: "fleet" },
          { kind: "fleet", fleet },
        ],
      ];
    },
  },
];

test.each(TABS)("$place", async ({ place, messages, ours, before }) => {
  const seen: Seen = await openedAt(page, webviewHtml(panelPage, place));
  await before?.();
  for (const shed of sheds) {
    const head = [...shed.text].slice(0, 8).join("");
    let told = 0;
    for (const group of await messages(shed)) {
      for (const message of group) await postTo(page, message);
      await page.evaluate(() => {
        for (const folded of document.querySelectorAll("details")) folded.open = true;
      });
      const { words, active, unseen } = await readBelow(page, "#panel", ours);
      expect([active, unseen], JSON.stringify(group).slice(0, 200)).toEqual([[], []]);
      told += words.filter((each) => each.includes(head)).length;
    }
    expect(told).toBeGreaterThan(0);
  }
  expect(await seen.refused()).toEqual([]);
  expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
});

/** The pages that are printed: the bench list after a wipe, which has everything that one has, and the fleet. */
async function printed({ shed, ask }: ServedShed): Promise<readonly string[]> {
  const wiped = { day: "2026-11-01", saved: shed.texts[shed.board]! };
  const bench = await ask("fettle/benchFile", { uri: addressIn(shed.other), form: "page", wiped });
  const workspace = makeCore(makeCatalogue()).at(memoryFiles(shed.texts));
  const fleet = finish(fleetOf([shed.craft, shed.other].map((file) => ({ workspace, file }))));
  return [bench.text, fleetPage(fleet)];
}

test("what is printed", async () => {
  for (const shed of sheds)
    for (const html of await printed(shed)) {
      const seen = await openedAt(page, html);
      const { words, active, unseen } = await readBelow(page, "body", ["a", "img"]);
      expect([active, unseen]).toEqual([[], []]);
      expect(words.length).toBeGreaterThan(20);
      expect(await seen.refused()).toEqual([]);
      expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
    }
});
