/** The panel in an editor that is loaded anew, and the picture as it is while its elements are hidden. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Editor, goTo, runCommand, startEditor } from "./editor.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "./looks.ts";

const files = {
  "wheel.fettle": `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`,
  "jug.fettle": `craft "Jug"

use "wheel.fettle"

modes
  arm       when TL is down
  osd-hide  when TR is down

osd
  grid         53 x 20
  pack-volts   at left+3, bottom-2
  flight-time  at left+3, bottom-1
  alerts       at centre, bottom-4
`,
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files, open: ["jug.fettle"] });
  await runCommand(editor.page, "Fettle: Open the Panel beside the Script");
  await drawn().first().waitFor();
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const drawn = () => panel().locator("[data-element]");
const bare = () => panel().getByRole("button", { name: "Bare picture", exact: true });
const view = (name: string) => panel().getByRole("tab", { name });
const positions = (control: string) =>
  panel()
    .getByRole("radiogroup", { name: `${control},` })
    .getByRole("radio");
const slider = () => panel().getByRole("slider", { name: /Moment of the flight/ });
const tab = (name: string) => editor.page.locator(".tab", { hasText: name });

test.each(Object.keys(themes) as Theme[])("a page that a switch hides is seen bare in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await panel().locator(`body.vscode-${theme}`).waitFor();
  await bare().click();
  await expect.poll(() => drawn().count()).toBe(0);
  expect(await bare().getAttribute("aria-pressed")).toBe("true");
  expect(await panel().locator(".sky").isVisible()).toBe(true);
  await panel().getByText("3 elements on 53 by 20 cells, all hidden").waitFor();
  expect(await violations(page, "tab")).toEqual([]);
  await screenshot(page, `goggles-bare-${theme}`);
  await bare().click();
  await expect.poll(() => drawn().count()).toBe(3);
  expect(await bare().getAttribute("aria-pressed")).toBe("false");
});

test("the bare picture stays while the script is changed, and there is none once nothing hides the page", async () => {
  const { page } = editor;
  await bare().click();
  await inScript(7);
  await page.keyboard.press("Control+/");
  await expect.poll(() => drawn().count()).toBe(3);
  expect(await bare().count()).toBe(0);
  await page.keyboard.press("Control+z");
  await expect.poll(() => drawn().count()).toBe(0);
  await bare().click();
});

test("after a reload of the window the tab stands beside its script again, with its view as it was", async () => {
  const { page } = editor;
  await slider().focus();
  await page.keyboard.press("End");
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Signal lost");
  await view("Switches").click();
  await positions("TL").nth(1).click();
  await expect.poll(() => panel().getByRole("status").textContent()).toContain("Armed.");
  await reloaded();
  await expect.poll(() => view("Switches").getAttribute("aria-selected")).toBe("true");
  await expect.poll(() => positions("TL").nth(1).getAttribute("aria-checked")).toBe("true");
  await expect.poll(() => panel().getByRole("status").textContent()).toContain("Armed.");
  await screenshot(page, "panel-reloaded");
  await view("Goggles").click();
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Signal lost");
});

test("it follows the script again, and what it does reaches the script", async () => {
  const { page } = editor;
  await inScript(11);
  await page.keyboard.press("Shift+End");
  await page.keyboard.type("  pack-volts   at left+9, bottom-2");
  const volts = () => panel().locator('[data-element="pack-volts"]');
  await expect.poll(() => volts().getAttribute("aria-label")).toContain("column 9, row 17");
  await volts().focus();
  await page.keyboard.press("ArrowRight");
  await page.locator(".view-line", { hasText: "left+10," }).waitFor();
});

/** Puts the cursor on a line of the script, in its own group. */
async function inScript(line: number): Promise<void> {
  await tab("jug.fettle").click();
  await goTo(editor.page, line);
}

/** Loads the window anew, and waits until both tabs are back, each in its own group. */
async function reloaded(): Promise<void> {
  const { page } = editor;
  const anew = page.waitForEvent("domcontentloaded");
  await runCommand(page, "Developer: Reload Window");
  await anew;
  await page.locator(".monaco-workbench .part.statusbar").waitFor();
  await tab("Panel: Jug").waitFor();
  await tab("jug.fettle").waitFor();
  expect(await tab("Panel:").count()).toBe(1);
  expect(await page.locator(".editor-group-container").count()).toBe(2);
  await panel().getByRole("tablist").waitFor();
}
