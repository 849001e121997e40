/** Craft that fly together, in the real editor: named by a setting, told on each of them, and moved by the light bulb. */
import { afterAll, beforeAll, test } from "vitest";
import { type Editor, startEditor, waitForLine } from "../editor.ts";
import { applyQuickFix, waitForNoProblem, waitForProblem } from "../language.ts";
import { screenshot } from "../looks.ts";

const craft = (name: string) =>
  `craft "${name}"\n\nvideo\n  signal     analogue\n  frequency  5806 MHz\n  region     europe\n`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files: { "craft/jug.fettle": craft("Jug"), "craft/saucer.fettle": craft("Saucer") },
    open: ["craft/saucer.fettle"],
    settings: { "fettle.together": ["craft/jug.fettle", "Saucer"] },
  });
});
afterAll(() => editor?.close());

test("whose picture disturbs whose is told on both, and one move ends it on both", async () => {
  const { page } = editor;
  // Of the one that is not open as well.
  await waitForProblem(page, "“Saucer” sends on 5806 MHz as well");
  await waitForProblem(page, "“Jug” sends on 5806 MHz as well");
  await screenshot(page, "together");
  await applyQuickFix(page, 5, 16, "Move to 5769 MHz");
  await waitForLine(page, "5769 MHz");
  await waitForNoProblem(page, "sends on 5806 MHz as well");
});
