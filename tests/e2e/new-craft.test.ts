/** A craft from a few questions in the real editor: asked from the panel, answered by keys, saved. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { type Editor, quickInput, runCommand, startEditor, type, waitForLine } from "./editor.ts";
import { problems } from "./language.ts";
import { screenshot, webview } from "./looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ folder: inProject("tests/fixtures/shed"), views: ["fettle.panel"] });
});
afterAll(() => editor?.close());

const title = () => editor.page.locator(".quick-input-widget .quick-input-title");
const row = (text: string) => editor.page.locator(".quick-input-list .monaco-list-row", { hasText: text });
const step = (place: string) => title().filter({ hasText: place }).waitFor();

test("the panel's button asks, the way back asks again, and the craft that is saved has no problems", async () => {
  const { page } = editor;
  await webview(page).getByRole("button", { name: "New craft…" }).click();
  await title().filter({ hasText: "New craft" }).waitFor();
  await type(page, "Ladle");
  await page.keyboard.press("Enter");
  await step("1/8");
  await row("3 inch").click();
  // Three inches fly with and without ducts, which is one question more.
  await step("2/9");
  expect(await row("8 cells").count()).toBe(0);
  await page.locator(".quick-input-titlebar .codicon-quick-input-back").click();
  await step("1/8");
  await row("10 inch").click();
  await step("2/8");
  await row("8 cells, li-ion").click();
  await step("3/8");
  await row("Wheel").first().waitFor();
  await screenshot(page, "new-craft");
  for (const place of ["4/8", "5/8", "6/8", "7/8", "8/8"]) {
    // Enter takes the usual answer, which is the one in focus.
    await page.locator(".quick-input-list .monaco-list-row.focused").waitFor();
    await page.keyboard.press("Enter");
    await step(place);
  }
  await quickInput(page).press("Enter");
  await row("Save as craft/ladle.fettle").click();
  await page.locator(".tab.active", { hasText: "ladle.fettle" }).waitFor();
  await waitForLine(page, 'craft "Ladle"');
  await waitForLine(page, 'use "../handsets/wheel.fettle"');
  await waitForLine(page, /chemistry\s+li-ion/);
  expect((await problems(page)).filter((each) => /ladle/.test(each))).toEqual([]);
});

test("what is there is never overwritten, and a pilot who leaves gets nothing", async () => {
  const { page } = editor;
  await runCommand(page, "Fettle: New Craft…");
  await title().filter({ hasText: "New craft" }).waitFor();
  await type(page, "A ladle whose name is far too long for any display");
  await page.keyboard.press("Enter");
  await page.locator(".quick-input-message", { hasText: "at most 40 characters" }).waitFor();
  await quickInput(page).fill("Ladle");
  await page.keyboard.press("Enter");
  for (let place = 1; place <= 8; place++) {
    await step(`${place}/8`);
    if (place < 8) await page.locator(".quick-input-list .monaco-list-row.focused").waitFor();
    await quickInput(page).press("Enter");
  }
  await row("Save as craft/ladle-2.fettle").waitFor();
  await page.keyboard.press("Escape");
  await quickInput(page).waitFor({ state: "hidden" });
  expect(await page.locator(".tab").count()).toBe(1);
});
