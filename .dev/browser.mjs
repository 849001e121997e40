// Chromium with what the editor's webviews need.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { findChromium, howToGetChromium } from "./chromium.mjs";
import { inProject } from "./say.mjs";

/** Names the address of a browser that several suites use one after the other. */
const shared = "FETTLE_BROWSER";

/**
 * Opens a page with nothing in it, in the browser that is shared where there is one, else in one of its own, and gives
 * it with the way to end it.
 * @param {{ width: number, height: number }} [size] of the page, in CSS pixels
 */
export async function launchBrowser(size = { width: 1440, height: 900 }) {
  const address = process.env[shared];
  return address ? pageIn(address, size) : start(size, []);
}

/**
 * Starts a browser for all that call `launchBrowser` from now on, here or in processes that this one starts, and gives
 * the way to end it.
 * @param {string} cache where it keeps what it may keep of the files it is given
 */
export async function shareBrowser(cache) {
  const { profile, close } = await start(undefined, ["--remote-debugging-port=0", `--disk-cache-dir=${cache}`]);
  // It writes down the port that it took, and below it more that does not matter here.
  const [port] = readFileSync(join(profile, "DevToolsActivePort"), "utf8").split("\n");
  process.env[shared] = `http://127.0.0.1:${port}`;
  return async () => {
    delete process.env[shared];
    await close();
  };
}

/** A page of its own in a browser that runs: what pages before it left behind is taken away. */
async function pageIn(/** @type {string} */ address, /** @type {{ width: number, height: number }} */ size) {
  const { chromium } = await import("playwright-core");
  const browser = await chromium.connectOverCDP(address);
  const [context] = browser.contexts();
  if (!context) throw new Error("The shared browser has no profile.");
  const page = await context.newPage();
  await page.setViewportSize(size);
  const close = async () => {
    const { origin } = new URL(page.url());
    const session = await context.newCDPSession(page);
    await page.goto("about:blank");
    if (origin !== "null") await session.send("Storage.clearDataForOrigin", { origin, storageTypes: "all" });
    await page.close();
    await browser.close();
  };
  return { page, close };
}

/** Starts Chromium with an empty profile of its own. */
async function start(
  /** @type {{ width: number, height: number } | undefined} */ size,
  /** @type {readonly string[]} */ more,
) {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(`There is no Chromium here. ${howToGetChromium}`);
  const { chromium } = await import("playwright-core");
  mkdirSync(inProject(".cache"), { recursive: true });
  const profile = mkdtempSync(inProject(".cache/browser-"));
  // Without third-party cookies a webview's service worker is refused, and the panel stays blank.
  mkdirSync(join(profile, "Default"));
  writeFileSync(
    join(profile, "Default/Preferences"),
    JSON.stringify({ profile: { cookie_controls_mode: 0, block_third_party_cookies: false } }),
  );
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    viewport: size,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...more,
    ],
  });
  const page = context.pages()[0] ?? (await context.newPage());
  const close = async () => {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  };
  return { page, profile, close };
}
