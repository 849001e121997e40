/** What the editor looks like: its themes, the panel's page, pictures of the window. */
import { mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { pictureStyle } from "../../.dev/picture-style.mjs";
import { inProject } from "../../.dev/say.mjs";
import { again, narrowListOf, quickInput, runCommand } from "./editor.ts";
import { frameIn, hasKeyboard, type Place } from "./webview.ts";

export { hasKeyboard, type Place, webview } from "./webview.ts";

/** Shows the panel by its command, and waits until it has the keyboard. */
export async function showPanel(page: Page, place: Place = "only"): Promise<void> {
  // What was opened a moment ago may take the keyboard back.
  await again(async ({ timeout = 8_000 }) => {
    await runCommand(page, "Fettle: Show Panel");
    await expect.poll(() => hasKeyboard(page, place), { timeout }).toBe(true);
  });
}

/** The editor's own themes that the pictures are taken in. */
export const themes = {
  light: "Light Modern",
  dark: "Dark Modern",
  "high-contrast": "Dark High Contrast",
  "high-contrast-light": "Light High Contrast",
} as const;

export type Theme = keyof typeof themes;

const themeClasses = { light: "vs", dark: "vs-dark", "high-contrast": "hc-black", "high-contrast-light": "hc-light" };

/** Switches the colour theme, as a person would, and waits until the workbench wears it. */
export async function useTheme(page: Page, theme: Theme): Promise<void> {
  await narrowListOf(page, "Preferences: Color Theme", themes[theme]);
  await page.keyboard.press("Enter");
  await quickInput(page).waitFor({ state: "hidden" });
  await page.locator(`.monaco-workbench.${themeClasses[theme]}`).first().waitFor();
}

/** Takes a picture of the whole window into .cache/screenshots/NAME.png; gives the file's path. */
export async function screenshot(page: Page, name: string): Promise<string> {
  const path = inProject(".cache/screenshots", `${name}.png`);
  mkdirSync(dirname(path), { recursive: true });
  await page.screenshot({ path, style: pictureStyle });
  return path;
}

/** What axe-core finds wrong in a page that stands by itself; empty if nothing is. */
export async function pageViolations(page: Page, of: "all rules" | "contrast" | "names"): Promise<string[]> {
  await page.evaluate(axe.source);
  const options = of === "all rules" ? BRIEF : { ...BRIEF, runOnly: of === "contrast" ? ["color-contrast"] : NAMES };
  const { passes, violations: found } = await page.evaluate(
    (asked) => (window as unknown as { axe: AxeInPage }).axe.run(asked),
    options,
  );
  const least = { contrast: 1, names: 0, "all rules": 10 }[of];
  if (passes.length < least) throw new Error(`Only ${passes.length} rules had anything to look at in the page.`);
  return linesOf(found);
}

/** Of what is right axe then describes one place for each rule, and not all of them, which takes it longer than to look. */
const BRIEF = { resultTypes: ["violations"] };

/** The rules by which whatever takes the keyboard, and whatever is to be looked at, has a name. */
const NAMES = [
  ..."aria-command-name aria-input-field-name aria-toggle-field-name aria-tooltip-name button-name".split(" "),
  ..."input-button-name label link-name select-name summary-name svg-img-alt".split(" "),
];

const require = createRequire(import.meta.url);
const axePath = createRequire(require.resolve("@axe-core/playwright")).resolve("axe-core");
const axe: { source: string } = require(axePath);

type Violations = readonly { readonly id: string; readonly help: string; readonly nodes: { html: string }[] }[];

interface AxeInPage {
  run(options: {
    resultTypes: readonly string[];
    runOnly?: readonly string[];
  }): Promise<{ passes: unknown[]; violations: Violations }>;
}

/** What axe-core finds wrong in the panel's page, a line for each place; empty if nothing is. */
export async function violations(page: Page, place: Place = "only"): Promise<string[]> {
  const shown = frameIn(page, place).contentFrame().locator("#active-frame");
  const frame = await (await shown.elementHandle())?.contentFrame();
  if (!frame) throw new Error("The panel is not there.");
  await frame.evaluate(axe.source);
  // The page is transparent: what lies behind it in the workbench is what its text is read against.
  const behind = await frame.evaluate(
    (name) => getComputedStyle(document.documentElement).getPropertyValue(name),
    place === "tab" ? "--vscode-editor-background" : "--vscode-sideBar-background",
  );
  const { passes, violations: found } = await frame.evaluate(
    async ({ background, options }) => {
      const { style } = document.documentElement;
      style.background = background;
      const result = await (window as unknown as { axe: AxeInPage }).axe.run(options);
      style.background = "";
      return result;
    },
    { background: behind, options: BRIEF },
  );
  if (passes.length < 10) throw new Error(`Only ${passes.length} rules had anything to look at in the panel.`);
  return linesOf(found);
}

function linesOf(found: Violations): string[] {
  return found.flatMap(({ id, help, nodes }) => nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 200)}`));
}
