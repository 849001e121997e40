/** The words above each mode of a craft, in the real editor. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { type Editor, openFile, startEditor, type, waitForLine } from "./editor.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ folder: inProject("tests/fixtures/shed"), open: ["craft/mug.fettle"] });
});
afterAll(() => editor?.close());

const lenses = () => editor.page.locator(".codelens-decoration");

test("above a mode stands where it is on, as words that cannot be clicked", async () => {
  const lens = lenses().filter({ hasText: /on in \d+ of \d+ states?; at rest: off/ });
  await lens.first().waitFor();
  expect(await lenses().locator("a").count()).toBe(0);
});

test("it follows what is typed", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle", 7, 3);
  await page.keyboard.press("Shift+End");
  await type(page, "level  when always");
  await waitForLine(page, "level  when always");
  await lenses()
    .filter({ hasText: /at rest: on/ })
    .first()
    .waitFor();
});
