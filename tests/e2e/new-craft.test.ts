/** A craft from a few questions in the real editor: asked from the panel, answered by keys, saved. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { type Editor, goTo, quickInput, runCommand, startEditor, type, undo, waitForLine } from "./editor.ts";
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

test("a handset of one's own, made by keys on the way to a craft, is saved and used, with no problem in either", async () => {
  const { page } = editor;
  const enter = () => quickInput(page).press("Enter");
  const answer = async (text: string) => {
    await quickInput(page).fill(text);
    await enter();
  };
  const asked = (text: string) => page.locator(".quick-input-widget", { hasText: text }).waitFor();
  const prompt = (text: string) =>
    page
      .locator(`.quick-input-widget input[placeholder*="${text}"], .quick-input-widget input[aria-label*="${text}"]`)
      .first()
      .waitFor();
  await runCommand(page, "Fettle: New Craft…");
  await title().filter({ hasText: "New craft" }).waitFor();
  await answer("Bowl");
  for (const place of ["1/8", "2/8"]) {
    await step(place);
    await row(place === "1/8" ? "5 inch" : "6 cells, lipo").waitFor();
    await enter();
  }
  await step("3/8");
  await answer("A new handset");
  await title().filter({ hasText: "New handset" }).waitFor();
  await asked("What is the handset called?");
  // The way back from the first question leads to the craft again.
  await page.locator(".quick-input-titlebar .codicon-quick-input-back").click();
  await step("3/8");
  await answer("A new handset");
  await asked("What is the handset called?");
  await answer("Kiln");
  await prompt("like another handset");
  await enter();
  await prompt("which band");
  await answer("868.3 MHz");
  await prompt("how much power");
  await answer("fast");
  // What no module sends is asked again, with the reason.
  await prompt("“fast” is no answer");
  await answer("25 mW");
  await prompt("which stick");
  await answer("Mode 2");
  await prompt("which order");
  await answer("throttle roll pitch yaw");
  await prompt("at their ends");
  await answer("988 us to 2012 us");
  for (const [name, positions, place] of [
    ["TL", "up, down", "Left shoulder"],
    ["TR", "up, mid, down", "Right shoulder"],
  ] as const) {
    await prompt("what is it");
    await answer("Switch");
    await asked("What do you call it?");
    await answer(name);
    await asked("On which channel");
    await enter();
    await prompt("Which positions");
    await answer(positions);
    await prompt("switched on");
    await enter();
    await prompt("does the hand find");
    if (name === "TR") await screenshot(page, "new-handset");
    await answer(place);
  }
  await title().filter({ hasText: "TL on ch5, TR on ch6" }).waitFor();
  await answer("No more controls");
  for (const place of ["4/8", "5/8", "6/8", "7/8", "8/8"]) {
    await step(place);
    if (place !== "8/8") await page.locator(".quick-input-list .monaco-list-row.focused").waitFor();
    await enter();
  }
  await row("Save as craft/bowl.fettle").click();
  await page.locator(".tab.active", { hasText: "bowl.fettle" }).waitFor();
  await waitForLine(page, 'use "../handsets/kiln.fettle"');
  await goTo(page, 30);
  await waitForLine(page, /order\s+throttle\sroll\spitch\syaw/);
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  expect((await problems(page)).filter((each) => /bowl|kiln/.test(each))).toEqual([]);
});

test("the craft takes another handset: what becomes of each control is shown, changed and written as one step", async () => {
  const { page } = editor;
  await runCommand(page, "Fettle: Use Another Handset…");
  await row("Wheel").first().click();
  await title().filter({ hasText: "Bowl on Wheel" }).waitFor();
  await row("TL → TL").filter({ hasText: "the same channel, ch5" }).waitFor();
  await screenshot(page, "map-controls");
  await row("TL → TL").click();
  await title().filter({ hasText: "TL becomes" }).waitFor();
  await row("PB").click();
  await row("TL → PB").filter({ hasText: "it springs back" }).waitFor();
  // What was written before stays as it is until the proposal is taken.
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  await row("Write this").click();
  await waitForLine(page, /arm\s+when\sPB\sis\sheld/);
  await goTo(page, 1);
  await waitForLine(page, 'use "../handsets/wheel.fettle"');
  await undo(page);
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  await goTo(page, 1);
  await waitForLine(page, 'use "../handsets/kiln.fettle"');
});
