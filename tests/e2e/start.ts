/**
 * Windows of the editor for the suites, one after the other in one browser. A suite takes over the window
 * of the one before where both are about the same folder, and finds nothing of it: its own files and
 * settings, no editor, notification, theme or history, the explorer or the views it asks for in a side bar
 * of the usual width, the panel at rest, a language server that was started anew. A suite that asks for its
 * own window gets one from its very start, which is closed with it; the shared one waits behind it.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Page } from "playwright-core";
import { e2eFolder, testExtensions } from "../../.dev/e2e-build.mjs";
import { type Served, serveEditor, type WebHost } from "../../.dev/web-host.mjs";
import { newPage } from "./browser.ts";
import { STAGE_COMMAND, type Stage } from "./stage-command.ts";
import { webview } from "./webview.ts";

export interface Editor {
  readonly page: Page;
  /** What the page and the extension host wrote to the console as errors since this suite began, in order. */
  readonly errors: readonly string[];
  /** Ends the suite; a shared window stays for the next. */
  close(): Promise<void>;
}

type Size = { readonly width: number; readonly height: number };

export interface EditorOptions {
  /** The files of a folder. */
  readonly folder?: string;
  /** More files: texts by their paths. */
  readonly files?: Readonly<Record<string, string>>;
  /** Files to open at first. */
  readonly open?: readonly string[];
  /** Ids of views to show at first. */
  readonly views?: readonly string[];
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly size?: Size;
  /**
   * Whether it has a window from its very start to itself: for what happens once in a window, as while no script has
   * been opened yet, and for what the extension remembers until the window is closed.
   */
  readonly ownWindow?: boolean;
}

interface Window {
  readonly page: Page;
  readonly host: WebHost;
  readonly errors: string[];
}

interface SharedWindow extends Window {
  /** The folder that its suites are about; none where they bring their files. */
  readonly about: string | undefined;
  /** The folder that is served. */
  readonly workspace: string;
}

const SIDE_BAR_PX = 300;
/** The first window of a run starts while the unit tests do. */
const PATIENCE_MS = 60_000;
const workbenchModule = "/static/build/out/vs/workbench/workbench.web.main.internal.js";
let shared: SharedWindow | undefined;

/** Gives the editor once its workbench stands and the files of `open` show. */
export async function startEditor(options: EditorOptions): Promise<Editor> {
  const { folder: about, open = [], views = [], settings = {}, size = { width: 1440, height: 900 } } = options;
  const stage: Stage = { files: { ...(about ? textsIn(about) : {}), ...options.files }, settings, open, views };
  if (options.ownWindow) return ownWindow(stage, size);
  const window = await sharedWindow(about, stage, size);
  return { page: window.page, errors: window.errors, close: async () => {} };
}

/** A window whose start is already that of the suite, beside the one that others share. */
async function ownWindow(stage: Stage, size: Size): Promise<Editor> {
  const workspace = writtenFolder(stage.files);
  const { settings, open, views } = stage;
  const window = await openWindow({ folder: workspace, settings, open, views }, size);
  if (open.length > 0) await scriptShown(window.page);
  const close = async () => {
    await closeWindow(window);
    rmSync(workspace, { recursive: true, force: true });
  };
  return { page: window.page, errors: window.errors, close };
}

/** The window of the suite before where it is about the same folder; else a new one. */
async function sharedWindow(about: string | undefined, stage: Stage, size: Size): Promise<Window> {
  if (shared && shared.about === about) {
    // A page that is loaded anew reads the folder again.
    writeFolder(shared.workspace, stage.files);
    // What a suite that failed left behind may be in the way: then a new window is.
    if (await takeOver(shared, stage, size)) return shared;
  }
  if (shared) await closeWindow(shared);
  shared = undefined;
  const workspace = writtenFolder(stage.files);
  const window = await openWindow({ folder: workspace, beside: Object.values(testExtensions) }, size);
  try {
    await setStage(window.page, stage);
  } catch (error) {
    await closeWindow(window);
    throw error;
  }
  shared = { ...window, about, workspace };
  return shared;
}

