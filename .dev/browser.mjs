// Chromium with what the editor's webviews need.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { findChromium, howToGetChromium } from "./chromium.mjs";
import { inProject } from "./say.mjs";

/**
 * Starts Chromium with a new, empty profile; returns its page, and a function that closes it.
 * @param {{ width: number, height: number }} [size] size of the window, in CSS pixels
 * @param {string} [folder] where the profile is made
 */
export async function launchBrowser(size = { width: 1440, height: 900 }, folder = inProject(".cache")) {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(`There is no Chromium here. ${howToGetChromium}`);
  const { chromium } = await import("playwright-core");
  mkdirSync(folder, { recursive: true });
  const profile = mkdtempSync(join(folder, "browser-"));
  // Where third-party cookies are blocked, a webview's service worker is too, and the panel stays blank.
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
    ],
  });
  const page = context.pages()[0] ?? (await context.newPage());
  const close = async () => {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  };
  return { page, close };
}
