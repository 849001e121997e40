/**
 * The tabs of the extension, and the pages that are printed or opened from a disk, drawn of a workspace in which a
 * stranger's text stands everywhere: what is seen and read aloud is text, under the policy that each page has.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type { PagePlace } from "../../../client/src/panel-page.ts";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../../cli/held.ts";
import { folderOf } from "../../cli/program.ts";
import { ownAsks } from "../../fire/outputs/own-asks.ts";
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
  /** What its page is told, one after the other: it is read after each. */
  readonly messages: (shed: ServedShed) => Promise<readonly object[]>;
  /** Elements of its own that lead somewhere within the page. */
  readonly ours?: readonly string[];
  /** Something to do before the messages. */
  readonly before?: () => Promise<unknown>;
}

/** The answers to requests of a shed, as results of a tab, between what else such a page is told. */
async function results({ shed, text, ask }: ServedShed, ...methods: readonly string[]): Promise<object[]> {
  const asks = ownAsks(shed, text);
  const answers = await Promise.all(
    methods.flatMap((method) => asks[method]!.map(async (params) => ask(method, params))),
  );
  return [
    ...answers.map((result) => ({ kind: "result", result })),
    { kind: "told", told: { message: text, undo: true } },
    { kind: "failed" },
  ];
}

const TABS: readonly Drawn[] = [
  { place: "comparison", messages: (shed) => results(shed, "fettle/compare") },
  { place: "review", messages: (shed) => results(shed, "fettle/review") },
  { place: "fleet-change", messages: (shed) => results(shed, "fettle/makeAlike", "fettle/changeHabit") },
  {
    place: "fleet",
    async messages({ ask }) {
      const { fleet } = await ask("fettle/fleet", { known: null });
      return [{ kind: "result", result: fleet }];
    },
  },
  {
    place: "page",
    ours: ["a"],
    before: () => page.locator("#query").fill("lamp"),
    async messages({ shed, text, ask }) {
      const names = ownAsks(shed, text)["fettle/page"]!.map((params) => (params as { name: string }).name);
      const pages = await Promise.all(names.map(async (name) => [name, await ask("fettle/page", { name })] as const));
      const found = await ask("fettle/names", { typed: "lamp" });
      return [
        { kind: "names", typed: "lamp", names: found.names },
        ...pages.flatMap(([asked, shown]) => [
          { kind: "go", name: asked },
          { kind: "page", asked, page: shown },
        ]),
      ];
    },
  },
  {
    place: "side",
    async messages({ shed, text, ask }) {
      const views = ownAsks(shed, text)["fettle/panel"]! as readonly { view: string; past?: object }[];
      const shown = views.filter(({ view, past }) => view === "bench" || past);
      const models = await Promise.all(shown.map(async (params) => [params.view, await ask("fettle/panel", params)]));
      const { fleet } = await ask("fettle/fleet", { known: null });
      return [
        { kind: "craft-list", craft: [{ file: "file:///shed/x.fettle", name: text, aside: text }] },
        ...models.flatMap(([view, model]) => [
          { kind: "show", view },
          { kind: "model", model },
        ]),
        { kind: "bench-told", name: "bench.order-checked", message: text, isWritten: true },
        { kind: "show", view: "fleet" },
        { kind: "fleet", fleet },
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
    for (const message of await messages(shed)) {
      await postTo(page, message);
      await page.evaluate(() => {
        for (const folded of document.querySelectorAll("details")) folded.open = true;
      });
      const { words, active, unseen } = await readBelow(page, "#panel", ours);
      expect([active, unseen], JSON.stringify(message).slice(0, 200)).toEqual([[], []]);
      told += words.filter((each) => each.includes(head)).length;
    }
    expect(told).toBeGreaterThan(0);
  }
  expect(await seen.refused()).toEqual([]);
  expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
});

/** By the file that is written: the command, and what of the page is read. */
const WRITTEN = ({ shed }: ServedShed): readonly (readonly [string, readonly string[], string])[] => [
  ["bench.html", ["bench", shed.other], "body"],
  ["wiped.html", ["bench", shed.other, "--wiped"], "body"],
  ["fleet.html", ["fleet", "--together", shed.craft, shed.other], "body"],
  ["osd.svg", ["draw", shed.other, "--view", "osd", "--against", shed.craft], "svg"],
  ["switches.svg", ["draw", shed.other, "--view", "switches"], "svg"],
];

test("what is written to be printed or looked at", async () => {
  for (const served of sheds) {
    const folder = await folderOf(served.shed.texts);
    for (const [name, args, selector] of WRITTEN(served)) {
      // Some of the files that the fleet is made of cannot be read: it is written without them.
      await run([...args, "--out", name], held(folder, ""));
      const seen = await openedAt(page, readFileSync(join(folder, name), "utf8"));
      const { words, active, unseen } = await readBelow(page, selector, ["a", "img", "style"]);
      expect([active, unseen], name).toEqual([[], []]);
      expect(words.length).toBeGreaterThan(3);
      expect(await seen.refused()).toEqual([]);
      expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
    }
  }
});
