/** Values in the real editor: their parts while they are typed, colours shown and picked, readings that set a scale. */
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  type Editor,
  goTo,
  openFile,
  pressFor,
  startEditor,
  type,
  undo,
  visibleLines,
  waitForLine,
} from "../editor.ts";
import { applyQuickFix, hover, hoverKeys, lens, quickFixes } from "../language.ts";
import { screenshot, type Theme, themes, useTheme } from "../looks.ts";

const jug = `craft "Jug"

rates
  roll

lights
  colour  orange

pack
  divider-top     10 kohm # as printed
  divider-bottom  1 kohm
  shunt           4 mohm
  shunt-gain      20

bench
  pack-volts-read   16.4 V
  pack-volts-shown  16.2 V
  charge-put-back   1000 mAh
  charge-counted    1250 mAh
`;
/** What is offered for any line of a craft. */
const MOVE = "Extract a new layer…";
const lineOf = (words: string) => jug.split("\n").findIndex((line) => line.includes(words)) + 1;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files: { "jug.fettle": jug }, open: ["jug.fettle"] });
  // Keys that are pressed before the server answers are asked of nobody.
  await lens(editor.page, "Goggles").waitFor();
});
afterAll(() => editor?.close());

const parts = () => editor.page.locator(".parameter-hints-widget.visible");
const part = () => parts().locator(".signature .parameter.active");
const swatch = () => editor.page.locator(".colorpicker-color-decoration");
const picker = () => editor.page.locator(".colorpicker-widget");
const paintOf = () => swatch().evaluate((box) => getComputedStyle(box).backgroundColor);
/** What is offered on a line; nothing where the editor says that there is nothing. */
async function offered(words: string): Promise<string[]> {
  const { page } = editor;
  await goTo(page, lineOf(words), 5);
  const none = page.locator(".monaco-editor-overlaymessage", { hasText: "No code actions available" });
  const rows = page.locator(".action-widget .monaco-list-row.action");
  await pressFor(page, ["Control+."], none.or(rows));
  const titles = await rows.allInnerTexts();
  await page.keyboard.press("Escape");
  return titles;
}
const written = async (line: string) => (await visibleLines(editor.page))[lineOf(line) - 1];

test("while a value of several parts is typed, the part at the cursor is shown and explained", async () => {
  const { page } = editor;
  await goTo(page, lineOf("roll"), "  roll".length + 1);
  await type(page, " ");
  await expect.poll(() => part().textContent()).toBe("slope NUMBER deg/s");
  expect(await parts().locator(".signature").textContent()).toBe(
    "roll slope NUMBER deg/s  end NUMBER deg/s  [bend NUMBER]",
  );
  // As a list of words is open as well: it is put away as a person would.
  await page.keyboard.press("Escape");
  await type(page, "slope 100 deg/s ");
  await expect.poll(() => part().textContent()).toBe("end NUMBER deg/s");
  await type(page, "end 700 deg/s ");
  await expect.poll(() => part().textContent()).toBe("[bend NUMBER]");
  await expect.poll(() => parts().locator(".docs, .documentation").allInnerTexts()).not.toEqual([]);
});

test("in a value without parts nothing is shown", async () => {
  const { page } = editor;
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await goTo(page, lineOf("divider-bottom"), "  divider-bottom  1 ".length + 1);
  await page.keyboard.press("Control+Shift+Space");
  // The server answers in order: with the hover, which is asked for after them, no parts are still to come.
  await pressFor(page, hoverKeys, page.locator(".monaco-resizable-hover:visible", { hasText: "kilohm" }));
  expect(await parts().count()).toBe(0);
  await page.keyboard.press("Escape");
  // The same keys show them where a value has parts.
  await goTo(page, lineOf("roll"), "  roll ".length + 1);
  await pressFor(page, ["Control+Shift+Space"], parts());
  await page.keyboard.press("Escape");
});

test("a colour is shown before its name, and one that is picked is written as a hex where it has no name", async () => {
  const { page } = editor;
  await expect.poll(paintOf).toBe("rgb(255, 165, 0)");
  await swatch().click();
  const field = picker().locator(".saturation-box");
  await field.click();
  // Half as bright and half as pale as orange.
  await expect.poll(() => written("colour")).toMatch(/^ {2}colour +"#806940"$/);
  await page.keyboard.press("Escape");
  await picker().waitFor({ state: "hidden" });
});

