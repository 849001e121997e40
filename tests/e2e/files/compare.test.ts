/** “Compare with…” in the real editor: with the last commit, live, to both lines and to the editor's own comparison. */
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  askBy,
  type Editor,
  goTo,
  narrowListOf,
  openInFirstGroup,
  quickInput,
  reloadWindow,
  runCommand,
  startEditor,
  type,
} from "../editor.ts";
import { lens } from "../language.ts";
import { screenshot, violations, webview } from "../looks.ts";

const wheel = `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;
const habits = (arm: string) => `layer "Habits"\n\nmodes\n  arm  when ${arm}\n`;
const jug = (cells: number, warn: string) => `craft "Jug"

use "../handsets/wheel.fettle"
use "../layers/habits.fettle"

pack
  chemistry  lipo
  cells      ${cells}
  warn-at    ${warn} V/cell
`;
const commit = "1".repeat(40);
const files = {
  "handsets/wheel.fettle": wheel,
  "layers/habits.fettle": habits("TL is down"),
  "craft/jug.fettle": jug(6, "3.5"),
  ".committed/log.json": JSON.stringify([{ hash: commit, message: "As flown on Sunday" }]),
  [`.committed/${commit}/handsets/wheel.fettle`]: wheel,
  [`.committed/${commit}/layers/habits.fettle`]: habits("TR is down"),
  [`.committed/${commit}/craft/jug.fettle`]: jug(4, "3.5"),
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files, open: ["craft/jug.fettle"] });
  await lens(editor.page, "Goggles").waitFor();
});
afterAll(() => editor?.close());

const report = () => webview(editor.page, "tab");
const row = (what: string) => report().getByRole("listitem").filter({ hasText: what });

test("what the craft has otherwise than the last commit, with the layers as they were committed", async () => {
  const { page } = editor;
  const options = page.locator(".quick-input-list .monaco-list-row");
  await askBy(page, "Fettle: Compare with…", options.filter({ hasText: "The Last Commit (HEAD)" }));
  expect(await options.filter({ hasText: "As flown on Sunday" }).count()).toBe(2);
  await screenshot(page, "compare-with");
  await quickInput(page).fill("last commit");
  await page.keyboard.press("Enter");
  await row("modes.arm").waitFor();
  await page.locator(".tab", { hasText: "Jug | Jug at HEAD" }).waitFor();
  expect(await row("modes.arm").textContent()).toContain("arm moves from TL down to TR down");
  expect(await row("pack.cells").textContent()).toContain("cells goes down from 6 to 4");
  await screenshot(page, "compare-report");
});

test("texts stand beside each other, that of the commit read-only", async () => {
  const { page } = editor;
  await report().getByRole("button", { name: "Text beside text" }).click();
  await page.locator(".tab.active", { hasText: "jug (HEAD).fettle ↔ jug.fettle" }).waitFor();
  // Where there is little room both stand in one column: the line as it was committed, and as it is.
  await page
    .locator(".monaco-diff-editor .view-line", { hasText: /cells\s+6/ })
    .first()
    .waitFor();
  await page
    .locator(".monaco-diff-editor .view-line, .monaco-diff-editor .view-lines", { hasText: /cells\s+4/ })
    .first()
    .waitFor();
  await screenshot(page, "compare-native");
});

test("the report follows what is typed in a file of the craft", async () => {
  const { page } = editor;
  await openInFirstGroup(page, "craft/jug.fettle");
  await goTo(page, 8, 14);
  await page.keyboard.press("Shift+End");
  await type(page, "4");
  await expect.poll(() => row("pack.cells").count()).toBe(0);
  await row("modes.arm").waitFor();
});

test("a revision that there is not is said, and a typed one is read", async () => {
  const { page } = editor;
  await openInFirstGroup(page, "craft/jug.fettle");
  for (const [revision, expected] of [
    ["1111", "Jug | Jug at 1111"],
    ["v9", "There is no jug.fettle at v9"],
  ] as const) {
    await narrowListOf(page, "Fettle: Compare with…", "type a revision");
    await page.keyboard.press("Enter");
    await page.locator(".quick-input-message", { hasText: "as git names it" }).waitFor();
    await quickInput(page).fill(revision);
    await page.keyboard.press("Enter");
    if (expected.startsWith("Jug")) {
      await page.locator(".tab.active", { hasText: expected }).waitFor();
      await row("modes.arm").waitFor();
    } else await report().getByText(expected).waitFor();
  }
});

test("a layer is compared by itself, with the handset of a craft that uses it", async () => {
  const { page } = editor;
  await openInFirstGroup(page, "layers/habits.fettle");
  await runCommand(page, "Fettle: Compare with the Last Commit");
  await page.locator(".tab", { hasText: "Habits | Habits at HEAD" }).waitFor();
  await row("modes.arm").waitFor();
});

test("a difference is taken from there, taken back, and kept as here, which outlives a reload of the window", async () => {
  const { page } = editor;
  await openInFirstGroup(page, "craft/jug.fettle");
  await runCommand(page, "Fettle: Compare with the Last Commit");
  await page.locator(".tab.active", { hasText: "Jug | Jug at HEAD" }).waitFor();
  const taken = page.locator(".view-line", { hasText: /arm\s+when\sTR\sis\sdown/ });
  expect(await taken.count()).toBe(0);
  await report().getByRole("button", { name: "Take theirs: modes.arm" }).click();
  await report().getByText("Taken from there: modes.arm.").waitFor();
  await taken.waitFor();
  await expect.poll(() => row("modes.arm").count()).toBe(0);
  await screenshot(page, "compare-taken");
  await report().getByRole("button", { name: "Undo" }).click();
  await row("modes.arm").waitFor();
  await taken.waitFor({ state: "detached" });
  await report().getByRole("button", { name: "Keep mine: modes.arm" }).press("Enter");
  await report().getByText("Nothing is left to decide. One more is kept as here.").waitFor();
  expect(await violations(page, "tab")).toEqual([]);
  await reloadWindow(page);
  await page.locator(".tab", { hasText: "Jug | Jug at HEAD" }).waitFor();
  // What was typed and not saved is as on the disk again; what was decided is not.
  await report().getByText("One more is kept as here.").waitFor();
});
