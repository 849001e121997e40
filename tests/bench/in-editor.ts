/** The real editor with a script and the panel, and how long it takes from a key to the painted panel. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Frame, Page } from "playwright-core";

const percentile = (numbers: readonly number[], share: number) =>
  [...numbers].sort((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))]!;
export const spread = (numbers: readonly number[]) =>
  `p50 ${percentile(numbers, 0.5).toFixed(1)} ms, p95 ${percentile(numbers, 0.95).toFixed(1)} ms`;

/** Opens a script of some files in the editor in Chromium, waits until the panel shows that, and measures. */
export async function inEditor(
  open: string,
  files: Readonly<Record<string, string>>,
  shown: string,
  measure: (page: Page, panel: Frame) => Promise<string>,
): Promise<string> {
  // The scripts of the project find its folder by their own: they are not to be bundled.
  const script = (name: string) => import(pathToFileURL(join(process.cwd(), ".dev", name)).href);
  const { launchBrowser }: typeof import("../../.dev/browser.mjs") = await script("browser.mjs");
  const { serveEditor }: typeof import("../../.dev/web-host.mjs") = await script("web-host.mjs");
  const folder = mkdtempSync(join(tmpdir(), "fettle-bench-"));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const settings = { "editor.minimap.enabled": false };
  const host = await serveEditor({ folder, open: [open], views: ["fettle.panel"], settings });
  const { page, close } = await launchBrowser();
  try {
    await page.goto(host.url);
    return await measure(page, await panelOf(page, shown));
  } finally {
    await close();
    await host.close();
    rmSync(folder, { recursive: true });
  }
}

async function panelOf(page: Page, shown: string): Promise<Frame> {
  const inner = page.frameLocator("iframe.webview.ready");
  await inner.frameLocator("#active-frame").locator(shown).first().waitFor({ timeout: 60_000 });
  const frame = await (await inner.locator("#active-frame").elementHandle())?.contentFrame();
  if (!frame) throw new Error("The panel is not there.");
  return frame;
}

/** What is pressed, and where in the panel it shows. */
export interface Presses {
  /** Changes of this part of the panel count as the painted picture. */
  readonly watched: string;
  readonly edits: number;
}

/** Types a key at the end of a line with this text and undoes it, and measures when the panel has changed. */
export async function editsPainted(
  page: Page,
  panel: Frame,
  { line, nth, key, ...presses }: Presses & { readonly line: string; readonly nth: number; readonly key: string },
): Promise<number[]> {
  await page.locator(".monaco-editor .view-line", { hasText: line }).nth(nth).click();
  await page.keyboard.press("End");
  return pressesPainted(page, panel, page, [key, "Backspace"], presses);
}

/** Presses keys in turn in whatever has the focus, in the page or in the panel, and sees when the panel has changed. */
export async function pressesPainted(
  page: Page,
  panel: Frame,
  focused: Page | Frame,
  keys: readonly string[],
  { watched, edits }: Presses,
): Promise<number[]> {
  await focused.evaluate(() => {
    const own = window as unknown as { pressedAt: number };
    window.addEventListener(
      "keydown",
      ({ timeStamp }) => {
        own.pressedAt = performance.timeOrigin + timeStamp;
      },
      true,
    );
  });
  await panel.evaluate((part) => {
    const paints = window as unknown as { paintedAt: number };
    paints.paintedAt = 0;
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      paints.paintedAt = performance.timeOrigin + performance.now();
    };
    const observer = new MutationObserver(() => requestAnimationFrame(() => channel.port2.postMessage(0)));
    observer.observe(document.querySelector(part)!, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
  }, watched);
  const spent: number[] = [];
  for (let edit = 0; edit < edits; edit++) {
    await panel.evaluate(() => {
      (window as unknown as { paintedAt: number }).paintedAt = 0;
    });
    await page.keyboard.press(keys[edit % keys.length]!);
    await panel.waitForFunction(() => (window as unknown as { paintedAt: number }).paintedAt > 0);
    const pressed = await focused.evaluate(() => (window as unknown as { pressedAt: number }).pressedAt);
    const painted = await panel.evaluate(() => (window as unknown as { paintedAt: number }).paintedAt);
    spent.push(painted - pressed);
    await page.waitForTimeout(150);
  }
  return spent;
}
