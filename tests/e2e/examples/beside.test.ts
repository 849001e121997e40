/** The panel as a tab beside the script, in the real editor: alone, and together with the one in the side bar. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, openFile, quickInput, runCommand, startEditor, waitForLine } from "../editor.ts";
import { type Place, screenshot, showPanel, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    open: ["craft/amphora.fettle"],
    views: ["fettle.panel"],
    settings: { "editor.inlayHints.enabled": "off" },
  });
  await drawn("height", "side").waitFor();
});
afterAll(() => editor?.close());

const drawn = (name: string, place: Place = "tab") => webview(editor.page, place).locator(`[data-element="${name}"]`);
const slider = (place: Place) => webview(editor.page, place).getByRole("slider", { name: /Moment of the flight/ });
const group = (name: string) =>
  editor.page.locator(".editor-group-container", { has: editor.page.locator(".tab", { hasText: name }) });
const markedIn = (place: Place) => drawn("height", place).and(webview(editor.page, place).locator(".marked")).waitFor();
const isClean = () => editor.page.locator(".tab.active:not(.dirty)", { hasText: "amphora.fettle" }).waitFor();
const hasFocus = (name: string) =>
  drawn(name).evaluate((element) => element.ownerDocument.hasFocus() && element.matches(":focus"));

async function placeOf(name: string, place: Place = "tab"): Promise<string | undefined> {
  return (await drawn(name, place).getAttribute("aria-label"))?.match(/column -?\d+, row -?\d+/)?.[0];
}

/** The middle of a cell of the tab's picture, on the page of the editor. */
async function cell(column: number, row: number): Promise<[number, number]> {
  const sky = (await webview(editor.page, "tab").locator(".sky").boundingBox())!;
  return [sky.x + ((column + 0.5) * sky.width) / 53, sky.y + ((row + 0.5) * sky.height) / 20];
}

test("the button over a script opens the panel beside it, larger, and leaves the keyboard with the script", async () => {
  const { page } = editor;
  await openFile(page, "craft/amphora.fettle", 84);
  await page.getByRole("button", { name: /Open the Panel beside the Script/ }).click();
  // Until it is there the page of the side bar is the last one.
  await page.locator("iframe.webview.ready").nth(1).waitFor();
  await drawn("height").waitFor();
  await page.locator(".tab", { hasText: "Panel: Amphora" }).waitFor();
  expect(await page.locator(".editor-group-container").count()).toBe(2);
  expect(await page.locator(".editor-group-container.active .tab.active").textContent()).toContain("amphora.fettle");
  const width = async (place: Place) => (await webview(page, place).locator(".picture").boundingBox())!.width;
  expect(await width("tab")).toBeGreaterThan(1.5 * (await width("side")));
  // The line that the cursor was on before is marked on both.
  for (const place of ["side", "tab"] as const) await markedIn(place);
  await screenshot(page, "panel-beside");
});

test("asked for again it is the same tab", async () => {
  await runCommand(editor.page, "Fettle: Open the Panel beside the Script");
  await quickInput(editor.page).waitFor({ state: "hidden" });
  expect(await editor.page.locator(".tab", { hasText: "Panel:" }).count()).toBe(1);
  expect(await editor.page.locator(".editor-group-container").count()).toBe(2);
});

test("a drag in the tab edits the script, moves the element in both, and is undone from there", async () => {
  const { page } = editor;
  const { mouse, keyboard } = page;
  expect(await placeOf("height")).toBe("column 3, row 9");
  await mouse.move(...(await cell(4, 9)));
  await mouse.down();
  await mouse.move(...(await cell(11, 4)), { steps: 6 });
  await mouse.up();
  for (const place of ["side", "tab"] as const)
    await expect.poll(() => placeOf("height", place)).toBe("column 10, row 4");
  const lines = await group("amphora").locator(".view-line").allTextContents();
  expect(lines.map((line) => line.replaceAll("\u00a0", " "))).toContain("  height         at left+10, middle-5");
  await drawn("height").focus();
  await keyboard.press("Control+z");
  for (const place of ["side", "tab"] as const)
    await expect.poll(() => placeOf("height", place)).toBe("column 3, row 9");
  await isClean();
  // The tab is still in view, and has the keyboard again: the next key moves the element.
  await expect.poll(() => hasFocus("height")).toBe(true);
  await keyboard.press("ArrowRight");
  await expect.poll(() => placeOf("height", "side")).toBe("column 4, row 9");
  await keyboard.press("Control+z");
  await expect.poll(() => placeOf("height", "side")).toBe("column 3, row 9");
  await isClean();
});

