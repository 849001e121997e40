/** Where a value comes from, in the real editor: the chain, another value on one craft, a layer taken out and written out again. */
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  askBy,
  type Editor,
  goTo,
  openFile,
  quickInput,
  startEditor,
  type,
  undo,
  visibleLines,
  waitForLine,
} from "../editor.ts";
import { applyQuickFix, lens } from "../language.ts";
import { screenshot, type Theme, themes, useTheme } from "../looks.ts";

const jug = `craft "Jug"

use "base.fettle"
use "habits.fettle"

pack
  cells    6
  # rings early, over the clay pit
  warn-at  3.5 V/cell

modes
  # as on all her craft
  lights  when ch6 above 1500 us
`;
const files = {
  "jug.fettle": jug,
  "base.fettle": 'layer "Base"\n\npack\n  # as it came\n  warn-at  3.7 V/cell\n',
  "habits.fettle": 'layer "Habits"\n\npack\n  warn-at  3.6 V/cell\n  land-at  3.3 V/cell\n',
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files,
    open: ["jug.fettle"],
    settings: { "files.autoSave": "off", "editor.inlayHints.enabled": "off" },
  });
  await lens(editor.page, "Goggles").waitFor();
});
afterAll(() => editor?.close());

const row = (name: RegExp) => editor.page.locator(".quick-input-list").getByRole("option", { name });
const front = (name: string) => editor.page.locator(".tab.active", { hasText: name });

test("the chain of a value goes along in the editor, and back where it is dismissed", async () => {
  const { page } = editor;
  await goTo(page, 9, 5);
  await askBy(page, "Fettle: Where Does It Come From?", row(/warn-at 3\.7 V\/cell, Base/));
  await row(/warn-at 3\.6 V\/cell, Habits/).waitFor();
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: "3.5 V/cell" }).waitFor();
  await page.keyboard.press("ArrowUp");
  await front("habits.fettle").waitFor();
  await page.keyboard.press("ArrowUp");
  await front("base.fettle").waitFor();
  await screenshot(page, "origin-chain-light");
  await page.keyboard.press("Escape");
  await quickInput(page).waitFor({ state: "hidden" });
  await front("jug.fettle").waitFor();
});

test("a value of a layer is said on one craft with the value selected, as one step to undo", async () => {
  const { page } = editor;
  await openFile(page, "habits.fettle", 5, 5);
  await askBy(page, "Fettle: Where Does It Come From?", row(/Override here, on Jug/));
  await row(/Override here, on Jug/).click();
  await front("jug.fettle").waitFor();
  await waitForLine(page, /land-at\s+3\.3\sV\/cell/);
  await type(page, "3.4 V/cell");
  await waitForLine(page, /land-at\s+3\.4\sV\/cell/);
  await expect
    .poll(async () => {
      await undo(page);
      return visibleLines(page);
    })
    .toEqual(jug.split("\n"));
});

test("lines are taken out into a layer that is named, and written out again", async () => {
  const { page } = editor;
  await openFile(page, "jug.fettle", 8, 1);
  for (let i = 0; i < 5; i++) await page.keyboard.press("Shift+ArrowDown");
  await askBy(page, "Fettle: Extract a Layer…", quickInput(page).and(page.locator(":focus")));
  await type(page, "Long way home");
  await page.keyboard.press("Enter");
  await waitForLine(page, 'use "long-way-home.fettle"');
  await page.locator(".notifications-toasts", { hasText: "The new layer is long-way-home.fettle" }).waitFor();
  await screenshot(page, "origin-extracted");
  expect((await visibleLines(page)).join("\n")).not.toContain("warn-at");
  await page.locator(".notifications-toasts").getByRole("button", { name: "Open the Layer" }).click();
  await front("long-way-home.fettle").waitFor();
  expect(await visibleLines(page)).toEqual([
    'layer "Long way home"',
    "",
    "pack",
    "  # rings early, over the clay pit",
    "  warn-at  3.5 V/cell",
    "",
    "modes",
    "  # as on all her craft",
    "  lights  when ch6 above 1500 us",
    "",
  ]);
  await openFile(page, "jug.fettle");
  await applyQuickFix(page, 5, 3, "Inline the layer “Long way home”");
  await waitForLine(page, /warn-at\s+3\.5\sV\/cell/);
  expect(await visibleLines(page)).toEqual(jug.split("\n"));
});

test("a line goes into a layer of the craft, with what it does to others said before", async () => {
  const { page } = editor;
  await goTo(page, 9, 5);
  await askBy(page, "Fettle: Move to a Layer…", row(/Habits.*no other craft here uses it/s));
  await row(/Base/).waitFor();
  await screenshot(page, "origin-layers-light");
  await row(/Habits/)
    .first()
    .click();
  await expect.poll(async () => (await visibleLines(page)).join("\n")).not.toContain("warn-at");
  await page.locator('.tab.dirty[data-resource-name="habits.fettle"]').waitFor();
});

test("the chain is read well in every theme", async () => {
  const { page } = editor;
  for (const theme of Object.keys(themes).filter((each) => each !== "light") as Theme[]) {
    await useTheme(page, theme);
    await openFile(page, "base.fettle", 5, 5);
    await askBy(page, "Fettle: Where Does It Come From?", row(/warn-at 3\.7 V\/cell, Base/));
    await screenshot(page, `origin-chain-${theme}`);
    await page.keyboard.press("Escape");
    await quickInput(page).waitFor({ state: "hidden" });
  }
});
