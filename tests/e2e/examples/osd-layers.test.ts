/** Gestures on the OSD whose lines stand in a layer, and those that come from the palette, in the real editor. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import {
  askBy,
  type Editor,
  goTo,
  narrowListOf,
  openFile,
  quickInput,
  startEditor,
  type,
  undo,
  waitForLine,
} from "../editor.ts";
import { screenshot, useTheme, violations, webview } from "../looks.ts";

/** A craft without an OSD, beside those of the examples. */
const SUGAR_BOWL = `craft "Sugar bowl"

use "../handsets/wheel.fettle"

ports
  port1  receiver
  port3  spare

video
  signal       digital
  viewer-grid  53 x 20
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    // An answer that is kept is kept until the window is closed.
    ownWindow: true,
    folder: inProject("examples"),
    files: { "craft/sugar-bowl.fettle": SUGAR_BOWL },
    open: ["craft/gravy-boat.fettle"],
    views: ["fettle.panel"],
    settings: { "editor.inlayHints.enabled": "off", "files.autoSave": "off" },
  });
  await drawn("craft").waitFor();
  await openFile(editor.page, "craft/gravy-boat.fettle", 50);
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const drawn = (name: string) => panel().locator(`[data-element="${name}"]`);
const placeOf = async (name: string) =>
  (await drawn(name).getAttribute("aria-label"))?.match(/column -?\d+, row -?\d+/)?.[0];
const choice = (name: RegExp) => editor.page.getByRole("option", { name });
const dirty = (name: string) => editor.page.locator(`.tab.dirty[data-resource-name="${name}"]`);
const picture = () =>
  panel()
    .getByText(/on \d+ by \d+ cells/)
    .last();

/** Moves an element by keys, as one gesture. */
async function moveByKeys(name: string, ...keys: string[]): Promise<void> {
  await drawn(name).focus();
  for (const key of keys) await editor.page.keyboard.press(key);
}

const focused = () =>
  panel()
    .locator("html")
    .evaluate(({ ownerDocument: page }) => page.hasFocus() && page.activeElement?.getAttribute("data-element"));

test("the layer's own line is changed where one wants that, and the script in front stays in front", async () => {
  expect(await placeOf("craft")).toMatch(/row 2$/);
  await moveByKeys("craft", "ArrowDown");
  await choice(/In the layer “Wide OSD”, also moves it on/)
    .first()
    .click();
  await expect.poll(() => placeOf("craft")).toMatch(/row 3$/);
  await dirty("osd-wide.fettle").waitFor();
  await editor.page.locator('.tab.active[data-resource-name="gravy-boat.fettle"]').waitFor();
  await expect.poll(focused).toBe("craft");
});

test("undo in the panel reverts it in the layer, with the same script in front and the focus kept", async () => {
  await editor.page.keyboard.press("Control+z");
  await expect.poll(() => placeOf("craft")).toMatch(/row 2$/);
  await dirty("osd-wide.fettle").waitFor({ state: "detached" });
  await editor.page.locator('.tab.active[data-resource-name="gravy-boat.fettle"]').waitFor();
  await expect.poll(focused).toBe("craft");
  expect(await panel().getByRole("heading", { level: 1 }).textContent()).toBe("Gravy boat");
});

test("an element taken off one craft is dropped there, and stays in the layer", async () => {
  await moveByKeys("sight", "Delete");
  await choice(/Only on Gravy boat/)
    .first()
    .click();
  await drawn("sight").waitFor({ state: "detached" });
  await waitForLine(editor.page, "  drop sight");
  expect(await dirty("osd-wide.fettle").count()).toBe(0);
  await editor.page.keyboard.press("Control+z");
  await drawn("sight").waitFor();
  await dirty("gravy-boat.fettle").waitFor({ state: "detached" });
});

test("the answer can be kept, and then nothing is asked", async () => {
  await moveByKeys("mode", "ArrowUp");
  await choice(/Only on Gravy boat.*always/).click();
  await waitForLine(editor.page, /mode\s+at\sright-3,\sbottom-4/);
  const flightTime = await placeOf("flight-time");
  await moveByKeys("flight-time", "ArrowUp");
  await waitForLine(editor.page, /flight-time\s+at\sright-3,\sbottom-3/);
  expect(await quickInput(editor.page).isVisible()).toBe(false);
  await drawn("mode").focus();
  // The editor takes the keyboard for a step and gives it back at once: the next press is the next step.
  await editor.page.keyboard.press("Control+z");
  await expect.poll(() => placeOf("flight-time")).toBe(flightTime);
  await expect.poll(focused).toBe("mode");
  await editor.page.keyboard.press("Control+z");
  await dirty("gravy-boat.fettle").waitFor({ state: "detached" });
  await expect.poll(focused).toBe("mode");
});

test("an element is added from the palette, as one step", async () => {
  const { page } = editor;
  await narrowListOf(page, "Fettle: Add an OSD Element…", "satellites");
  await choice(/^satellites/)
    .first()
    .click();
  await drawn("satellites").waitFor();
  await waitForLine(page, /^\s+satellites\s+at\s/);
  expect(await drawn("satellites").locator(".hatched").count()).toBe(0);
  await openFile(page, "craft/gravy-boat.fettle", 50);
  await undo(page);
  await drawn("satellites").waitFor({ state: "detached" });
  await dirty("gravy-boat.fettle").waitFor({ state: "detached" });
});

test("what was moved by keys moves in the script that was drawn, though one turns to another at once", async () => {
  const { page } = editor;
  await openFile(page, "craft/amphora.fettle", 84);
  await openFile(page, "craft/gravy-boat.fettle", 50);
  await drawn("speed").waitFor({ state: "detached" });
  // Both craft place it, each in its own file.
  await moveByKeys("height", "ArrowRight");
  await page.locator('.tab[data-resource-name="amphora.fettle"]').click();
  await dirty("gravy-boat.fettle").waitFor();
  await drawn("speed").waitFor();
  expect(await placeOf("height")).toBe("column 3, row 9");
  expect(await dirty("amphora.fettle").count()).toBe(0);
  await openFile(page, "craft/gravy-boat.fettle", 50);
  await waitForLine(page, "  height  at left+4, middle");
  await undo(page);
  await dirty("gravy-boat.fettle").waitFor({ state: "detached" });
});

test("a grid is picked or typed in the palette, and its layout shown before anything is written", async () => {
  const { page } = editor;
  await askBy(page, "Fettle: Fit the OSD Layout to Another Grid…", choice(/^Another size/));
  await choice(/^30 x 16/).click();
  await expect.poll(() => picture().textContent()).toContain("30 by 16");
  await askBy(page, "Fettle: Fit the OSD Layout to Another Grid…", choice(/^Another size/));
  await choice(/^Another size/).click();
  await page.locator(".quick-input-message", { hasText: "Columns and rows, as in 53 x 20" }).waitFor();
  await quickInput(page).fill("600 x 20");
  await page.getByText("up to 64 x 32").first().waitFor();
  await quickInput(page).fill("50 x 18");
  await quickInput(page).press("Enter");
  await expect.poll(() => picture().textContent()).toContain("50 by 18");
  expect(await editor.page.locator(".tab.dirty").count()).toBe(0);
  await panel().getByRole("button", { name: "Back", exact: true }).click();
  await expect.poll(() => picture().textContent()).toContain("53 by 20");
});

test("a layout in two files is fitted in both at once, and undone in both", async () => {
  const { page } = editor;
  await openFile(page, "craft/gravy-boat.fettle", 53, 28);
  await type(page, "\nlap  at 42, 5");
  await drawn("lap").waitFor();
  await askBy(page, "Fettle: Fit the OSD Layout to Another Grid…", choice(/^Another size/));
  await choice(/^60 x 22/).click();
  await panel().getByRole("button", { name: "Apply", exact: true }).click();
  await choice(/In the layer “Wide OSD”, also changes the layout of/)
    .first()
    .click();
  await expect.poll(() => picture().textContent()).toContain("60 by 22");
  await dirty("osd-wide.fettle").waitFor();
  await waitForLine(page, /lap\s+at\s48,\s5/);
  await drawn("lap").focus();
  await page.keyboard.press("Control+z");
  await waitForLine(page, /lap\s+at\s42,\s5/);
  await dirty("osd-wide.fettle").waitFor({ state: "detached" });
  await expect.poll(() => picture().textContent()).toContain("53 by 20");
  await openFile(page, "craft/gravy-boat.fettle", 54);
  await undo(page);
  await drawn("lap").waitFor({ state: "detached" });
});

test("the drawing follows whatever changes the script, also in the middle of a drag", async () => {
  const { page } = editor;
  await openFile(page, "craft/gravy-boat.fettle", 53, 20);
  await expect.poll(() => placeOf("height")).toMatch(/column 3,/);
  await moveByKeys("height", "ArrowDown");
  // The run of keys is not over yet: what is typed now and what was moved must both be in the script.
  await goTo(page, 53, 20);
  await type(page, "1");
  await waitForLine(page, /height\s+at\sleft\+31,\smiddle\+1/);
  await expect.poll(() => placeOf("height")).toBe("column 31, row 10");
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press("Backspace");
    await type(page, String(i % 5));
  }
  await waitForLine(page, /height\s+at\sleft\+31,\smiddle\+1/);
  await expect.poll(() => placeOf("height")).toBe("column 31, row 10");
});

test("an OSD begins by one press and is one step to undo; what an element lacks is repaired from it", async () => {
  const { page } = editor;
  await openFile(page, "craft/sugar-bowl.fettle");
  const button = (name: string | RegExp) => panel().getByRole("button", { name });
  await panel().getByText("Nothing is placed on the OSD yet.").waitFor();
  await button(/^Use the layer “Wide OSD”, 53 × 20/).waitFor();
  expect(await violations(page)).toEqual([]);
  for (const theme of ["light", "high-contrast"] as const) {
    await useTheme(page, theme);
    await screenshot(page, `osd-begin-${theme}`);
  }
  await useTheme(page, "dark");
  await screenshot(page, "osd-begin-dark");
  await button("Begin an OSD, 53 × 20").click();
  await drawn("cell-volts").waitFor();
  await waitForLine(page, /grid\s+53\sx\s20/);
  await drawn("alerts").focus();
  await page.keyboard.press("Control+z");
  await panel().getByText("Nothing is placed on the OSD yet.").waitFor();
  await askBy(page, "Fettle: Begin an OSD…", choice(/^The usual elements, on 53 x 20/));
  await choice(/^The usual elements, on 53 x 20/).click();
  await drawn("cell-volts").waitFor();
  await panel().getByLabel("Add an element").fill("satellites");
  await panel().getByText("It needs a satellite receiver on a port, which this craft does not have.").waitFor();
  await panel().getByRole("button", { name: "Add", exact: true }).click();
  await button("Say that port3 serves gps").click();
  await waitForLine(page, /port3\s+gps/);
  await panel().locator(".fault").waitFor({ state: "detached" });
});

test("what the numbers lack is written with the value selected", async () => {
  const { page } = editor;
  await panel().getByRole("tab", { name: "Numbers" }).click();
  await panel().getByRole("button", { name: "Add a pack" }).click();
  await waitForLine(page, /chemistry\s+lipo/);
  await expect.poll(() => panel().getByRole("heading", { name: "pack" }).count()).toBe(1);
  // The first value is selected: what is typed takes its place.
  await page.locator(".monaco-editor.focused").first().waitFor();
  await page.keyboard.type("lihv");
  await waitForLine(page, /chemistry\s+lihv/);
  await panel().getByRole("tab", { name: "Goggles" }).click();
  expect(editor.errors.filter((error) => error.includes("fettle"))).toEqual([]);
});
