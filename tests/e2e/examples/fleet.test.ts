/** All craft side by side in the real editor: in the panel and in a tab, live while one of them is typed, each cell a way to its line. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import {
  askBy,
  type Editor,
  goTo,
  narrowListOf,
  openFile,
  quickInput,
  runCommand,
  startEditor,
  type as typeText,
  waitForLine,
} from "../editor.ts";
import { hasKeyboard, screenshot, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    open: ["craft/tankard.fettle"],
    views: ["fettle.panel"],
    settings: {
      "editor.inlayHints.enabled": "off",
      "editor.minimap.enabled": false,
      // What is typed is meant.
      "editor.acceptSuggestionOnEnter": "off",
    },
    size: { width: 1180, height: 900 },
  });
});
afterAll(() => editor?.close());

test("the fleet stands in the panel, and follows what is typed", async () => {
  const panel = webview(editor.page);
  await panel.getByRole("tab", { name: "Fleet" }).click();
  await panel.getByLabel("Table").selectOption({ label: "Key settings" });
  await panel.getByLabel("Find a craft").fill("tankard");
  await panel.getByText(/^one craft|^1 of \d+ craft/).waitFor();
  const cells = panel.getByRole("row").filter({ has: panel.getByRole("rowheader", { name: "Tankard" }) });
  await cells.first().waitFor();
  expect(await violations(editor.page)).toEqual([]);
  await screenshot(editor.page, "fleet-in-panel");
  // The editor indents what stands below a section's name.
  await goTo(editor.page, 9, 1);
  await typeText(editor.page, "\nfailsafe\nthen return\n");
  await cells.getByRole("gridcell", { name: "return (most have: stop)" }).waitFor();
});

test("opened wide, a cell leads to its line", async () => {
  await webview(editor.page).getByRole("button", { name: "Open wide" }).click();
  const tab = webview(editor.page, "tab");
  await tab.getByRole("heading", { name: "The fleet" }).waitFor();
  await tab.getByLabel("Table").selectOption({ label: "Key settings" });
  await screenshot(editor.page, "fleet-in-tab");
  await tab.getByRole("gridcell", { name: "return (most have: stop)" }).last().click();
  await editor.page.locator(".tab.active", { hasText: "tankard.fettle" }).waitFor();
  await expect.poll(() => editor.page.locator("#status\\.editor\\.selection").textContent()).toMatch(/^Ln 11,/);
});

test("the command shows the tab that is there", async () => {
  await runCommand(editor.page, "Fettle: Show the Fleet");
  await editor.page.locator(".tab.active", { hasText: "Fleet" }).waitFor();
  await expect.poll(() => hasKeyboard(editor.page, "tab")).toBe(true);
});

test("a habit is changed on every craft that has it, after a look at each", async () => {
  const { page } = editor;
  const pick = async (typed: string, row: string) => {
    await quickInput(page).fill(typed);
    await page.locator(".quick-input-list .monaco-list-row", { hasText: row }).first().click();
  };
  await narrowListOf(page, "Fettle: Change a Habit Everywhere…", "finder", "on the handset “Wheel”");
  await page.keyboard.press("Enter");
  await pick("PB is held", "PB is held and not arm");
  await quickInput(page).fill("TR is");
  await page.getByText("The position of TR is expected here").first().waitFor();
  await pick("FL is up and not arm", "FL is up and not arm");
  const tab = webview(page, "tab");
  await tab.getByRole("heading", { name: "finder when FL is up and not arm" }).waitFor();
  await screenshot(page, "fleet-change");
  for (const box of await tab.getByRole("checkbox").all()) await box.check();
  await tab.getByRole("button", { name: /^Change \d craft$/ }).click();
  await tab.getByText(/^Changed on /).waitFor();
  await openFile(page, "layers/habits.fettle", 12);
  await waitForLine(page, /finder\s+when\sFL\sis\sup\sand\snot\sarm/);
});

test("another craft is made like the one in front, with what is hardware left alone", async () => {
  const { page } = editor;
  await openFile(page, "craft/gravy-boat.fettle", 3);
  const rates = page.locator(".quick-input-list .monaco-list-row", { hasText: "how it answers the sticks" });
  await askBy(page, "Fettle: Make the Others Like This One…", rates);
  await rates.first().click();
  await page.keyboard.press("Enter");
  const tab = webview(page, "tab");
  await tab.getByRole("heading", { name: "Like “Gravy boat”" }).waitFor();
  await screenshot(page, "fleet-alike");
  await tab.getByRole("button", { name: /^Change \d craft$/ }).click();
  await tab.getByText(/^Changed on /).waitFor();
  await tab.getByRole("button", { name: "Undo" }).waitFor();
});
