/**
 * The page of a webview in a browser: shown, hidden and shown again with the state that it kept, as an editor does it.
 * Messages arrive in order, late or in bursts, and in a page that is not there yet or any more they are lost.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { inProject } from "../../../.dev/say.mjs";
import { newPageApart } from "../browser.ts";

/** One page of the browser, for one webview after another. */
export interface Frame {
  readonly page: Page;
  /** What went wrong in it. */
  readonly errors: string[];
  /** Hears what the page posts, at once. */
  take: (message: unknown) => void;
  /** Loads the page anew from its HTML, with a state that it kept, until it says that it is there. */
  load(html: string, kept: string | null): Promise<void>;
  /** Takes the page away. */
  empty(): Promise<void>;
  /** Its messages, in one go. */
  post(messages: readonly unknown[]): Promise<void>;
  /** What it keeps, as JSON; null where it keeps nothing. */
  kept(): Promise<string | null>;
}

/**
 * A page of the browser, of which timers can be let go by (`page.clock`). Each stands apart: it has a clock of its own, and
 * a window, as of a page behind another one a browser draws a frame in a second, and no pointer is quick there.
 */
export async function openFrame(): Promise<Frame> {
  const page = await newPageApart({ width: 1400, height: 900 });
  await page.clock.install();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.stack ?? String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  const frame: Frame = {
    page,
    errors,
    take: () => {},
    async load(html, kept) {
      const address = addressOf(html);
      if (!page.url().startsWith("file:")) await frame.empty();
      await page.evaluate((state) => {
        if (state === null) sessionStorage.removeItem("kept");
        else sessionStorage.setItem("kept", state);
      }, kept);
      const isThere = new Promise<void>((resolve) => {
        hear = resolve;
      });
      if (page.url() === address) await page.reload();
      else await page.goto(address);
      // What is posted before the page says that it is there, nobody hears.
      await page.clock.runFor(100);
      await isThere;
    },
    empty: async () => void (await page.goto(addressOf("<!doctype html><title>Nothing</title>"))),
    post: (messages) =>
      page.evaluate((sent) => {
        for (const data of sent) window.dispatchEvent(new MessageEvent("message", { data }));
      }, messages as never[]),
    kept: () => page.evaluate(() => sessionStorage.getItem("kept")),
  };
  let hear = () => {};
  await page.exposeBinding("postToTest", (_, message: unknown) => {
    hear();
    frame.take(message);
  });
  await page.addInitScript(() => {
    const { postToTest } = window as unknown as { postToTest: (message: unknown) => void };
    Object.assign(window, {
      acquireVsCodeApi: () => ({
        postMessage: (message: unknown) => void postToTest(message),
        getState: () => JSON.parse(sessionStorage.getItem("kept") ?? "null") ?? undefined,
        setState: (state: unknown) => sessionStorage.setItem("kept", JSON.stringify(state)),
      }),
    });
  });
  return frame;
}

const written = new Map<string, string>();

/** Where a text of HTML lies as a file. */
function addressOf(html: string): string {
  const there = written.get(html);
  if (there) return there;
  const folder = inProject(".cache/fire-pages");
  mkdirSync(folder, { recursive: true });
  const path = `${folder}/${process.pid}-${written.size}.html`;
  writeFileSync(path, html);
  const address = pathToFileURL(path).href;
  written.set(html, address);
  return address;
}
