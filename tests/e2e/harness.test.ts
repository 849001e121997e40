/** The harness by itself: the editor starts, opens text, is driven, read and changes its looks. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { pictureStyle } from "../../.dev/picture-style.mjs";
import { inProject } from "../../.dev/say.mjs";
import { cursor, type Editor, goTo, openFile, runCommand, startEditor, type, undo, waitForLine } from "./editor.ts";
import { complete, completions, hover, problems, waitForNoProblem, waitForProblem } from "./language.ts";
import { screenshot, type Theme, themes, useTheme } from "./looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ folder: inProject("tests/fixtures/plain-folder"), open: ["notes/kiln.txt"] });
});
afterAll(() => editor?.close());

test("a file opens at a place, takes text and gives it back on undo", async () => {
  const { page } = editor;
  await openFile(page, "notes/kiln.txt", 2, 5);
  await expect.poll(() => cursor(page)).toEqual({ line: 2, column: 5 });
  await goTo(page, 3);
  await type(page, "Loaded:");
  await waitForLine(page, "Loaded:The shelf by the door is dry.");
  await undo(page);
  await waitForLine(page, /^The\sshelf/);
});

test("a completion is offered and taken", async () => {
  const { page } = editor;
  await openFile(page, "notes/kiln.txt", 3, 30);
  await type(page, " Tu");
  expect(await completions(page)).toContain("Tuesday");
  await complete(page, "Tuesday");
  await waitForLine(page, "dry. Tuesday");
});

test("a problem is listed and disappears when it is corrected", async () => {
  const { page } = editor;
  await openFile(page, "notes/shelf.json", 1, 32);
  await waitForProblem(page, "Duplicate object key");
  expect((await problems(page)).filter((row) => row.includes("Duplicate object key"))).toHaveLength(2);
  await goTo(page, 1, 26);
  await type(page, "other-");
  await waitForNoProblem(page, "Duplicate object key");
});

test("the hover of a place is read", async () => {
  const { page } = editor;
  await openFile(page, ".vscode/settings.json", 2, 6);
  expect(await hover(page, 2, 6)).toContain("The number of spaces a tab is equal to");
});

test("pictures show nothing in the status bar but what is true of the open file", async () => {
  const { page } = editor;
  await openFile(page, "notes/kiln.txt", 2, 5);
  const shown = () =>
    page
      .locator(".part.statusbar .statusbar-item:visible")
      .evaluateAll((items) => items.map(({ id }) => id).filter((id) => !id.startsWith("status.editor.")));
  expect(await shown()).toContain("status.host");
  const style = await page.addStyleTag({ content: pictureStyle });
  expect(await shown()).toEqual(["status.problems"]);
  await style.evaluate((element) => (element as unknown as { remove(): void }).remove());
});

test.each(Object.keys(themes) as Theme[])("the %s theme is worn", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await runCommand(page, "View: Show Explorer");
  await screenshot(page, `harness-${theme}`);
});
