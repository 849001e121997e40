/** Canonical layout in the real editor: a document, the line that is left, what is completed, sections in their order. */
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  cursor,
  type Editor,
  goTo,
  runCommand,
  startEditor,
  type,
  undo,
  visibleLines,
  waitForLine,
} from "../editor.ts";
import { complete } from "../language.ts";

const untidy = `craft "Jug"
modes
    arm when TL is down
# as printed on it
pack
\tcells 6   # six
\tcapacity 1100mAh
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files: { "jug.fettle": untidy },
    open: ["jug.fettle"],
    settings: {
      "files.autoSave": "off",
      "editor.inlayHints.enabled": "off",
      "editor.formatOnType": true,
      // What is typed at once would be taken by a list that opens late.
      "editor.acceptSuggestionOnEnter": "off",
      "editor.suggestOnTriggerCharacters": false,
      "fettle.lenses": false,
    },
  });
  await waitForLine(editor.page, "capacity 1100mAh");
});
afterAll(() => editor?.close());

test("a document is laid out as one step, with the cursor in its place; then sections are put in order", async () => {
  const { page } = editor;
  // In front of the number, as the editor counts columns of tabs.
  await goTo(page, 7, 12);
  await runCommand(page, "Format Document");
  await waitForLine(page, "  capacity  1100 mAh");
  const laid = ['craft "Jug"', "", "modes", "  arm  when TL is down", "", "# as printed on it", "pack"];
  const pack = ["  cells     6  # six", "  capacity  1100 mAh", ""];
  expect(await visibleLines(page)).toEqual([...laid, ...pack]);
  expect(await cursor(page)).toEqual({ line: 9, column: 13 });
  await undo(page);
  await waitForLine(page, "capacity 1100mAh");
  await page.keyboard.press("Control+y");
  await waitForLine(page, "  capacity  1100 mAh");

  const action = page.locator(".action-widget .monaco-list-row.action", { hasText: "Put the sections in the order" });
  await runCommand(page, "Source Action...");
  await action.waitFor();
  await page.keyboard.press("Enter");
  await waitForLine(page, "# as printed on it");
  await expect
    .poll(() => visibleLines(page))
    .toEqual(['craft "Jug"', "", "# as printed on it", "pack", ...pack, "modes", "  arm  when TL is down", ""]);
});

test("what is completed stands in its column, and so does a line that is left", async () => {
  const { page } = editor;
  await goTo(page, 6, 99);
  await type(page, "\nfull");
  await complete(page, "full-at");
  await waitForLine(page, "  full-at   ");
  await type(page, "4.2");
  await page.keyboard.press("End");
  await type(page, "\ndischarge-rating 95C\n");
  await waitForLine(page, "  discharge-rating  95 C");
  const lines = await visibleLines(page);
  expect(lines.slice(4, 8)).toEqual([
    "  cells             6  # six",
    "  capacity          1100 mAh",
    "  full-at           4.2 V/cell",
    "  discharge-rating  95 C",
  ]);
  expect((await cursor(page))?.line).toBe(9);
});
