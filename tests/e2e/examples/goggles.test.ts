/** The OSD arranged in the real editor: every gesture on the picture, and what becomes of the script. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, openFile, quickInput, startEditor, visibleLines, waitForLine } from "../editor.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    open: ["craft/amphora.fettle"],
    views: ["fettle.panel"],
    // What a hint says beside a line is no part of it.
    settings: { "editor.inlayHints.enabled": "off" },
  });
  await drawn("height").waitFor();
  await openFile(editor.page, "craft/amphora.fettle", 90);
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const drawn = (name: string) => panel().locator(`[data-element="${name}"]`);
const button = (name: string | RegExp) => panel().getByRole("button", { name, exact: true });
/** The lines in view that place an element, as they stand. */
const linesOf = async (name: string) =>
  (await visibleLines(editor.page)).filter((line) => line.trim().startsWith(`${name} `));
const unchanged = () => editor.page.locator(".tab.active:not(.dirty)", { hasText: "amphora" }).waitFor();

/** The middle of a cell, on the page of the editor. */
async function cell(column: number, row: number, grid = { columns: 53, rows: 20 }): Promise<[number, number]> {
  const sky = await panel().locator(".sky").boundingBox();
  if (!sky) throw new Error("There is no picture.");
  return [sky.x + ((column + 0.5) * sky.width) / grid.columns, sky.y + ((row + 0.5) * sky.height) / grid.rows];
}

/** Takes an element at one cell to another, in steps as a hand does, and leaves the button down. */
async function drag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  const { mouse } = editor.page;
  await mouse.move(...(await cell(...from)));
  await mouse.down();
  await mouse.move(...(await cell(...to)), { steps: 6 });
}

/** Column and row as the element says them. */
async function placeOf(name: string): Promise<string | undefined> {
  return (await drawn(name).getAttribute("aria-label"))?.match(/column -?\d+, row -?\d+/)?.[0];
}

test("an element dragged by the mouse shows where it is, and its line follows with its anchors", async () => {
  expect(await placeOf("height")).toBe("column 3, row 9");
  const before = await visibleLines(editor.page);
  await drag([4, 9], [11, 4]);
  await panel().getByText("column 10, row 4").first().waitFor();
  expect(await panel().locator("[data-part=note] code").textContent()).toBe("left+10, middle-5");
  await screenshot(editor.page, "goggles-drag");
  await editor.page.mouse.up();
  await waitForLine(editor.page, "  height         at left+10, middle-5");
  await expect.poll(() => placeOf("height")).toBe("column 10, row 4");
  const after = await visibleLines(editor.page);
  expect(after.filter((line, index) => line !== before[index])).toEqual(["  height         at left+10, middle-5"]);
});

test("undo in the panel gives the script back as it was, and redo does it again", async () => {
  const { keyboard } = editor.page;
  await drawn("height").focus();
  await keyboard.press("Control+z");
  await waitForLine(editor.page, "  height         at left+3, middle");
  await unchanged();
  await expect.poll(() => placeOf("height")).toBe("column 3, row 9");
  await drawn("height").focus();
  await keyboard.press("Control+Shift+z");
  await waitForLine(editor.page, "  height         at left+10, middle-5");
  await expect.poll(() => placeOf("height")).toBe("column 10, row 4");
  await drawn("height").focus();
  await keyboard.press("Control+z");
  await unchanged();
});

test("a run of arrow keys is one step to undo", async () => {
  const { keyboard } = editor.page;
  await expect.poll(() => placeOf("speed")).toMatch(/row 9/);
  await drawn("speed").focus();
  for (const key of ["ArrowLeft", "ArrowLeft", "Shift+ArrowDown", "ArrowUp"]) await keyboard.press(key);
  await waitForLine(editor.page, "  speed          at right-5, middle+4");
  await expect.poll(() => placeOf("speed")).toMatch(/row 13/);
  expect(await panel().locator("[data-part=live]").textContent()).toMatch(/row 13/);
  await drawn("speed").focus();
  await keyboard.press("Control+z");
  await waitForLine(editor.page, "  speed          at right-3, middle");
  await unchanged();
});