test("a colour that is typed is shown at once, and no longer where it is none", async () => {
  const { page } = editor;
  await goTo(page, lineOf("colour"), "  colour  ".length + 1);
  await page.keyboard.press("Shift+End");
  await type(page, "teal");
  await expect.poll(paintOf).toBe("rgb(0, 128, 128)");
  await type(page, "x");
  await expect.poll(() => swatch().count()).toBe(0);
  await page.keyboard.press("Backspace");
  await expect.poll(() => swatch().count()).toBe(1);
  await page.keyboard.press("Escape");
});

test("the head of the picker turns a name into its hex, and back", async () => {
  const { page } = editor;
  await swatch().click();
  const head = picker().locator(".picked-color");
  await expect.poll(() => head.textContent()).toContain("teal");
  await screenshot(page, "values-colour-picker");
  for (const way of ['"#008080"', "teal"]) {
    await head.click();
    await expect.poll(() => written("colour")).toMatch(new RegExp(`^ {2}colour +${way}$`));
  }
  await page.keyboard.press("Escape");
  await picker().waitFor({ state: "hidden" });
});

test.each(Object.keys(themes) as Theme[])("parts, colours and hints are seen in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await openFile(page, "jug.fettle", lineOf("roll"), 99);
  await pressFor(page, ["Control+Shift+Space"], part());
  await waitForLine(page, /1\.2\s%\stoo\slow/);
  await screenshot(page, `values-parts-${theme}`);
  await page.keyboard.press("Escape");
  await quickFixes(page, lineOf("pack-volts-shown"), 5);
  await screenshot(page, `values-readings-${theme}`);
  await page.keyboard.press("Escape");
});

test("a meter beside the volts shown sets the divider, once: its readings become comments", async () => {
  const { page } = editor;
  const title = /^Set divider-top 10\.14 kohm instead of 10 kohm: 16\.2 V shown becomes 16\.4 V;/;
  expect(await hover(page, lineOf("pack-volts-shown"), 5)).toContain("1.2 % too low: a divider-top of 10.14 kohm");
  await applyQuickFix(page, lineOf("pack-volts-read"), 5, title);
  await waitForLine(page, /^\s\sdivider-top\s+10\.14\skohm/);
  await waitForLine(page, "  # pack-volts-read   16.4 V");
  await waitForLine(page, "  # pack-volts-shown  16.2 V");
  expect(await written("divider-top")).toContain("# as printed");
  expect(await written("charge-counted")).toMatch(/^ {2}charge-counted +1250 mAh/);
  expect(await offered("pack-volts-shown")).toEqual([]);
  // One step, so that one undo gives all three lines back.
  await undo(page);
  await waitForLine(page, /^\s\sdivider-top\s+10\skohm/);
  await waitForLine(page, /^\s\spack-volts-read\s+16\.4\sV/);
  await waitForLine(page, /^\s\spack-volts-shown\s+16\.2\sV/);
});

test("the charge put back beside the charge counted sets the shunt", async () => {
  const { page } = editor;
  await applyQuickFix(
    page,
    lineOf("charge-counted"),
    5,
    /^Set shunt 5 mohm instead of 4 mohm: 1250 mAh counted becomes 1000 mAh;/,
  );
  await waitForLine(page, /^\s\sshunt\s+5\smohm/);
  await waitForLine(page, "  # charge-put-back   1000 mAh");
  await waitForLine(page, "  # charge-counted    1250 mAh");
  expect(await offered("charge-put-back")).toEqual([]);
});

test("readings taken again that agree say that nothing is left to correct", async () => {
  const { page } = editor;
  await goTo(page, lineOf("charge-put-back"));
  for (const figures of ["charge-put-back   980 mAh", "charge-counted    980 mAh"]) {
    await page.keyboard.press("Home");
    await page.keyboard.press("Shift+End");
    await type(page, figures);
    await page.keyboard.press("Escape");
    await page.keyboard.press("ArrowDown");
  }
  await waitForLine(page, /^\s\scharge-counted\s+980\smAh[\s→]*right:\snothing\sto\scorrect/);
  expect(await offered("charge-counted")).toEqual([MOVE]);
  await screenshot(page, "values-readings-agree");
});
