/** Names in the real editor: another one for a switch in a layer, both craft follow, and one step takes it back. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Editor, openFile, pressFor, startEditor, undo, visibleLines, waitForLine } from "../editor.ts";
import { screenshot } from "../looks.ts";

const craft = (name: string, own: string) => `craft "${name}"

use "wheel.fettle"
use "habits.fettle"

modes
  ${own}
`;
const files = {
  "wheel.fettle": `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
`,
  "habits.fettle": `layer "Habits"

modes
  arm  when TL is down  # TL is the left one
`,
  "jug.fettle": craft("Jug", "recorder  when TL is down"),
  "saucer.fettle": craft("Saucer", "finder  when TL is up"),
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files, open: [...Object.keys(files), "habits.fettle"] });
  await editor.page.locator(".codelens-decoration").first().waitFor();
});
afterAll(() => editor?.close());

const box = () => editor.page.locator(".rename-box input");
const said = () => editor.page.locator(".monaco-editor-overlaymessage");
const lineWith = async (words: string) => (await visibleLines(editor.page)).find((line) => line.includes(words));

test("a switch that a layer names has another name in both craft and the handset, and back in one step", async () => {
  const { page } = editor;
  await openFile(page, "habits.fettle", 4, 13);
  await pressFor(page, ["F2"], box());
  expect(await box().inputValue()).toBe("TL");
  await box().fill("LA");
  await screenshot(page, "rename-switch");
  await box().press("Enter");
  // Beside the position stands its pulse.
  await waitForLine(page, "arm  when LA is");
  expect(await lineWith("arm")).toContain("# TL is the left one");
  for (const [file, words] of [
    ["saucer.fettle", "finder  when LA is"],
    ["wheel.fettle", "LA  switch"],
    ["jug.fettle", "recorder  when LA is"],
  ] as const) {
    await openFile(page, file);
    await waitForLine(page, words);
  }
  await undo(page);
  await waitForLine(page, "recorder  when TL is");
  await openFile(page, "wheel.fettle");
  await waitForLine(page, "TL  switch");
  expect(await lineWith("LA")).toBeUndefined();
});

test("what keeps its name says why, before another one is asked for", async () => {
  const { page } = editor;
  await openFile(page, "habits.fettle", 4, 4);
  await pressFor(page, ["F2"], said());
  expect(await said().textContent()).toContain("“arm” is a mode that the language knows");
  await screenshot(page, "rename-refused");
});

test("another path in a use line renames the file, and every line that names it leads there", async () => {
  const { page } = editor;
  await openFile(page, "jug.fettle", 4, 8);
  await pressFor(page, ["F2"], box());
  expect(await box().inputValue()).toBe("habits.fettle");
  await box().fill("shed-habits.fettle");
  await box().press("Enter");
  await waitForLine(page, 'use "shed-habits.fettle"');
  await openFile(page, "saucer.fettle");
  await waitForLine(page, 'use "shed-habits.fettle"');
  await page.locator(".tab", { hasText: "shed-habits.fettle" }).click();
  await waitForLine(page, 'layer "Habits"');
  // The lines lead there already: nothing is asked about them.
  expect(await page.locator(".monaco-dialog-box").count()).toBe(0);
});
