/** A pilot's own catalogue and aliases in the real editor: reported, completed, and in effect at once. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { glow } from "../../ide/own-words/glow.ts";
import { type Editor, goTo, pressFor, startEditor, type } from "../editor.ts";
import { completions, hover, hoverKeys, quickFixes, waitForNoProblem, waitForProblem } from "../language.ts";
import { webview } from "../looks.ts";

const jug = 'craft "Jug"\n\nlights\n  glow-delay  31 s\n\nmodes\n  squealer  when ch9 above 1500 us\n  \n';
const lamp = { catalogue: "The lamp", settings: [{ ...glow, kind: "teste" }] };
const files = {
  "jug.fettle": jug,
  "words/lamp.catalogue.json": `${JSON.stringify(lamp, null, 2)}\n`,
  "words/mine.aliases.json": `${JSON.stringify({ aliases: { squealer: "finder", "stay flat": "level", wobble: "levle" } }, null, 2)}\n`,
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files, open: ["jug.fettle", "words/lamp.catalogue.json"] });
});
afterAll(() => editor?.close());

const tab = (name: string) => editor.page.locator(".tab", { hasText: name });

test("errors are reported at their places, in open files or not, and a setting with an error is unknown", async () => {
  await waitForProblem(editor.page, /aliases\.wobble: Nothing is called “levle”/);
  await waitForProblem(editor.page, /settings\[0\]\.kind: This should be/);
  await waitForProblem(editor.page, /has no setting “glow-delay”/);
});

test("once it is corrected in the editor, unsaved, its setting is checked as any other", async () => {
  const line = files["words/lamp.catalogue.json"].split("\n").findIndex((text) => text.includes('"teste"')) + 1;
  await tab("lamp.catalogue.json").click();
  await goTo(editor.page, line);
  await editor.page.keyboard.press("End");
  for (let i = 0; i < '"teste",'.length; i++) await editor.page.keyboard.press("Backspace");
  await type(editor.page, '"taste",');
  await waitForNoProblem(editor.page, /settings\[0\]\.kind: This should be/);
  await tab("jug.fettle").click();
  await waitForProblem(editor.page, /Out of range/);
  const said = await hover(editor.page, 4, 5);
  expect(said).toContain("How long the lamp under the belly waits");
  expect(said).toContain("Explain lights.glow-delay");
});

test("a word of one's own offers the name that it means, in completion and as a repair", async () => {
  expect(await quickFixes(editor.page, 7, 4)).toContain("Write finder");
  await editor.page.keyboard.press("Escape");
  await goTo(editor.page, 8, 3);
  await type(editor.page, "stay");
  expect(await completions(editor.page)).toContain("level");
});

test("the link in a hover opens the page of its name beside the script", async () => {
  const { page } = editor;
  await goTo(page, 4, 5);
  const link = page.locator(".monaco-resizable-hover:visible a", { hasText: "Explain lights.glow-delay" });
  await pressFor(page, hoverKeys, link);
  await link.click();
  await page.locator(".tab", { hasText: "Explain: lights.glow-delay" }).waitFor();
  await webview(page).getByRole("heading", { name: "lights.glow-delay" }).waitFor();
});
