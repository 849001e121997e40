/** The numbers read in the real editor: by keys, by the pointer, as tables, and from a part to its line. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, openFile, runCommand, startEditor, type as typeText, visibleLines } from "../editor.ts";
import { screenshot, showPanel, type Theme, useTheme, violations, webview } from "../looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    open: ["craft/tankard.fettle"],
    views: ["fettle.panel"],
    settings: { "editor.inlayHints.enabled": "off", "editor.minimap.enabled": false },
    size: { width: 1180, height: 900 },
  });
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const tab = (name: string) => panel().getByRole("tab", { name });
const chart = (name: string) => panel().getByRole("slider", { name });
const reading = (name: string) => chart(name).getAttribute("aria-valuetext");
const part = (name: string) => panel().getByRole("button", { name });
const activeFile = (name: string) => editor.page.locator(".tab.active", { hasText: name }).waitFor();
/** As the status bar tells, also while the line is selected. */
const lineOfCursor = async () =>
  (await editor.page.locator("#status\\.editor\\.selection").textContent())?.match(/^Ln (\d+)/)?.[1];

/** Drags the edge of the side bar until it is about that many pixels wide. */
async function sideBar(width: number): Promise<void> {
  const { page } = editor;
  const box = (await page.locator(".part.sidebar").boundingBox())!;
  await page.mouse.move(box.x + box.width, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + width, box.y + box.height / 2, { steps: 8 });
  await page.mouse.up();
  await expect
    .poll(async () => Math.abs((await page.locator(".part.sidebar").boundingBox())!.width - width))
    .toBeLessThan(4);
}

test("the third tab is reached by keys, and has what the craft says", async () => {
  await tab("Goggles").focus();
  for (const key of ["ArrowRight", "ArrowRight"]) await editor.page.keyboard.press(key);
  expect(await tab("Numbers").getAttribute("aria-selected")).toBe("true");
  await panel().getByRole("heading", { name: "Rates" }).waitFor();
  const headings = await panel().getByRole("heading", { level: 2 }).allTextContents();
  expect(headings).toEqual([
    "Rates",
    "pack",
    "Tired",
    "What passes the filters",
    "How much later it arrives",
    "A round of the loop",
    "Motors from above",
    "Hover, by a rough estimate",
  ]);
});

test("a chart is read off by arrow keys, a second set beside the first", async () => {
  const { keyboard } = editor.page;
  await chart("roll by stick").focus();
  // slope·x + (end − slope)·x³: 120·½ + 600·⅛ and 60·½ + 260·⅛.
  await expect.poll(() => reading("roll by stick")).toBe("half stick: first 135 deg/s, second 63 deg/s");
  expect(await panel().locator(".chart-reading").count()).toBe(1);
  await keyboard.press("ArrowRight");
  expect(await reading("roll by stick")).toContain("52.5 % stick: ");
  await keyboard.press("End");
  expect(await reading("roll by stick")).toBe("full stick: first 720 deg/s, second 320 deg/s");
  await panel().getByText("full stick: first 720 deg/s, second 320 deg/s").waitFor();
  await keyboard.press("Home");
  expect(await reading("roll by stick")).toBe("stick centred: first 0 deg/s, second 0 deg/s");
  await keyboard.press("Tab");
  expect(await panel().locator(".chart-reading").count()).toBe(0);
});

test("the pointer reads it off as well", async () => {
  await chart("throttle by stick").scrollIntoViewIfNeeded();
  const box = (await chart("throttle by stick").boundingBox())!;
  await editor.page.mouse.move(box.x + box.width * 0.5, box.y + box.height / 2);
  const first = await reading("throttle by stick");
  await editor.page.mouse.move(box.x + box.width * 0.6, box.y + box.height / 2);
  await expect.poll(() => reading("throttle by stick")).not.toBe(first);
  await editor.page.mouse.move(box.x - 200, box.y);
});

test("under each chart it stands as a table", async () => {
  const table = panel().getByRole("table", { name: "roll by stick" });
  await panel().getByText("As a table").first().press("Enter");
  expect((await table.getByRole("row").allTextContents()).at(-1)).toBe("100720320");
  expect(await table.getByRole("columnheader").allTextContents()).toEqual([
    "stick, %",
    "first, deg/s",
    "second, deg/s",
  ]);
});

test("a part leads to its line, in whatever file that is", async () => {
  await part("320 deg/s, the line of roll").click();
  await activeFile("tankard.fettle");
  await expect
    .poll(async () => (await visibleLines(editor.page)).some((line) => line.includes("roll            slope 60")))
    .toBe(true);
  await part("land-at, 3.30").press("Enter");
  await expect.poll(lineOfCursor).toBe("32");
  await part("smooth-gyro, order 1 at 400 Hz").click();
  await activeFile("tune-five.fettle");
  await expect.poll(lineOfCursor).toBe("6");
  // The cursor's line is marked in turn.
  await panel().locator("[data-part='0'][data-marked]").waitFor();
  await part("command: 26.7 us, answer 58.3 us, pause 2 us").press("Enter");
  await activeFile("maker-base.fettle");
  await expect.poll(lineOfCursor).toBe("35");
});

