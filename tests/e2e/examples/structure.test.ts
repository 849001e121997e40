/** Ways through scripts by what they are made of: names of the workspace, selections that grow, what hangs on what, all repairs. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, openFile, quickInput, runCommand, startEditor, undo, waitForLine } from "../editor.ts";
import { screenshot } from "../looks.ts";

const FAULTY = `craft "Beaker"

use "../handsets/wheel.fettle"

pack
  chemistry: LiPo
  cells 4S // four
  capacity 1300

modes
  arm when TL is down && TR is up
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    files: { "craft/beaker.fettle": FAULTY },
    open: ["craft/beaker.fettle", "craft/amphora.fettle"],
  });
});
afterAll(() => editor?.close());

const selected = () => editor.page.locator(".statusbar-item", { hasText: /\(\d+ selected\)/ }).textContent();
const tree = () => editor.page.locator(".pane-body .monaco-list-row");

test("names of the workspace are found by letters and by plain words", async () => {
  const { page } = editor;
  await openFile(page, "craft/amphora.fettle");
  await page.keyboard.press("Control+t");
  const input = quickInput(page);
  await input.waitFor();
  await page.keyboard.type("arm");
  const rows = page.locator(".quick-input-list .monaco-list-row");
  await rows.filter({ hasText: "Shed habits, modes" }).first().waitFor();
  await screenshot(page, "names-arm");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("#flip");
  await rows.filter({ hasText: "turtle · flip" }).first().waitFor();
  await screenshot(page, "names-flip");
  await rows.filter({ hasText: "turtle · flip" }).filter({ hasText: "Shed habits" }).click();
  await page.locator(".tab.active", { hasText: "habits.fettle" }).waitFor();
  await waitForLine(page, "turtle");
});

test("a selection grows from the word to the condition, the entry, its block and the section", async () => {
  const { page } = editor;
  await openFile(page, "craft/beaker.fettle", 11, 16);
  const sizes: number[] = [];
  for (let i = 0; i < 4; i++) {
    await page.keyboard.press("Shift+Alt+ArrowRight");
    await expect
      .poll(async () => Number(/\((\d+) selected\)/.exec((await selected()) ?? "")?.[1]))
      .toBeGreaterThan(sizes.at(-1) ?? 0);
    sizes.push(Number(/\((\d+) selected\)/.exec((await selected())!)![1]));
  }
  expect(sizes[0]).toBe(2);
  expect(sizes.every((size, i) => i === 0 || size > sizes[i - 1]!)).toBe(true);
  await page.keyboard.press("ArrowLeft");
});

test("what hangs on a switch is shown from the switch to its modes, and what uses a layer", async () => {
  const { page } = editor;
  await openFile(page, "craft/amphora.fettle", 53, 21);
  await runCommand(page, "Calls: Show Call Hierarchy");
  const down = tree().filter({ hasText: "TL is down" });
  await down.waitFor();
  await down.click();
  await page.keyboard.press("ArrowRight");
  await tree().filter({ hasText: "when TL is down" }).first().waitFor();
  await screenshot(page, "calls");
  await openFile(page, "layers/habits.fettle");
  await page.locator(".view-line", { hasText: "layer" }).first().click();
  await runCommand(page, "Types: Show Type Hierarchy");
  await tree().filter({ hasText: "layer, habits.fettle" }).first().waitFor();
  await screenshot(page, "types");
});

test("all certain repairs are made in one step, and what is doubtful is left", async () => {
  const { page } = editor;
  await openFile(page, "craft/beaker.fettle");
  await waitForLine(page, "cells 4S // four");
  await runCommand(page, "Fix All");
  await waitForLine(page, "cells 4 # four");
  await waitForLine(page, "capacity 1300 mAh");
  await waitForLine(page, "arm when TL is down and TR is up");
  await screenshot(page, "fix-all");
  await undo(page);
  await waitForLine(page, "cells 4S // four");
});
