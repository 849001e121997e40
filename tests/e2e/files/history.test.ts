/** The history of a value in the real editor: who and when, the text of then, drawn as it was and left so. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { askBy, type Editor, goTo, openFile, runCommand, startEditor } from "../editor.ts";
import { lens } from "../language.ts";
import { screenshot, showPanel, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

const wide = (columns: string) => `layer "Wide"\n\nosd\n  grid  ${columns}\n`;
const jug = (warn: string, place: string) => `craft "Jug"

use "../layers/wide.fettle"

pack
  # cold packs sag
  warn-at  ${warn} V/cell

osd
  pack-volts   at ${place}
  flight-time  at right, top
`;
// Not those of another suite in this window: a text of a commit never changes, and is kept.
const [first, second] = ["5b".repeat(20), "7d".repeat(20)];
const files = {
  "layers/wide.fettle": wide("53 x 20"),
  "craft/jug.fettle": jug("3.6", "left, bottom"),
  ".committed/log.json": JSON.stringify([
    { hash: second, message: "Warn earlier\n\nin the cold", authorName: "Mo", authorDate: "2026-02-03T12:00:00" },
    { hash: first, message: "Begin", authorName: "Anna", authorDate: "2026-02-01T12:00:00" },
  ]),
  [`.committed/${second}/layers/wide.fettle`]: wide("53 x 20"),
  [`.committed/${second}/craft/jug.fettle`]: jug("3.5", "left, bottom"),
  [`.committed/${first}/layers/wide.fettle`]: wide("30 x 16"),
  [`.committed/${first}/craft/jug.fettle`]: jug("3.4", "centre, middle"),
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files, open: ["craft/jug.fettle"] });
  await lens(editor.page, "Goggles").waitFor();
});
afterAll(() => editor?.close());

test("who changed the value when, and each text of then, drawn with what it used and left as it was", async () => {
  const { page } = editor;
  const rows = page.locator(".quick-input-list .monaco-list-row");
  const ask = async () => {
    await goTo(page, 7, 4);
    await askBy(page, "Fettle: Show the History of This Value", rows.filter({ hasText: "Begin" }));
  };
  await ask();
  expect(await rows.nth(0).textContent()).toContain("Not committed yet3.5 V/cell → 3.6 V/cell");
  expect(await rows.nth(1).textContent()).toMatch(/2026-02-03\s+Mo3\.4 V\/cell → 3\.5 V\/cell.*Warn earlier/);
  await screenshot(page, "history-list");
  // A change leads to the texts before and after it.
  await rows.nth(1).click();
  await page.locator(".tab.active", { hasText: "jug (5b5b5b5b5b).fettle ↔ jug (7d7d7d7d7d).fettle" }).waitFor();
  await page.locator(".monaco-diff-editor .view-line", { hasText: /3\.5/ }).first().waitFor();
  await screenshot(page, "history-texts");

  // The first one leads to the text itself, which the panel draws as it was, with the grid of then.
  await openFile(page, "craft/jug.fettle");
  await showPanel(page);
  // Another suite may have left another view in front.
  await webview(page).getByRole("tab", { name: "Goggles" }).click();
  await ask();
  await rows.filter({ hasText: "Begin" }).click();
  await page.locator(".tab.active", { hasText: "jug (5b5b5b5b5b).fettle" }).waitFor();
  const panel = webview(page);
  await panel.getByText("As it was 5b5b5b5b5b, 2026-02-01, “Begin”").waitFor();
  await panel.getByText("2 elements on 30 by 16 cells").waitFor();
  expect(await panel.getByText("Fit to another grid").count()).toBe(0);
  const volts = panel.getByRole("button", { name: /^pack-volts/ });
  await volts.focus();
  await page.keyboard.press("ArrowRight");
  await page
    .locator(".notification-toast", { hasText: "This is drawn as it was, and nothing is changed in it" })
    .waitFor();
  await runCommand(page, "Notifications: Clear All Notifications");
  for (const theme of Object.keys(themes) as Theme[]) {
    await useTheme(page, theme);
    await screenshot(page, `history-panel-${theme}`);
    expect(await violations(page)).toEqual([]);
  }
  await useTheme(page, "light");

  // Back in the script the panel draws what is now.
  await openFile(page, "craft/jug.fettle");
  await panel.getByText("As it was").waitFor({ state: "detached" });
});