test("Escape cancels a movement, by mouse and by keys", async () => {
  const { keyboard, mouse } = editor.page;
  await expect.poll(() => placeOf("height")).toBe("column 3, row 9");
  await drag([4, 9], [20, 12]);
  await expect.poll(() => drawn("height").getAttribute("transform")).not.toBeNull();
  await keyboard.press("Escape");
  expect(await drawn("height").getAttribute("transform")).toBeNull();
  await mouse.up();
  await keyboard.press("ArrowRight");
  expect(await drawn("height").getAttribute("transform")).not.toBeNull();
  await keyboard.press("Escape");
  expect(await drawn("height").getAttribute("transform")).toBeNull();
  await unchanged();
});

test("cells that would be shared are hatched while it moves, and the other is named", async () => {
  await drag([4, 9], [5, 17]);
  await expect.poll(() => panel().locator("[data-part=hatch]").getAttribute("d")).toMatch(/^M/);
  await panel()
    .getByText(/shares cells with .*cell-volts/)
    .first()
    .waitFor();
  await screenshot(editor.page, "goggles-clash");
  await editor.page.keyboard.press("Escape");
  await editor.page.mouse.up();
  expect(await panel().locator("[data-part=hatch]").getAttribute("d")).toBe("");
});

test("a press without a movement selects the line", async () => {
  const { mouse, page } = { mouse: editor.page.mouse, page: editor.page };
  await mouse.click(...(await cell(4, 9)));
  await page.locator("#status\\.editor\\.selection", { hasText: /Ln 84.*selected/ }).waitFor();
  await panel().locator('[data-element="height"].marked').waitFor();
});

test("an element of a layer is asked about, and can be moved on this craft alone", async () => {
  const { page } = editor;
  const [, column, row] = (await placeOf("craft"))!.match(/column (\d+), row (\d+)/)!.map(Number);
  await drag([column! + 1, row!], [column! + 1, row! + 4]);
  await page.mouse.up();
  await quickInput(page).waitFor();
  // Where it was dropped it stays, as long as nothing is decided.
  expect(await drawn("craft").getAttribute("transform")).not.toBeNull();
  await page
    .getByRole("option", { name: /Only on Amphora/ })
    .first()
    .click();
  await expect.poll(() => placeOf("craft")).toBe(`column ${column}, row ${row! + 4}`);
  expect(await linesOf("craft")).toHaveLength(1);
  await drawn("craft").focus();
  await page.keyboard.press("Control+z");
  await unchanged();
  await expect.poll(() => placeOf("craft")).toBe(`column ${column}, row ${row}`);
});

test("a question that is dismissed leaves all as it was", async () => {
  const { page } = editor;
  await drawn("craft").focus();
  await page.keyboard.press("ArrowDown");
  await quickInput(page).waitFor();
  await page.keyboard.press("Escape");
  await expect.poll(() => drawn("craft").getAttribute("transform")).toBeNull();
  await unchanged();
});

test("an element is found by what it shows, added, and removed again", async () => {
  const { page } = editor;
  const input = panel().getByLabel("Add an element");
  await input.fill("throttle");
  await panel()
    .getByText(/^throttle: /)
    .waitFor();
  await input.press("Enter");
  await drawn("throttle").waitFor();
  await waitForLine(page, /\sthrottle\s+at\s/);
  await expect
    .poll(() => drawn("throttle").evaluate((group) => group === group.ownerDocument.activeElement))
    .toBe(true);
  expect(await drawn("throttle").locator(".hatched").count()).toBe(0);
  await screenshot(page, "goggles-added");
  await page.keyboard.press("Delete");
  await drawn("throttle").waitFor({ state: "detached" });
  await expect.poll(() => linesOf("throttle")).toEqual([]);
  // Whoever removes one by keys goes on from the next.
  await expect.poll(() => panel().locator("[data-element]:focus").count()).toBe(1);
  await page.keyboard.press("Control+z");
  await drawn("throttle").waitFor();
  await drawn("throttle").focus();
  await page.keyboard.press("Control+z");
  await unchanged();
});

