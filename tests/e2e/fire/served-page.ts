/** A page of ours as a server of its own would give it, with the policy that it has: what is refused there, and what gets out. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { inProject } from "../../../.dev/say.mjs";
import type { PagePlace, panelPage } from "../../../client/src/panel-page.ts";
import { Uri } from "./memory-editor.ts";

/** Where the page is. */
export const AT = "https://page.example/";

export interface Seen {
  /** What the policy has refused so far, each as its directive and what it was about. */
  refused(): Promise<string[]>;
  /** What was asked of anybody else, below the root of its address. */
  readonly elsewhere: string[];
  /** What went wrong in the page. */
  readonly errors: string[];
}

/** The HTML of a webview whose files are served beside it. */
export function webviewHtml(make: typeof panelPage, place: PagePlace): string {
  const webview = {
    cspSource: new URL(AT).origin,
    asWebviewUri: (uri: { readonly path: string }) => `${AT}${uri.path.split("/").at(-1)}`,
  };
  return make(webview as never, Uri.file(inProject("")) as never, place);
}

/** What a page gets from anybody else, where it gets through: by the end of the address what kind of thing it is. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  js: "text/javascript",
  css: "text/css",
  png: "image/png",
  svg: "image/svg+xml",
};

/** Opens the page; `seen` counts from its very beginning. */
export async function openedAt(page: Page, html: string): Promise<Seen> {
  await page.goto("about:blank");
  const elsewhere: string[] = [];
  const errors: string[] = [];
  page.removeAllListeners("pageerror");
  page.on("pageerror", (error) => errors.push(String(error)));
  await page.unrouteAll();
  await page.route(/^https?:/, async (route) => {
    const { hostname, pathname } = new URL(route.request().url());
    const name = pathname.slice(1);
    if (hostname !== new URL(AT).hostname) {
      elsewhere.push(name);
      const contentType = ELSEWHERE[name.split(".").at(-1)!] ?? "text/plain";
      return await route.fulfill({ contentType, headers: { "Access-Control-Allow-Origin": "*" }, body: "" });
    }
    if (name === "") return await route.fulfill({ contentType: "text/html", body: html });
    const contentType = ELSEWHERE[name.split(".").at(-1)!] ?? "text/plain";
    await route.fulfill({ contentType, body: readFileSync(inProject("dist/panel", name)) });
  });
  await page.addInitScript(watch);
  await page.goto(AT, { waitUntil: "load" });
  return {
    refused: () => page.evaluate(() => [...(window as unknown as { refused: string[] }).refused]),
    elsewhere,
    errors,
  };
}

/** What stands in the page before all of its own: an editor around it, and an ear for what is refused. */
function watch(): void {
  const refused: string[] = [];
  document.addEventListener("securitypolicyviolation", ({ effectiveDirective, blockedURI }) => {
    refused.push(`${effectiveDirective} ${blockedURI}`);
  });
  let kept: unknown;
  Object.assign(window, {
    refused,
    acquireVsCodeApi: () => ({
      postMessage: () => {},
      getState: () => kept,
      setState: (state: unknown) => {
        kept = state;
      },
    }),
  });
}
