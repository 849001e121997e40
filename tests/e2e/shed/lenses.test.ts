/**
 * The workspace in the real editor: the tree beside the panel, the words above lines, the status bar, the effective
 * craft, and the panel's own list while no script is open.
 */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { again, type Editor, openFile, runCommand, startEditor, type, waitForLine } from "../editor.ts";
import { lens as lensOf } from "../language.ts";
import { screenshot, showPanel, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    // At first no script has been opened.
    ownWindow: true,
    folder: inProject("tests/fixtures/shed"),
    views: ["fettle.panel"],
  });
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const lens = (text: string | RegExp) => lensOf(editor.page, text);
const row = (label: string | RegExp) => editor.page.getByRole("treeitem", { name: label }).first();
const status = () => editor.page.locator(".part.statusbar .statusbar-item[id*='fettle.status']");

test("without a script the panel lists the craft, and a press opens one", async () => {
  const { page } = editor;
  const list = panel().getByRole("list", { name: "Craft of this workspace" });
  await list.getByRole("button", { name: "Tankard" }).waitFor();
  await expect.poll(() => list.getByRole("listitem").filter({ hasText: "Mug" }).textContent()).toMatch(/error/);
  await screenshot(page, "workspace-empty-panel");
  expect(await violations(page)).toEqual([]);
  await list.getByRole("button", { name: "Mug" }).click();
  await page.locator(".tab.active", { hasText: "mug.fettle" }).waitFor();
});

test("the tree shows each craft with its parts and its findings, and opens what is pressed", async () => {
  const { page } = editor;
  await row(/^Mug, craft, Wheel · .*error/).waitFor();
  await row(/^Tankard, craft, Wheel/).click();
  await page.locator(".tab.active", { hasText: "tankard.fettle" }).waitFor();
  const habits = row(/^Habits, layer, used by 1 craft/);
  await expect
    .poll(async () => {
      // A tree that is drawn anew just then, as findings are counted, takes no key: it is pressed again.
      if (!(await habits.isVisible())) await page.keyboard.press("ArrowRight");
      return habits.isVisible();
    })
    .toBe(true);
  await screenshot(page, "workspace-tree");
  await row(/^Wheel, handset, used by 3 craft/).click();
  await page.locator(".tab.active", { hasText: "wheel.fettle" }).waitFor();
});

test("above a layer or a handset stands how many craft use it, and a press lists them", async () => {
  const { page } = editor;
  await lens("used by 3 craft").click();
  await page.getByRole("option", { name: /Tankard/ }).click();
  await page.locator(".tab.active", { hasText: "tankard.fettle" }).waitFor();
});

test("the status bar says whether the craft can be armed, and leads to the switches", async () => {
  await expect.poll(() => status().textContent()).toMatch(/Tankard: ready/);
  expect(await status().locator("a").getAttribute("aria-label")).toMatch(/^Tankard: ready/);
  await status().click();
  await panel().getByRole("tab", { name: "Switches", selected: true }).waitFor();
});

test("the effective craft follows what is typed in a layer, and leads to the line behind a value", async () => {
  const { page } = editor;
  await runCommand(page, "Fettle: Show the Effective Craft");
  const effective = page.locator(".editor-group-container", { hasText: "tankard (effective).fettle" });
  const line = (text: string) => effective.locator(".view-line").filter({ hasText: text.replaceAll(" ", "\u00a0") });
  await line("when TR is down").waitFor();
  await screenshot(page, "workspace-effective");
  await openFile(page, "layers/habits.fettle", 7, 3);
  await page.keyboard.press("Shift+End");
  await type(page, "turtle    when PB is held");
  await line("turtle    when PB is held").waitFor();
  // Under the key the link comes apart, and one that was made anew meanwhile leads nowhere yet.
  const link = line("turtle    when PB is held").locator(".detected-link").first();
  await again(async (waiting) => {
    await link.click({ modifiers: ["ControlOrMeta"], ...waiting });
    await page.locator("#status\\.editor\\.selection", { hasText: "Ln 7" }).waitFor(waiting);
  });
  await page.locator(".tab.active", { hasText: "habits.fettle" }).first().waitFor();
});

test("a lens above the header shows a drawing; one above a mode the switches that turn it on", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle");
  // The editor asks for the lenses of a script only while the script has the keyboard.
  await lens(/on in \d+ of \d+ states?; at rest: off/).waitFor();
  await lens("Goggles").click();
  await panel().getByRole("tab", { name: "Goggles", selected: true }).waitFor();
  await lens(/on in \d+ of \d+ states?; at rest: off/).click();
  await panel().getByRole("tab", { name: "Switches", selected: true }).waitFor();
  await expect.poll(() => panel().getByRole("status").first().textContent()).toContain("Armed");
});

test("lenses follow what is typed", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle", 7, 3);
  await page.keyboard.press("Shift+End");
  await type(page, "level  when always");
  await waitForLine(page, "level  when always");
  await lens(/at rest: on/).waitFor();
});

test("in the explorer a letter tells what a script is", async () => {
  const { page } = editor;
  await runCommand(page, "View: Show Explorer");
  const file = page.locator(".explorer-viewlet .monaco-list-row", { hasText: "mug.fettle" });
  await file.waitFor();
  await expect.poll(() => file.locator(".monaco-icon-label").getAttribute("aria-label")).toContain("Craft “Mug”");
  await screenshot(page, "workspace-explorer");
});

test.each(Object.keys(themes) as Theme[])("the pictures of the tree stand out in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await showPanel(page);
  await row(/^Mug, craft/).waitFor();
  await screenshot(page, `workspace-tree-${theme}`);
});
