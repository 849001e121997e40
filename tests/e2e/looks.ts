/** What the editor looks like: its themes, the panel's page, pictures of the window. */
import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import type { FrameLocator, Page } from "playwright-core";
import { inProject } from "../../.dev/say.mjs";
import { quickInput, runCommand } from "./editor.ts";

/** The page inside the one webview that is shown. */
export function webview(page: Page): FrameLocator {
  return page.frameLocator("iframe.webview.ready").frameLocator("#active-frame");
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
  await runCommand(page, "Preferences: Color Theme");
  const row = page.locator(".quick-input-list .monaco-list-row.focused");
  await row.first().waitFor();
  await quickInput(page).fill(themes[theme]);
  await row.filter({ hasText: themes[theme] }).waitFor();
  await page.keyboard.press("Enter");
  await quickInput(page).waitFor({ state: "hidden" });
  await page.locator(`.monaco-workbench.${themeClasses[theme]}`).first().waitFor();
}

/** Takes a picture of the whole window into .cache/screenshots/NAME.png; gives the file's path. */
export async function screenshot(page: Page, name: string): Promise<string> {
  const path = inProject(".cache/screenshots", `${name}.png`);
  mkdirSync(dirname(path), { recursive: true });
  await page.screenshot({ path });
  return path;
}

/** What axe-core finds amiss in the panel's page, a line for each place; empty where all is well. */
export async function violations(page: Page): Promise<string[]> {
  const builder = new AxeBuilder({ page }).include({ fromFrames: ["iframe.webview.ready", "#active-frame", "body"] });
  const found = (await builder.analyze()).violations;
  return found.flatMap(({ id, help, nodes }) => nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 200)}`));
}
