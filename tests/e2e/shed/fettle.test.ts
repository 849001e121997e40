/** The extension in the real editor: what a person sees, does, and sees follow. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import {
  askBy,
  type Editor,
  openFile,
  openInFirstGroup,
  pressFor,
  reloadWindow,
  runCommand,
  startEditor,
  type,
  undo,
  waitForLine,
} from "../editor.ts";
import { complete, completions, hover, hoverKeys, waitForNoProblem, waitForProblem } from "../language.ts";
import { screenshot, showPanel, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("tests/fixtures/shed"),
    open: ["craft/mug.fettle"],
    views: ["fettle.panel"],
  });
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const tab = (name: string) => panel().getByRole("tab", { name });
const drawn = (name: string) => panel().locator(`[data-element="${name}"]`);

test("a finding is listed, with its word, and disappears when the word is corrected", async () => {
  const { page } = editor;
  await waitForProblem(page, "levle");
  await openFile(page, "craft/mug.fettle", 7, 3);
  await page.keyboard.press("Shift+End");
  await type(page, "level  when TR is mid");
  await waitForNoProblem(page, "levle");
  await openFile(page, "craft/mug.fettle");
});

test("a mode is explained in a hover", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle");
  expect(await hover(page, 6, 4)).toContain("motors");
});

test("an element is offered and taken", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle", 13, 60);
  await type(page, "\nlink-q");
  expect(await completions(page)).toContain("link-quality");
  await complete(page, "link-quality");
  await waitForLine(page, "link-quality");
  await page.keyboard.press("Escape");
  await undo(page);
  await undo(page);
});

test("the goggles show every element, and hatch what collides or leaves the grid", async () => {
  await openFile(editor.page, "craft/mug.fettle");
  await tab("Goggles").click();
  await drawn("pack-volts").waitFor();
  await expect.poll(() => panel().locator("[data-element]").count()).toBe(3);
  expect(await drawn("craft").locator(".hatched").count()).toBeGreaterThan(0);
  expect(await drawn("flight-time").getAttribute("aria-label")).toMatch(/flight-time .*at 4, 14 .*shared/);
});

test("the drawing follows what is typed", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle", 12, 1);
  await page.keyboard.press("Shift+End");
  await type(page, "  flight-time   at 20, 3");
  await expect.poll(() => drawn("flight-time").getAttribute("aria-label")).toContain("column 20, row 3");
  expect(await drawn("flight-time").locator(".hatched").count()).toBe(0);
});

test("the cursor's line marks the element, and pressing an element selects its line", async () => {
  const { page } = editor;
  await openFile(page, "craft/mug.fettle", 11, 5);
  await panel().locator('[data-element="pack-volts"].marked').waitFor();
  await drawn("craft").click();
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 13.*selected/ }).waitFor();
  await tab("Goggles").click();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 11.*selected/ }).waitFor();
});

test("moving a switch says what the craft does then, by mouse and by keys", async () => {
  const { page } = editor;
  await openFile(page, "craft/tankard.fettle");
  await tab("Switches").click();
  const status = panel().getByRole("status");
  await expect.poll(() => status.textContent()).toContain("Not armed.");
  const positions = (control: string) =>
    panel()
      .getByRole("radiogroup", { name: `${control},` })
      .getByRole("radio");
  await positions("TL").nth(1).click();
  await expect.poll(() => status.textContent()).toContain("Armed.");
  await tab("Switches").click();
  // The two buttons, a folded finding where there is one, the name of TL, its positions, the name of TR, its positions.
  const isReached = () =>
    positions("TR")
      .nth(0)
      .evaluate((radio) => radio === document.activeElement);
  for (let stop = 0; stop < 10 && !(await isReached()); stop++) await page.keyboard.press("Tab");
  expect(await isReached()).toBe(true);
  await page.keyboard.press("ArrowDown");
  await expect.poll(() => status.textContent()).toContain("Level and recorder on.");
  await expect.poll(() => positions("TR").nth(1).getAttribute("aria-checked")).toBe("true");
  await page.keyboard.press("ArrowDown");
  await expect.poll(() => status.textContent()).toContain("Turtle");
  await page.keyboard.press("Home");
  await expect.poll(() => status.textContent()).toContain("Not armed.");
});

test("a control's name leads to its line in the handset", async () => {
  const { page } = editor;
  await openFile(page, "craft/tankard.fettle");
  await tab("Switches").click();
  await panel().getByRole("button", { name: /^TR,/ }).click();
  await page.locator(".tab.active", { hasText: "wheel.fettle" }).waitFor();
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 9/ }).waitFor();
});

test("the panel comes back as it was left", async () => {
  const { page } = editor;
  await openFile(page, "craft/tankard.fettle");
  await tab("Switches").click();
  const armed = panel().getByRole("radiogroup", { name: "TL," }).getByRole("radio").nth(1);
  await armed.click();
  await expect.poll(() => armed.getAttribute("aria-checked")).toBe("true");
  await runCommand(page, "View: Show Explorer");
  await page.locator(".explorer-viewlet").waitFor();
  await showPanel(page);
  await expect.poll(() => panel().getByRole("status").textContent()).toContain("Armed.");
  expect(await tab("Switches").getAttribute("aria-selected")).toBe("true");
  await panel().getByRole("button", { name: "Everything to rest" }).click();
});

test("no violations of the accessibility rules in either view", async () => {
  const { page } = editor;
  await openFile(page, "craft/tankard.fettle");
  for (const name of ["Goggles", "Switches"]) {
    await tab(name).click();
    expect(await violations(page)).toEqual([]);
  }
});

const explained = () => webview(editor.page, "tab");
const panelAside = () => webview(editor.page, "side");
const heading = () => explained().getByRole("heading", { level: 2 }).first();
const explainTabs = () => editor.page.locator(".tab", { hasText: "Explain:" });
/** In the group of the scripts: a page that was gone to has the keyboard in the other. */
const openScript = (path: string, line: number, column: number) => openInFirstGroup(editor.page, path, line, column);
const pageOf = async (name: string) => {
  await expect.poll(() => heading().textContent()).toBe(name);
  await expect.poll(() => explainTabs().allInnerTexts()).toEqual([`Explain: ${name}`]);
};