test("a craft with few settings shows what to add", async () => {
  await openFile(editor.page, "craft/pipkin.fettle");
  await panel().getByText("No rates are set: add a section “rates”").waitFor();
  expect(await panel().getByRole("slider").count()).toBe(0);
  await panel().getByRole("heading", { name: "pack" }).waitFor();
});

test("what is typed is what is drawn", async () => {
  const { page } = editor;
  await openFile(page, "layers/tune-five.fettle", 6, 1);
  await page.keyboard.press("Home");
  await page.keyboard.press("Shift+End");
  await typeText(page, "smooth-gyro    cut 100 Hz  order 2");
  // sqrt(2) / (2 pi fc) is 2.2508 ms for an analogue Butterworth of order 2 at 100 Hz (computed); at 8 kHz hardly less.
  await part("smooth-gyro, order 2 at 100 Hz: 2.25 ms").waitFor();
  await chart("What passes, by frequency").focus();
  await screenshot(page, "numbers-typed");
});

test("what was looked at is looked at again when the panel comes back", async () => {
  const { page } = editor;
  await runCommand(page, "View: Show Explorer");
  await page.locator(".explorer-viewlet").waitFor();
  await showPanel(page);
  await panel().getByRole("heading", { name: "Rates" }).waitFor();
  expect(await tab("Numbers").getAttribute("aria-selected")).toBe("true");
});

test("a motor that goes to another corner changes places with the one there, as one step to undo", async () => {
  const { page } = editor;
  await openFile(page, "craft/tankard.fettle", 80, 1);
  await part("motor 1, rear left, clockwise").focus();
  await page.keyboard.press("ArrowUp");
  await part("motor 1, front left, clockwise, cannot be so").waitFor();
  await expect
    .poll(async () => (await visibleLines(page)).filter((line) => /motor[12] /.test(line)).map((line) => line.trim()))
    .toEqual([
      "motor1      place front-left   direction clockwise",
      "motor2      place rear-left    direction anticlockwise",
    ]);
  await panel().getByText("neighbours must turn against each other").first().waitFor();
  await screenshot(page, "numbers-motors");
  await page.keyboard.press("Control+z");
  await part("motor 1, rear left, clockwise").waitFor();
  await part("motor 2, front left, anticlockwise").press("Enter");
  await expect.poll(lineOfCursor).toBe("81");
});

test.each(["light", "dark", "high-contrast"] as Theme[])(
  "the accessibility rules hold in the %s theme",
  async (theme) => {
    const { page } = editor;
    await openFile(page, "craft/tankard.fettle");
    await useTheme(page, theme);
    await panel().locator(`body.vscode-${theme}`).waitFor();
    await sideBar(460);
    await chart("pitch by stick").focus();
    await panel().getByRole("heading", { name: "Rates" }).scrollIntoViewIfNeeded();
    expect(await violations(page)).toEqual([]);
    await screenshot(page, `numbers-${theme}`);
    for (const name of ["land-at, 3.30", "all of the damping"]) {
      await panel().getByLabel(name).first().scrollIntoViewIfNeeded();
      await screenshot(page, `numbers-${theme}-${name.split(/\W/)[0]}`);
    }
    await panel()
      .getByText(/; the script says/)
      .last()
      .scrollIntoViewIfNeeded();
    await screenshot(page, `numbers-${theme}-hover`);
  },
);

test("a narrow panel has all of it, and nothing runs out of it", async () => {
  const { page } = editor;
  await sideBar(240);
  await panel().getByRole("heading", { name: "Rates" }).scrollIntoViewIfNeeded();
  const wider = await panel()
    .locator("body")
    .evaluate(({ ownerDocument: { documentElement } }) => documentElement.scrollWidth - documentElement.clientWidth);
  expect(wider).toBe(0);
  expect(await violations(page)).toEqual([]);
  await screenshot(page, "numbers-narrow");
  for (const name of ["land-at, 3.30", "all of the damping"]) {
    await panel().getByLabel(name).first().scrollIntoViewIfNeeded();
    await screenshot(page, `numbers-narrow-${name.split(/\W/)[0]}`);
  }
});

test("the tab beside the script has them too, while the side bar shows something else", async () => {
  const { page } = editor;
  await panel().getByRole("tab", { name: "Goggles" }).click();
  await runCommand(page, "Fettle: Open the Panel beside the Script");
  await expect.poll(() => page.locator("iframe.webview.ready").count()).toBe(2);
  const beside = webview(page, "tab");
  await beside.getByRole("tab", { name: "Numbers" }).click();
  await beside.getByRole("slider", { name: "roll by stick" }).waitFor();
  const side = webview(page, "side");
  expect(await side.getByRole("tab", { name: "Goggles" }).getAttribute("aria-selected")).toBe("true");
  await screenshot(page, "numbers-beside");
});
