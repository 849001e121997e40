/** The panel in an editor that is loaded anew, and the picture as it is while its elements are hidden. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Editor, goTo, reloadWindow, runCommand, startEditor } from "../editor.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

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

link
  on-loss     silent
  lost-after  1 s

failsafe
  hold-for          2 s
  hold-with         level
  then              return
  then-without-fix  descend
  descend-throttle  26 %
  descend-for       20 s

navigation
  return-height  40 m
  arrival        land
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

const status = () => panel().getByRole("status");
const line = () => panel().getByRole("slider", { name: "Phases after the last packet" });
const phase = () => line().getAttribute("aria-valuetext");

test("a lost signal is one state in both views, and is played phase by phase by keys, buttons and pointer", async () => {
  const { page } = editor;
  await slider().focus();
  await page.keyboard.press("End");
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Signal lost");
  await expect.poll(phase).toBe("Phase 2 of 5, 1 s to 3 s: Held level, armed, receiver silent");
  await line().press("Home");
  await panel().getByText("The picture tells nothing of it yet").waitFor();
  expect(await panel().locator('[data-element="alerts"]').getAttribute("aria-label")).not.toContain("SIGNAL LOST");
  await view("Switches").click();
  await expect.poll(() => status().textContent()).toContain("Signal lost. 0 s to 1 s: armed.");
  await panel().getByRole("button", { name: "Later" }).click();
  await expect.poll(() => status().textContent()).toContain("1 s to 3 s: armed. It levels itself");
  await panel().getByRole("button", { name: "Without a fix" }).click();
  await line().press("End");
  await expect.poll(() => status().textContent()).toContain("From 23 s: not armed. The motors stop");
  await line().getByText("Descends at 26 %").click();
  await expect.poll(() => status().textContent()).toContain("3 s to 23 s: armed. It comes down at 26 % throttle");
  await view("Goggles").click();
  await expect.poll(phase).toBe("Phase 3 of 4, 3 s to 23 s: Descends at 26 %, armed, receiver silent");
  await expect
    .poll(() => panel().locator('[data-element="alerts"]').getAttribute("aria-label"))
    .toContain("SIGNAL LOST");
  await panel().getByRole("button", { name: "failsafe.descend-throttle 26 %, the line of" }).click();
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 24/ }).waitFor();
  // The key, and a control that is moved, bring the signal back, and the moment that was shown before.
  await view("Switches").click();
  await positions("TL").first().focus();
  await page.keyboard.press("l");
  await expect.poll(() => status().textContent()).toContain("Not armed.");
  await page.keyboard.press("l");
  await expect.poll(() => status().textContent()).toContain("Signal lost. 3 s to 23 s");
  await page.keyboard.press("ArrowDown");
  await expect.poll(() => status().textContent()).toContain("Armed.");
  await view("Goggles").click();
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Mid flight");
});

test.each(Object.keys(themes) as Theme[])("a lost signal meets the rules in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await panel().locator(`body.vscode-${theme}`).waitFor();
  await slider().focus();
  await page.keyboard.press("End");
  await line().waitFor();
  expect(await violations(page, "tab")).toEqual([]);
  await screenshot(page, `signal-goggles-${theme}`);
  await view("Switches").click();
  await line().focus();
  expect(await violations(page, "tab")).toEqual([]);
  await screenshot(page, `signal-switches-${theme}`);
  await panel().getByRole("button", { name: "Everything to rest" }).click();
  await line().waitFor({ state: "detached" });
  await view("Goggles").click();
});

test("after a reload of the window the tab stands beside its script again, with its view as it was", async () => {
  const { page } = editor;
  await slider().focus();
  await page.keyboard.press("End");
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Signal lost");
  await line().press("End");
  await reloaded();
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Signal lost");
  await expect.poll(phase).toContain("Phase 4 of 4, from 23 s: Motors off");
  await view("Switches").click();
  await expect.poll(() => status().textContent()).toContain("Signal lost. From 23 s");
  await positions("TL").nth(1).click();
  await expect.poll(() => status().textContent()).toContain("Armed.");
  await reloaded();
  await expect.poll(() => view("Switches").getAttribute("aria-selected")).toBe("true");
  await expect.poll(() => positions("TL").nth(1).getAttribute("aria-checked")).toBe("true");
  await expect.poll(() => panel().getByRole("status").textContent()).toContain("Armed.");
  await screenshot(page, "panel-reloaded");
  await view("Goggles").click();
  await expect.poll(() => slider().getAttribute("aria-valuetext")).toBe("Mid flight");
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
  await reloadWindow(page);
  await tab("Panel: Jug").waitFor();
  await tab("jug.fettle").waitFor();
  expect(await tab("Panel:").count()).toBe(1);
  expect(await page.locator(".editor-group-container").count()).toBe(2);
  await panel().getByRole("tablist").waitFor();
}