/** The name under the cursor stands first in the list. */
const nameInFront = () =>
  editor.page.locator(".quick-input-list .monaco-list-row.focused", { hasText: "pack.capacity" });

test("a name is picked from the list, the one under the cursor first, and its page leads on in one tab", async () => {
  const { page } = editor;
  await openScript("craft/tankard.fettle", 9, 4);
  await askBy(page, "Fettle: Explain a Name…", nameInFront());
  await page.keyboard.press("Enter");
  await pageOf("pack.capacity");
  await explained().getByRole("link", { name: "pack.warn-after" }).first().click();
  await pageOf("pack.warn-after");
  await page.keyboard.press("Alt+ArrowLeft");
  await pageOf("pack.capacity");
  await explained().getByRole("button", { name: "Forward" }).click();
  await pageOf("pack.warn-after");
  await page.keyboard.press("/");
  await type(page, "low batery warning");
  await explained()
    .getByRole("link", { name: /^pack\.warn-at / })
    .waitFor();
  await page.keyboard.press("Enter");
  await expect.poll(() => heading().textContent()).toMatch(/alerts|pack.warn-at/);
});

test("plain words that are typed into the list and entered at once find what they mean", async () => {
  const { page } = editor;
  await openScript("craft/tankard.fettle", 9, 4);
  await askBy(page, "Fettle: Explain a Name…", nameInFront());
  await type(page, "kill switch");
  await page.keyboard.press("Enter");
  await pageOf("arm");
});

test("a hover leads with the value of this craft and its line, and to the same page", async () => {
  const { page } = editor;
  await openScript("craft/tankard.fettle", 10, 4);
  const open = async (text: string) => {
    const link = page.locator(".monaco-resizable-hover:visible a", { hasText: text });
    await pressFor(page, hoverKeys, link);
    return link;
  };
  await open("tankard.fettle:10");
  expect(await page.locator(".monaco-resizable-hover:visible .hover-contents").first().textContent()).toMatch(
    /^3\.5 V\/cell on Tankard, tankard\.fettle:10/,
  );
  await (await open("Explain pack.warn-at")).click();
  await pageOf("pack.warn-at");
  await openScript("handsets/wheel.fettle", 1, 1);
  await openScript("craft/tankard.fettle", 4, 8);
  await (await open("../layers/habits.fettle")).click();
  await page.locator(".tab.active", { hasText: "habits.fettle" }).waitFor();
});

test("a mode of the panel leads to its page", async () => {
  await openScript("craft/tankard.fettle", 9, 4);
  await panelAside().getByRole("tab", { name: "Switches" }).click();
  await panelAside().getByRole("button", { name: "Explain arm", exact: true }).click();
  await pageOf("arm");
});

test("the code of a finding leads to the page of its rule", async () => {
  const { page } = editor;
  await openScript("craft/mug.fettle", 13, 18);
  const link = page.locator(".monaco-resizable-hover:visible a", { hasText: "osd-off-grid" });
  await pressFor(page, hoverKeys, link);
  await link.click();
  await pageOf("osd-off-grid");
});

test.each(Object.keys(themes) as Theme[])("the page is read in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await explained().locator(`body.vscode-${theme}`).waitFor();
  expect(await violations(page, "tab")).toEqual([]);
  await screenshot(page, `explained-${theme}`);
});

test("the page comes back with the editor, where it was, and knows the way back", async () => {
  await reloadWindow(editor.page);
  await pageOf("osd-off-grid");
  await explained().getByRole("button", { name: "Back" }).click();
  await pageOf("arm");
});

test("a change of a handset shows on a craft that nobody has opened, and goes with it", async () => {
  const { page } = editor;
  await openFile(page, "handsets/wheel.fettle", 1, 8);
  await type(page, "s");
  // On each of the three craft that use it, of which one was never opened.
  const broken = page.locator(".markers-panel .monaco-list-row", { hasText: "has errors of its own" });
  await waitForProblem(page, "wheel.fettle");
  await expect.poll(() => broken.count()).toBe(3);
  await page.locator(".tab.active", { hasText: "wheel.fettle" }).click();
  await undo(page);
  await expect.poll(() => broken.count()).toBe(0);
});

test("a handset that is renamed in the explorer takes the lines that name it along, once that is wanted", async () => {
  const { page } = editor;
  await openFile(page, "handsets/wheel.fettle");
  await runCommand(page, "File: Reveal Active File in Explorer View");
  const row = page.locator(".explorer-viewlet .monaco-list-row", { hasText: "wheel.fettle" });
  await row.click();
  const name = page.locator(".explorer-viewlet .monaco-inputbox input");
  await pressFor(page, ["F2"], name);
  await name.fill("mine.fettle");
  await name.press("Enter");
  const question = page.locator(".monaco-dialog-box");
  await question.filter({ hasText: /Let \d “use” lines in \d scripts lead to the new place/ }).waitFor();
  await screenshot(page, "use-lines-question");
  await page.keyboard.press("Enter");
  await question.waitFor({ state: "detached" });
  await openFile(page, "craft/vase.fettle");
  await waitForLine(page, 'use "../handsets/mine.fettle"');
});
