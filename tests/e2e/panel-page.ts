/** A page by itself, without an editor: it gets hand-made models or results, and its messages to the host are read. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { inProject } from "../../.dev/say.mjs";
import type { GogglesPicture, PanelModel } from "../../shared/protocol/panel.ts";
import type { FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { newPage } from "./browser.ts";
import type { Theme } from "./looks.ts";

export interface PageByItself<To, From> {
  readonly page: Page;
  post(message: To): Promise<void>;
  /** The messages that the page has sent since the last call. */
  posted(): Promise<From[]>;
  /** What went wrong in the page. */
  readonly errors: readonly string[];
  close(): Promise<void>;
}

export type PanelPage = PageByItself<ToPanel, FromPanel>;

/** Opens the built page of the panel as a webview would, its host being the test. */
export function openPanelPage(size = { width: 420, height: 800 }): Promise<PanelPage> {
  return openPage("side", size);
}

/** Posts a message to a page, and waits until it is taken and painted: two frames later nothing of it is left to do. */
export function postTo(page: Page, message: unknown): Promise<void> {
  return page.evaluate(
    (sent) =>
      new Promise<void>((resolve) => {
        const painted = () => requestAnimationFrame(() => requestAnimationFrame(() => resolve()));
        window.addEventListener("message", painted, { once: true });
        window.postMessage(sent, "*");
      }),
    message,
  );
}

/** Opens the built page with the app of a place in it. */
export async function openPage<To, From>(
  place: "side" | "comparison" | "review" | "fleet" | "fleet-change",
  size: { readonly width: number; readonly height: number },
): Promise<PageByItself<To, From>> {
  mkdirSync(inProject(".cache"), { recursive: true });
  const folder = mkdtempSync(inProject(".cache/panel-"));
  const address = (name: string) => pathToFileURL(inProject("dist/panel", name)).href;
  const host = `
    window.posted = [];
    let kept;
    window.acquireVsCodeApi = () => ({
      postMessage: (message) => posted.push(message), getState: () => kept, setState: (state) => { kept = state; },
    });`;
  const html = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Panel</title>
    <link rel="stylesheet" href="${address("panel.css")}"></head>
    <body class="vscode-light"><main id="panel" data-place="${place}"></main><script>${host}</script>
    <script src="${address("panel.js")}"></script></body></html>`;
  writeFileSync(join(folder, "index.html"), html);
  const page = await newPage(size);
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  await page.goto(pathToFileURL(join(folder, "index.html")).href);
  // What is posted before the page says that it is there, nobody hears.
  await page.waitForFunction(() => (window as unknown as { posted: unknown[] }).posted.length > 0);
  return {
    page,
    errors,
    post: (message) => postTo(page, message),
    posted: () => page.evaluate(() => (window as unknown as { posted: never[] }).posted.splice(0)),
    async close() {
      await page.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The editor's own themes as its webviews get them, of their colours those that the panel names; taken from a running editor. */
const worn: Readonly<Record<Theme, { body: string; colours: Readonly<Record<string, string>> }>> = JSON.parse(
  readFileSync(inProject("tests/fixtures/themes.json"), "utf8"),
);

/** Gives the page the colours of a theme, and the size of letters and the ground that the side bar has. */
export async function wear(page: Page, theme: Theme): Promise<void> {
  await page.evaluate(({ body, colours }) => {
    const { style } = document.documentElement;
    for (const name of Object.keys(colours)) style.setProperty(name, colours[name]!);
    document.body.className = body;
    document.body.style.cssText = "margin: 0; font: 13px sans-serif; color: var(--vscode-editor-foreground)";
    style.background = "var(--vscode-sideBar-background)";
  }, worn[theme]);
}

/** A model with nothing but that picture. */
export function modelOf(goggles: GogglesPicture, version: number, craft = "Jug"): ToPanel {
  const model: PanelModel = {
    file: `file:///shed/${craft.toLowerCase()}.fettle`,
    version,
    craft,
    empty: null,
    emptyWays: [],
    alsoIn: [],
    goggles,
    noGoggles: null,
    gogglesWays: [],
    begin: null,
    switches: null,
    noSwitches: null,
    switchesWays: [],
    missing: [],
    switchesGaps: [],
    numbers: null,
    noNumbers: null,
    numbersWays: [],
    findings: [],
  };
  return { kind: "model", model };
}
