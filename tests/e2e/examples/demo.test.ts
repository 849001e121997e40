/** The demo workspace in the editor, in every theme: both drawings, and the accessibility rules. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, openFile, startEditor } from "../editor.ts";
import { waitForProblem } from "../language.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    // The panel shows itself for the first script of a window.
    ownWindow: true,
    folder: inProject("examples"),
    open: ["craft/tankard.fettle"],
    settings: { "fettle.panel.reveal": true },
  });
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const tab = (name: string) => panel().getByRole("tab", { name });

test("the panel shows itself where the setting asks for it, and the cursor stays in the script", async () => {
  await panel().getByRole("heading", { name: "Tankard" }).waitFor();
  await panel().locator("[data-element]").first().waitFor();
  await editor.page.locator(".monaco-editor.focused").first().waitFor();
});

test("a craft full of mistakes has them listed", async () => {
  const { page } = editor;
  await openFile(page, "craft/wobbly-jug.fettle");
  await waitForProblem(page, /unknown-name|fettle/);
  await openFile(page, "craft/tankard.fettle");
  await page.keyboard.press("Control+j");
});

test("pressing an element that a layer placed leads to the layer, and the craft stays drawn", async () => {
  const { page } = editor;
  await tab("Goggles").click();
  await panel().locator('[data-element="link-quality"]').click();
  await page.locator(".tab.active", { hasText: "osd-wide.fettle" }).waitFor();
  await panel().locator('[data-element="link-quality"].marked').waitFor();
  await panel().getByRole("combobox", { name: "Drawn as in" }).waitFor();
  expect(await panel().getByRole("heading", { level: 1 }).textContent()).toBe("Tankard");
  await openFile(page, "craft/tankard.fettle");
});

test("nothing is refused by the panel's policy", () => {
  expect(editor.errors.filter((error) => /Content Security Policy/.test(error) && /panel/.test(error))).toEqual([]);
});

test.each(Object.keys(themes) as Theme[])("the %s theme suits both views", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  // The panel receives the theme after the workbench has it.
  await panel().locator(`body.vscode-${theme}`).waitFor();
  for (const name of ["Goggles", "Switches"]) {
    await tab(name).click();
    await panel()
      .locator(name === "Goggles" ? "[data-element]" : "[data-control]")
      .first()
      .waitFor();
    await screenshot(page, `demo-${theme}-${name.toLowerCase()}`);
    expect(await violations(page)).toEqual([]);
  }
});
