/** The panel's page, drawn of a workspace in which a stranger's text stands everywhere: what is seen and read aloud is text. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { ToPanel } from "../../../shared/protocol/panel-messages.ts";
import { unseenIn } from "../../fire/outputs/inspect.ts";
import { hostileRows } from "../../fire/outputs/rows.ts";
import { shedOf } from "../../fire/outputs/shed.ts";
import { withFile } from "../../ide/panel/told-against.ts";
import { newPage } from "../browser.ts";
import { postTo } from "../panel-page.ts";
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

/** All that stands in the page to be read, and what in it would load, lead or run. */
function readPage() {
  const main = document.getElementById("panel")!;
  const words: string[] = [];
  const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) words.push(walker.currentNode.nodeValue!);
  const active: string[] = [];
  const read = ["title", "aria-label", "aria-description", "aria-valuetext", "alt", "placeholder"];
  for (const element of main.querySelectorAll("*")) {
    if (/^(?:script|style|i?frame|object|embed|img|image|foreignObject|base|link|meta|a)$/i.test(element.localName))
      active.push(`<${element.localName}>`);
    for (const { name, value } of element.attributes) {
      if (read.includes(name)) words.push(value);
      if (/^on/i.test(name) || (/^(?:.*:)?(?:href|src|action)$/i.test(name) && !value.startsWith("#")))
        active.push(`${element.localName} ${name}="${value}"`);
    }
  }
  return { words, active };
}

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
      const { words, active } = await page.evaluate(readPage);
      expect(active, `${view} of ${file}`).toEqual([]);
      expect(
        words.flatMap((each) => unseenIn(each) ?? []),
        `${view} of ${file}`,
      ).toEqual([]);
      // The name of the craft is among the words, so the texts have come.
      told += words.filter((each) => each.includes([...text].slice(0, 8).join(""))).length;
    }
  expect(told).toBeGreaterThan(5);
  expect(await seen.refused()).toEqual([]);
  expect([seen.elsewhere, seen.errors]).toEqual([[], []]);
});
