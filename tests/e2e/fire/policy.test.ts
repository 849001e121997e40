/**
 * The content security policies of all pages that we make, as a browser holds them: whatever a text had smuggled in
 * would be refused, and the page itself asks for nothing that is.
 */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { benchPage } from "../../../shared/ide/bench/bench-page.ts";
import { fleetPage } from "../../../shared/ide/fleet/fleet-page.ts";
import { referenceOf } from "../../../shared/ide/reference/reference.ts";
import { richList } from "../../ide/bench/hand-made-lists.ts";
import { richFleet } from "../../ide/fleet/hand-made-fleets.ts";
import { newPage } from "../browser.ts";
import { AT, openedAt, webviewHtml } from "./served-page.ts";

vi.mock("vscode", () => import("./memory-editor.ts"));
const { panelPage } = await import("../../../client/src/panel-page.ts");

const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><style>rect { fill: red; }</style><rect width="9" height="9"/></svg>`;
const picture = { svgs: [drawing], stands: "beside", note: "", words: "a square" } as const;
const pictures = { osd: picture, "osd-second": null, switches: picture, motors: null };

const PAGES: readonly (readonly [string, () => string])[] = [
  ...(["side", "page", "comparison", "review", "fleet", "fleet-change"] as const).map(
    (place) => [`the webview “${place}”`, () => webviewHtml(panelPage, place)] as const,
  ),
  ["the reference", () => referenceOf(makeCatalogue()).find(({ path }) => path === "index.html")!.text],
  ["the printed fleet", () => fleetPage(richFleet(5, 6))],
  ["the printed bench list", () => benchPage(richList(), pictures)],
];

/** What is refused each attempt, by the directive that does and what it was tried with. */
const REFUSED = [
  "base-uri https://elsewhere.example/",
  "connect-src https://elsewhere.example/beacon",
  "connect-src https://elsewhere.example/events",
  "connect-src https://elsewhere.example/fetch",
  "connect-src wss://elsewhere.example/socket",
  "font-src https://elsewhere.example/x.woff",
  "form-action https://elsewhere.example/form",
  "frame-src https://elsewhere.example",
  "img-src https://elsewhere.example/x.png",
  "img-src https://elsewhere.example/x.svg",
  "media-src https://elsewhere.example/x.ogg",
  "object-src https://elsewhere.example",
  "script-src-attr inline",
  "script-src-elem https://elsewhere.example/x.js",
  "script-src-elem inline",
  "style-src-elem https://elsewhere.example/x.css",
  "worker-src blob",
];

/** Tries everything that a page could load, run or send to, in the page. */
async function tryAll(): Promise<void> {
  const there = "https://elsewhere.example/";
  const put = <K extends keyof HTMLElementTagNameMap>(tag: K, members: Partial<HTMLElementTagNameMap[K]>) =>
    document.body.appendChild(Object.assign(document.createElement(tag), members));
  const swallow = (attempt: () => unknown) => {
    // What is refused may throw, or end in a promise that fails: it is told as an event in either case.
    try {
      void Promise.resolve(attempt()).catch(() => {});
    } catch {}
  };
  put("script", { textContent: "window.taken = 'script'" });
  put("div", { innerHTML: `<b onclick="window.taken = 'handler'">x</b>` }).querySelector("b")!.click();
  put("a", { href: "javascript:void (window.taken = 'link')" }).click();
  put("script", { src: `${there}x.js` });
  put("link", { rel: "stylesheet", href: `${there}x.css` });
  put("img", { src: `${there}x.png` });
  put("div", { innerHTML: `<svg><image href="${there}x.svg"/></svg>` });
  put("audio", { src: `${there}x.ogg` });
  put("object", { data: `${there}object` });
  put("iframe", { src: `${there}frame` });
  swallow(() => new FontFace("x", `url(${there}x.woff)`).load());
  swallow(() => fetch(`${there}fetch`));
  swallow(() => navigator.sendBeacon(`${there}beacon`, "x"));
  swallow(() => new EventSource(`${there}events`));
  swallow(() => new WebSocket("wss://elsewhere.example/socket"));
  swallow(() => new Worker(URL.createObjectURL(new Blob(["self.close()"]))));
  put("iframe", { name: "sink" });
  put("form", { action: `${there}form`, method: "post", target: "sink" }).submit();
  document.head.prepend(Object.assign(document.createElement("base"), { href: there }));
  // What is refused is told in tasks of its own.
  for (let i = 0; i < 3; i++) await new Promise((resolve) => setTimeout(resolve, 20));
}

let page: Page;
beforeAll(async () => {
  page = await newPage({ width: 900, height: 700 });
});
afterAll(() => page?.close());

const taken = () => page.evaluate(() => [(window as { taken?: string }).taken ?? null, document.baseURI]);

test.each(PAGES)("%s", async (_, html) => {
  const seen = await openedAt(page, html());
  expect(await seen.refused(), "of the page itself").toEqual([]);
  expect(seen.errors).toEqual([]);
  await page.evaluate(tryAll);
  await expect.poll(async () => [...new Set(await seen.refused())].sort()).toEqual(REFUSED);
  expect(seen.elsewhere).toEqual([]);
  expect(await taken()).toEqual([null, AT]);
});

test("without a policy each of them gets its way", async () => {
  const seen = await openedAt(page, fleetPage(richFleet(2, 2)).replace(/<meta http-equiv="Content-Security[^>]*>/, ""));
  await page.evaluate(tryAll);
  expect(await seen.refused()).toEqual([]);
  const named = REFUSED.flatMap((each) => /https:\/\/elsewhere\.example\/(\w.*)/.exec(each)?.[1] ?? []);
  await expect.poll(() => [...new Set(seen.elsewhere)].sort()).toEqual([...named, "frame", "object"].sort());
  expect(await taken()).toEqual(["link", "https://elsewhere.example/"]);
});