test("an element of a layer that nobody has open is changed, and undone, without covering the tab or the script", async () => {
  const { page } = editor;
  const before = await placeOf("craft");
  await drawn("craft").focus();
  await page.keyboard.press("ArrowDown");
  await quickInput(page).waitFor();
  await page
    .getByRole("option", { name: /In the layer/ })
    .first()
    .click();
  await expect.poll(() => placeOf("craft", "side")).not.toBe(before);
  await expect.poll(() => hasFocus("craft")).toBe(true);
  await page.keyboard.press("Control+z");
  await expect.poll(() => placeOf("craft", "side")).toBe(before);
  await expect.poll(() => hasFocus("craft")).toBe(true);
  await page.locator(".tab.active", { hasText: "Panel: Amphora" }).waitFor();
  await page.locator(".tab.active", { hasText: "amphora.fettle" }).waitFor();
  expect(await page.locator(".editor-group-container").count()).toBe(2);
});

test("a press shows the line in the script's own group", async () => {
  const { page } = editor;
  await page.mouse.click(...(await cell(4, 9)));
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 84.*selected/ }).waitFor();
  await page.locator(".tab.active", { hasText: "Panel: Amphora" }).waitFor();
  expect(await page.locator(".editor-group-container").count()).toBe(2);
});

test("what is looked at is the same in both, also after the one in the side bar was hidden", async () => {
  const { page } = editor;
  await slider("side").focus();
  await page.keyboard.press("End");
  await expect.poll(() => slider("tab").getAttribute("aria-valuetext")).toBe("Signal lost");
  await runCommand(page, "View: Show Explorer");
  await page.locator(".explorer-viewlet").waitFor();
  await slider("tab").focus();
  await page.keyboard.press("Home");
  await expect.poll(() => slider("tab").getAttribute("aria-valuetext")).toBe("Fresh pack");
  await showPanel(page, "side");
  await expect.poll(() => slider("side").getAttribute("aria-valuetext")).toBe("Fresh pack");
  // It had the link lost when it was hidden: that is not to come back, and the next moment is that after the fresh pack.
  expect(await slider("tab").getAttribute("aria-valuetext")).toBe("Fresh pack");
  await slider("tab").focus();
  await page.keyboard.press("ArrowRight");
  for (const place of ["side", "tab"] as const)
    await expect.poll(() => slider(place).getAttribute("aria-valuetext")).toBe("Mid flight");
});

test("each shows a view of its own", async () => {
  const tab = (name: string, place: Place) => webview(editor.page, place).getByRole("tab", { name });
  await tab("Switches", "side").click();
  await webview(editor.page, "side").getByRole("radiogroup").first().waitFor();
  expect(await tab("Goggles", "tab").getAttribute("aria-selected")).toBe("true");
  await drawn("height").waitFor();
  await tab("Goggles", "side").click();
});

test("a tab behind another comes back as it was", async () => {
  const { page } = editor;
  const tabs = (name: string) => webview(page, "tab").getByRole("tab", { name });
  await tabs("Switches").click();
  await page.locator(".tab", { hasText: "Panel: Amphora" }).click();
  await openFile(page, "layers/osd-wide.fettle");
  await page.locator(".editor-group-container.active .tab.active", { hasText: "osd-wide" }).waitFor();
  await page.locator(".tab", { hasText: "Panel: Amphora" }).click();
  await expect.poll(() => tabs("Switches").getAttribute("aria-selected")).toBe("true");
  await tabs("Goggles").click();
  await drawn("height").waitFor();
  await page.locator(".tab", { hasText: "osd-wide" }).last().click();
  await page.keyboard.press("Control+w");
  // The layer is out of sight: the craft beside is drawn for itself again, with the cursor's line marked.
  await webview(page, "tab").getByText("Drawn as in").waitFor({ state: "detached" });
  for (const place of ["side", "tab"] as const) await markedIn(place);
});

test.each(Object.keys(themes) as Theme[])("the tab meets the accessibility rules in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await webview(page, "tab").locator(`body.vscode-${theme}`).waitFor();
  await drawn("height").waitFor();
  expect(await violations(page, "tab")).toEqual([]);
  await screenshot(page, `panel-beside-${theme}`);
});

test("closed, it leaves the one in the side bar as it was", async () => {
  const { page } = editor;
  await page.locator(".tab", { hasText: "Panel: Amphora" }).click({ button: "middle" });
  await page.locator(".tab", { hasText: "Panel:" }).waitFor({ state: "detached" });
  await drawn("height", "side").waitFor();
  await drawn("height", "side").focus();
  await page.keyboard.press("ArrowRight");
  await openFile(page, "craft/amphora.fettle", 84);
  await waitForLine(page, "  height         at left+4, middle");
});
