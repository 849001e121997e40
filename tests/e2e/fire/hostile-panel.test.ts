/** The panel's page, drawn of a workspace in which a stranger's text stands everywhere: what is seen and read aloud is text. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { ToPanel } from "../../../shared/protocol/panel-messages.ts";
import { hostileRows } from "../../fire/outputs/rows.ts";
import { shedOf } from "../../fire/outputs/shed.ts";
import { withFile } from "../../ide/panel/told-against.ts";
import { newPage } from "../browser.ts";
import { postTo } from "../panel-page.ts";
import { readBelow } from "./read-page.ts";
import { openedAt, type Seen, webviewHtml } from "./served-page.ts";

vi.mock("vscode", () => import("./memory-editor.ts"));
const { panelPage } = await import("../../../client/src/panel-page.ts");

let page: Page;
let seen: Seen;
beforeAll(async () => {
  page = await newPage({ width: 600, height: 900 });
  seen = await openedAt(page, webviewHtml(panelPage, "side"));
});
afterAll(() => page?.close());

const post = (message: ToPanel) => postTo(page, message);

test.each(hostileRows())("case %i", async (_, text) => {
  const { texts, craft, other } = shedOf(text);
  const at = (path: string) => `/shed/${path}`;
  const files = memoryFiles(Object.fromEntries(Object.entries(texts).map(([path, each]) => [at(path), each])));
  const workspace = makeCore(makeCatalogue()).at(files);
  let version = 0;
  let told = 0;
  for (const view of ["goggles", "switches", "numbers"] as const)
    for (const [file, query] of [
      [craft, {}],
      [other, {}],
      [other, { against: withFile(workspace, at(craft)) }],
    ] as const) {
      await post({ kind: "show", view });
      await post({ kind: "model", model: panelOf(workspace, at(file), ++version, { view, ...query }) });
      const { words, active, unseen } = await readBelow(page, "#panel");
      expect([active, unseen], `${view} of ${file}`).toEqual([[], []]);
      // The name of the craft is among the words, so the texts have come.
      told += words.filter((each) => each.includes([...text].slice(0, 8).join(""))).length;
    }
  expect(told).toBeGreaterThan(5);
  expect(await seen.refused()).toEqual([]);
  expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
});