test("the moments of a flight are gone through by keys", async () => {
  const { page } = editor;
  const slider = panel().getByRole("slider", { name: /Moment of the flight/ });
  const said = () => drawn("link-quality").getAttribute("aria-label");
  const before = await said();
  await slider.focus();
  await page.keyboard.press("End");
  await expect.poll(said).not.toBe(before);
  expect(await slider.getAttribute("aria-valuetext")).toBe("Signal lost");
  await panel().locator(".flashes").first().waitFor();
  await button("Stop the flashing").click();
  const moving = () =>
    panel()
      .locator(".flashes")
      .first()
      .evaluate((group) => group.getAnimations({ subtree: true }).length);
  expect(await moving()).toBe(0);
  await screenshot(page, "goggles-signal-lost");
  expect(await violations(page)).toEqual([]);
  await button("Stop the flashing").click();
  expect(await moving()).toBeGreaterThan(0);
  await slider.focus();
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowRight");
  await expect.poll(said).toBe(before);
});

test("what flashes does so at one rate within the published limits, and not for those who want no motion", async () => {
  const { page } = editor;
  const slider = panel().getByRole("slider", { name: /Moment of the flight/ });
  await slider.focus();
  await page.keyboard.press("End");
  await panel().locator(".flashes").first().waitFor();
  const rates = () =>
    panel()
      .locator(".goggles")
      .evaluate((svg) =>
        svg.getAnimations({ subtree: true }).map(({ effect }) => Number(effect?.getTiming().duration)),
      );
  const periodsMs = await rates();
  expect(new Set(periodsMs).size).toBe(1);
  // NUREG-0700 Rev 2, 1.3.10-12 (read): 2 to 3 Hz. WCAG 2.3.1 (read): at most three a second.
  expect(1000 / periodsMs[0]!).toBeGreaterThanOrEqual(2);
  expect(1000 / periodsMs[0]!).toBeLessThanOrEqual(3);
  await page.emulateMedia({ reducedMotion: "reduce" });
  await expect.poll(rates).toEqual([]);
  await page.emulateMedia({ reducedMotion: null });
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowRight");
});

test("the second page is a press away", async () => {
  await button("Second page").click();
  await drawn("latitude").waitFor();
  await screenshot(editor.page, "goggles-second");
  await button("First page").click();
  await drawn("latitude").waitFor({ state: "detached" });
});

test("another grid is looked at first, then written, and undone", async () => {
  const { page } = editor;
  const sky = () =>
    panel()
      .getByText(/on \d+ by \d+ cells/)
      .last()
      .textContent();
  await panel().getByText("Fit to another grid…").click();
  await button("30 × 16").click();
  await panel()
    .getByText(/^Preview on 30 by 16 cells/)
    .waitFor();
  await screenshot(page, "goggles-preview");
  expect(await violations(page)).toEqual([]);
  await button("Back").click();
  await panel()
    .getByText(/^Preview on/)
    .waitFor({ state: "detached" });
  expect(await sky()).toContain("53 by 20");
  await panel().getByText("Fit to another grid…").click();
  await panel().getByLabel("Columns").fill("60");
  await panel().getByLabel("Rows").fill("22");
  await panel().getByLabel("Rows").press("Enter");
  await panel()
    .getByText(/^Preview on 60 by 22 cells/)
    .waitFor();
  await button("Apply").click();
  await quickInput(page).waitFor();
  await page
    .getByRole("option", { name: /Only on Amphora/ })
    .first()
    .click();
  await panel()
    .getByText(/^Preview on/)
    .waitFor({ state: "detached" });
  await expect.poll(sky).toContain("60 by 22");
  await drawn("height").focus();
  await page.keyboard.press("Control+z");
  await expect.poll(sky).toContain("53 by 20");
  await unchanged();
});

test.each(Object.keys(themes) as Theme[])("the accessibility rules hold in the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await panel().locator(`body.vscode-${theme}`).waitFor();
  await drag([4, 9], [6, 16]);
  await panel().locator("[data-part=note]").waitFor();
  expect(await violations(page)).toEqual([]);
  await screenshot(page, `goggles-${theme}`);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await unchanged();
});

test("all of it stays within a narrow panel", async () => {
  const { page } = editor;
  const bar = (await page.locator(".part.sidebar").boundingBox())!;
  await page.mouse.move(bar.x + bar.width, bar.y + 300);
  await page.mouse.down();
  await page.mouse.move(bar.x + 240, bar.y + 300, { steps: 5 });
  await page.mouse.up();
  const overflow = () =>
    panel()
      .locator("html")
      .evaluate((html) => html.scrollWidth - html.clientWidth);
  expect(await overflow()).toBeLessThanOrEqual(0);
  await screenshot(page, "goggles-narrow");
});