/** The texts of all files in a folder by their paths in it. */
function textsIn(from: string): Record<string, string> {
  const paths = readdirSync(from, { recursive: true, encoding: "utf8" });
  const files = paths.filter((path) => statSync(join(from, path)).isFile());
  return Object.fromEntries(
    files.map((path) => [path.replaceAll("\\", "/"), readFileSync(join(from, path), "utf8")] as const),
  );
}

/** A new folder with these files. */
function writtenFolder(files: Stage["files"]): string {
  mkdirSync(e2eFolder, { recursive: true });
  const folder = mkdtempSync(join(e2eFolder, "workspace-"));
  writeFolder(folder, files);
  return folder;
}

function writeFolder(folder: string, files: Stage["files"]): void {
  for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true });
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

async function takeOver({ page, errors }: Window, stage: Stage, size: Size): Promise<boolean> {
  errors.length = 0;
  try {
    await page.bringToFront();
    await page.setViewportSize(size);
    await page.emulateMedia({ reducedMotion: null });
    await page.mouse.up();
    await page.mouse.move(size.width / 2, size.height - 4);
    await page.keyboard.press("Escape");
    await setStage(page, stage);
    await sideBarOfUsualWidth(page);
    if (stage.views.includes("fettle.panel")) await panelAtRest(page);
    return true;
  } catch {
    return false;
  }
}

async function openWindow(served: Served, size: Size): Promise<Window> {
  const host = await serveEditor(served);
  const page = await newPage(size);
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => errors.push(String(error)));
  const window = { page, host, errors };
  try {
    // Its status bar tells better than the page's own event that it stands.
    await page.goto(host.url, { waitUntil: "commit" });
    await page.locator(".monaco-workbench .part.statusbar").waitFor({ timeout: 90_000 });
  } catch (error) {
    // The next suite is not to share its time with an editor that nobody looks at.
    await closeWindow(window);
    throw error;
  }
  return window;
}

async function closeWindow({ page, host }: Window): Promise<void> {
  await page.close();
  await host.close();
}

async function setStage(page: Page, stage: Stage): Promise<void> {
  await execute(page, STAGE_COMMAND, stage);
  if (stage.open.length > 0) await scriptShown(page);
}

const scriptShown = (page: Page) => page.locator(".monaco-editor .view-line").first().waitFor({ timeout: PATIENCE_MS });

/** Runs a command of the workbench, or of an extension, by its id: the page's own module has a function for it. */
export async function execute(page: Page, id: string, argument: unknown): Promise<void> {
  // As text, since the test runner replaces an import in a function.
  const run = `import(${JSON.stringify(workbenchModule)}).then(({ commands }) =>
    commands.executeCommand(${JSON.stringify(id)}, ${JSON.stringify(argument)}).then(() => true))`;
  const late = new Promise<false>((resolve) => setTimeout(() => resolve(false), PATIENCE_MS).unref());
  if (!(await Promise.race([page.evaluate(run), late]))) throw new Error(`${id} did not end in ${PATIENCE_MS} ms.`);
}

async function sideBarOfUsualWidth(page: Page): Promise<void> {
  const box = await page.locator(".part.sidebar").boundingBox();
  if (!box || Math.abs(box.width - SIDE_BAR_PX) < 2) return;
  await page.mouse.move(box.x + box.width, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + SIDE_BAR_PX, box.y + box.height / 2, { steps: 4 });
  await page.mouse.up();
}

/**
 * Brings the panel back to the goggles in mid flight, with every control at rest. A suite that turns on
 * anything else in the panel, such as the magnifier, turns it off again.
 */
async function panelAtRest(page: Page): Promise<void> {
  const panel = webview(page);
  const tab = (name: string) => panel.getByRole("tab", { name });
  await tab("Switches").click();
  const rest = panel.getByRole("button", { name: "Everything to rest" });
  if (await rest.isVisible()) await rest.click();
  await tab("Goggles").click();
  const slider = panel.getByRole("slider", { name: /Moment of the flight/ });
  if (!(await slider.isVisible()) || (await slider.getAttribute("aria-valuetext")) === "Mid flight") return;
  await slider.focus();
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowRight");
}
