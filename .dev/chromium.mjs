// Finds a Chromium on this machine; none is downloaded.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge"];
const usualPaths = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/snap/bin/chromium",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** How to get a browser, for messages. */
export const howToGetChromium =
  "On Debian or Ubuntu: sudo apt-get install chromium. Elsewhere install Chromium or Chrome; if it is not found, set CHROMIUM to its executable.";

/** The executable of a Chromium: from the variable CHROMIUM, the usual places, or PATH; null where there is none. */
export function findChromium() {
  const configured = process.env.CHROMIUM;
  if (configured) return isProgram(configured) ? configured : null;
  const onPath = (process.env.PATH ?? "").split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
  return [...usualPaths, ...onPath].find(isProgram) ?? null;
}

function isProgram(/** @type {string} */ file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
