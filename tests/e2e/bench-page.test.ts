/** The bench list in the page by itself, over lists made by hand: ticks, readings, days, the ways to the pictures and back. */
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { toggled } from "../../client/panel/bench-ticks.ts";
import { panelOf } from "../../shared/ide/panel/panel.ts";
import type { BenchList, BenchPicture } from "../../shared/protocol/bench.ts";
import type { BenchTrial } from "../../shared/protocol/bench-edit.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import type { FromPanel } from "../../shared/protocol/panel-messages.ts";
import { atCursor } from "../ide/cursor.ts";
import { benchOf, JUG } from "./hand-made-bench.ts";
import { pageViolations, type Theme, themes } from "./looks.ts";
import { openPanelPage, type PanelPage, wear } from "./panel-page.ts";

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage({ width: 420, height: 800 });
});
afterAll(() => panel?.close());

const craft = atCursor(
  'craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  level when TR is mid\nosd\n  grid 30 x 16\n  amps at left+2, bottom-2\n',
);
let version = 0;
const shotOf = (name: string) =>
  panel.page.screenshot({ path: inProject(".cache/screenshots", `${name}.png`), fullPage: true });

async function show(
  list: BenchList,
  some: Partial<PanelModel> = {},
  picture: Partial<BenchPicture> = {},
): Promise<void> {
  version++;
  const model = { ...panelOf(craft.workspace, craft.file, version, { view: "bench" }), file: JUG, ...some };
  await panel.post({ kind: "model", model: { ...model, bench: { list, shown: "all", canChoose: true, ...picture } } });
}

const box = (name: RegExp | string) => panel.page.getByRole("checkbox", { name });
const status = () => panel.page.getByRole("status").textContent();
async function posted<K extends FromPanel["kind"]>(kind: K): Promise<Extract<FromPanel, { kind: K }>[]> {
  const all = await panel.posted();
  return all.filter((message): message is Extract<FromPanel, { kind: K }> => message.kind === kind);
}
const focused = () => panel.page.evaluate(() => document.activeElement?.id);

beforeEach(async () => {
  await panel.page.setViewportSize({ width: 420, height: 800 });
  await show(benchOf());
  await panel.page.getByRole("tab", { name: "Bench" }).click();
  const anew = panel.page.getByRole("button", { name: "Begin anew" });
  if (await anew.isVisible()) await anew.click();
  const unfold = panel.page.getByRole("button", { name: "Unfold all" });
  if (await unfold.isVisible()) await unfold.click();
  await panel.posted();
});

test("the tabs are gone through by the arrow keys, Home and End", async () => {
  const { page } = panel;
  const tab = () => page.getByRole("tab", { selected: true }).textContent();
  const names = await page.getByRole("tab").allTextContents();
  await page.getByRole("tab", { name: "Bench" }).focus();
  await page.keyboard.press("Home");
  expect(await tab()).toBe("Goggles");
  await page.keyboard.press("ArrowLeft");
  expect(await tab()).toBe(names.at(-1));
  await page.keyboard.press("Home");
  await page.keyboard.press("End");
  expect(await tab()).toBe(names.at(-1));
  await page.getByRole("tab", { name: "Bench" }).click();
});

test("by keys alone: space ticks, arrows go on, and the whole says how far one is", async () => {
  const { keyboard } = panel.page;
  await box(/propellers off/).focus();
  await keyboard.press(" ");
  await keyboard.press("ArrowDown");
  await keyboard.press("Enter");
  expect(await status()).toContain("2 of 9 ticked.");
  expect(await panel.page.getByRole("heading", { name: /Before any power/ }).textContent()).toContain("2 of 2");
  await keyboard.press("End");
  expect(await focused()).toBe("step-outdoors.hover");
  await keyboard.press("Home");
  await keyboard.press(" ");
  expect(await box(/propellers off/).isChecked()).toBe(false);
  // Of the steps only one is reached by Tab.
  expect(await panel.page.locator(".step input[type=checkbox][tabindex='0']").count()).toBe(1);
  await panel.page.getByRole("button", { name: "Go on" }).click();
  await expect.poll(focused).toBe("step-unpowered.propellers");
  await panel.page.getByRole("button", { name: "Begin anew" }).click();
  expect(await status()).toContain("0 of 9 ticked.");
});

test("only the phase of the next step is unfolded; what is done in stays so, and a heading folds and unfolds", async () => {
  const { page } = panel;
  await box(/propellers off/).check();
  await page.getByRole("button", { name: "Begin anew" }).click();
  const steps = () => page.locator(".step").count();
  const heading = (name: RegExp) => page.getByRole("button", { name, expanded: true });
  expect(await steps()).toBe(2);
  await box(/propellers off/).check();
  await box(/antennas/).check();
  expect(await steps()).toBe(3);
  expect(await heading(/Before any power 2 of 2/).count()).toBe(1);
  await heading(/Before any power/).click();
  await heading(/Sticks/).click();
  expect(await steps()).toBe(0);
  await shotOf("bench-page-folded");
  await page.getByRole("button", { name: "Go on" }).click();
  await expect.poll(focused).toBe("step-sticks.roll");
  await page.keyboard.press("ArrowDown");
  expect(await focused()).toBe("step-sticks.roll");
});

test("a reading is typed, tried, written by Enter and taken back by Escape", async () => {
  const { page } = panel;
  const field = page.getByLabel("Both ends of roll");
  await box(/Move roll/).focus();
  await page.keyboard.press("Enter");
  expect(await field.evaluate((node) => node === document.activeElement)).toBe(true);
  await page.keyboard.type("988 2012");
  await expect
    .poll(async () => (await posted("bench-try")).at(-1))
    .toEqual({ kind: "bench-try", file: JUG, name: "bench.roll", typed: "988 2012" });
  const tried = (typed: string, trial: BenchTrial) =>
    panel.post({ kind: "bench-tried", name: "bench.roll", typed, trial });
  await tried("988 2012", { kind: "reads", text: "988 us to 2012 us", found: [] });
  expect(await page.locator(".reading-hint").textContent()).toContain(
    "Reads as “988 us to 2012 us”; nothing speaks against it.",
  );
  await shotOf("bench-page-reading");
  // An answer to what was typed before counts for nothing.
  await tried("988", { kind: "unclear", message: "Two figures are needed here." });
  expect(await field.getAttribute("aria-invalid")).toBe("false");
  await page.keyboard.press("Enter");
  expect(await posted("bench")).toEqual([
    { kind: "bench", file: JUG, gesture: { kind: "reading", name: "bench.roll", text: "988 2012" } },
  ]);
  expect(await focused()).toBe("step-sticks.roll");
  await panel.post({
    kind: "bench-told",
    name: "bench.roll",
    message: "Written: “roll 988 us to 2012 us”.",
    isWritten: true,
  });
  await show(benchOf({ roll: "988 us to 2012 us" }));
  expect(await field.inputValue()).toBe("988 us to 2012 us");
  expect(await status()).toContain("Written: “roll 988 us to 2012 us”.");
  // What is typed while an answer is under way is not taken for what was sent.
  await field.fill("990 2010");
  await page.keyboard.press("Enter");
  await field.fill("990 2011");
  await panel.post({ kind: "bench-told", name: "bench.roll", message: "Written.", isWritten: true });
  expect(await field.inputValue()).toBe("990 2011");
  await posted("bench");
  await field.fill("nonsense");
  await page.keyboard.press("Enter");
  await panel.post({
    kind: "bench-told",
    name: "bench.roll",
    message: "Two figures are needed here.",
    isWritten: false,
  });
  expect(await field.inputValue()).toBe("nonsense");
  expect(await page.locator(".reading-hint").textContent()).toBe("Two figures are needed here.");
  await field.press("Escape");
  expect(await field.inputValue()).toBe("988 us to 2012 us");
  await page.keyboard.press("Control+z");
  expect(await posted("undo")).toHaveLength(1);
});

test("what is read is written down one after another, and taken back where nothing new is typed", async () => {
  const { page } = panel;
  const list = benchOf();
  const phases = list.phases.map((phase) => ({
    ...phase,
    steps: phase.steps.map((step) => ({
      ...step,
      readings: step.readings.flatMap((each) => [each, { ...each, name: "bench.pitch", what: "both ends of pitch" }]),
    })),
  }));
  await show({ ...list, phases });
  await page.getByLabel("Both ends of roll").fill("988 2012");
  await page.keyboard.press("Enter");
  const pitch = page.getByLabel("both ends of pitch");
  expect(await pitch.evaluate((node) => node === document.activeElement)).toBe(true);
  await page.keyboard.press("Control+z");
  expect(await posted("undo")).toHaveLength(1);
  await page.keyboard.type("988 2011");
  await page.keyboard.press("Control+z");
  expect(await posted("undo")).toHaveLength(0);
  await pitch.fill("988 2011");
  await page.keyboard.press("Enter");
  expect(await focused()).toBe("step-sticks.roll");
});

test("with its first day a list stays as it is, and the keyboard on it; what is undone is no longer told", async () => {
  const { page } = panel;
  const BOWL = "file:///shed/craft/bowl.fettle";
  await show({ ...benchOf(), file: BOWL });
  await page.getByRole("button", { name: "Unfold all" }).click();
  await box(/motor 1 alone/).check();
  await box(/motor 2 alone/).check();
  await page
    .getByRole("button", { name: /Write today/ })
    .first()
    .focus();
  await page.keyboard.press("Enter");
  expect((await posted("bench-looks")).at(-1)?.looks[BOWL]?.shown).toBe("all");
  await expect.poll(focused).toBe("step-picture.osd");
  await panel.post({
    kind: "bench-told",
    name: "bench.motors-checked",
    message: "Written: “motors”.",
    isWritten: true,
  });
  await page.getByRole("button", { name: "Undo" }).focus();
  await page.keyboard.press("Enter");
  expect(await posted("undo")).toHaveLength(1);
  expect(await status()).toMatch(/^2 of 9 ticked\. Undone\.$/);
  expect(await page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("status");
});

test("the list of another craft begins with its warning, and each stays where it was left", async () => {
  const { page } = panel;
  const top = () => page.evaluate(() => window.scrollY);
  await page.evaluate(() => window.scrollTo(0, 500));
  await expect.poll(top).toBe(500);
  await page.evaluate(() => new Promise(requestAnimationFrame));
  await show({ ...benchOf(), file: "file:///shed/craft/mug.fettle", craft: "Mug" });
  await expect.poll(top).toBe(0);
  expect(await page.locator(".bench-bar b").textContent()).toBe("Mug");
  await show(benchOf());
  await expect.poll(top).toBe(500);
});

test("once all of a check is ticked its day is offered, and a check can be void", async () => {
  const { page } = panel;
  await box(/motor 1 alone/).check();
  expect(await page.getByRole("button", { name: /Write today/ }).count()).toBe(0);
  await box(/motor 2 alone/).check();
  const offers = page.getByRole("button", { name: "Write today as the day of the check: motors" });
  expect(await offers.count()).toBe(2);
  await shotOf("bench-page-day");
  await offers.first().click();
  await page.getByRole("button", { name: "motors: it no longer holds" }).click();
  expect((await posted("bench")).map(({ gesture }) => gesture)).toEqual([
    { kind: "day", check: "bench.motors-checked" },
    { kind: "void", check: "bench.motors-checked" },
  ]);
  // What no longer holds is not ticked either.
  expect(await box(/motor 1 alone/).isChecked()).toBe(false);
  await box(/motor 1 alone/).check();
  await box(/motor 2 alone/).check();
  await panel.posted();
  await box(/Move roll/).check();
  await page.getByRole("button", { name: "Write today's day for all 2" }).click();
  expect((await posted("bench")).map(({ gesture }) => gesture)).toEqual([
    { kind: "day", check: "bench.order-checked" },
    { kind: "day", check: "bench.motors-checked" },
  ]);
  await box(/Move roll/).uncheck();
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, "0");
  await show(benchOf({ motors: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`, due: false }));
  expect(await offers.count()).toBe(0);
});

test("a step shows its picture, a movement the switches as they stand then, and one comes back to it", async () => {
  const { page } = panel;
  await box(/Turn KN/).focus();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  expect((await posted("positions")).at(-1)).toEqual({ kind: "positions", positions: { TR: "mid", KN: 1800 } });
  expect(await page.getByRole("tab", { selected: true }).textContent()).toBe("Switches");
  // The keyboard is on the way back.
  await page.keyboard.press("Enter");
  expect(await page.getByRole("tab", { selected: true }).textContent()).toBe("Bench");
  await expect.poll(focused).toBe("step-switches.2");
  await page.getByRole("button", { name: "Show the OSD" }).click();
  expect((await posted("look")).at(-1)).toMatchObject({ page: "osd" });
  await page.getByRole("button", { name: "Back to the bench list" }).click();
  await page.getByRole("button", { name: "Line 21 of jug.fettle" }).click();
  expect(await posted("select")).toEqual([{ kind: "select", at: { file: JUG, line: 20 } }]);
});

test("ticks stay with their craft, on every page, and come from a page that has newer ones", async () => {
  const { page } = panel;
  await box(/propellers off/).check();
  expect((await posted("bench-looks")).at(-1)).toMatchObject({
    kind: "bench-looks",
    since: "now",
    looks: { [JUG]: { ticks: { "unpowered.propellers": expect.any(Object) } } },
  });
  await show({ ...benchOf(), file: "file:///shed/craft/mug.fettle", craft: "Mug" });
  expect(await box(/propellers off/).isChecked()).toBe(false);
  await show(benchOf());
  expect(await box(/propellers off/).isChecked()).toBe(true);
  await panel.post({
    kind: "bench-looks",
    looks: {
      [JUG]: { ticks: toggled(benchOf(), {}, "switches.1", Date.now()), shown: null, folds: { switches: "unfolded" } },
    },
  });
  expect(await box(/propellers off/).isChecked()).toBe(false);
  expect(await box(/Put TR/).isChecked()).toBe(true);
  await page.getByRole("tab", { name: "Numbers" }).click();
  await page.getByRole("tab", { name: "Bench" }).click();
  await expect
    .poll(async () => (await posted("bench-looks")).at(-1))
    .toMatchObject({ since: "before", looks: { [JUG]: { ticks: { "switches.1": expect.any(Object) } } } });
  expect(await box(/Put TR/).isChecked()).toBe(true);
});

test("only what is due is asked for, and of the past nothing is written", async () => {
  await box("Only what is due").check();
  expect((await posted("bench-looks")).at(-1)?.looks[JUG]?.shown).toBe("due");
  await show({ ...benchOf(), phases: [] }, {}, { shown: "due" });
  expect(await status()).toContain("Nothing is due.");
  await show(benchOf(), { past: "3f2a, Ida, 2026-03-01" });
  expect(await panel.page.getByRole("textbox").count()).toBe(0);
  expect(await panel.page.getByRole("button", { name: /no longer holds/ }).count()).toBe(0);
});

test("nothing is wrong for a screen reader, wider than the page, or too small to press", async () => {
  const { page } = panel;
  await wear(page, "high-contrast-light");
  await box(/motor 1 alone/).check();
  await box(/motor 2 alone/).check();
  await page.getByLabel("Both ends of roll").fill("988 2012");
  await page.getByRole("button", { name: "Write it" }).waitFor();
  expect(await pageViolations(page, "all rules")).toEqual([]);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll(".bench button, .bench input")]
      .filter((node) => node.getBoundingClientRect().height < 24)
      .map((node) => node.outerHTML),
  );
  expect(small).toEqual([]);
  const wider = () =>
    [...document.querySelectorAll("main *")]
      .filter((node) => node.getBoundingClientRect().right > document.documentElement.clientWidth)
      .map((node) => node.outerHTML.slice(0, 80));
  // The last as at 200 % zoom.
  for (const width of [900, 250, 125]) {
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate(wider), `${width} px`).toEqual([]);
  }
  await shotOf("bench-page-125");
  await page.getByLabel("Both ends of roll").press("Escape");
});

test.each(Object.keys(themes) as Theme[])("in the %s theme all of it can be read", async (theme) => {
  const { page } = panel;
  await wear(page, theme);
  await page.setViewportSize({ width: 250, height: 800 });
  await box(/motor 1 alone/).check();
  await box(/motor 2 alone/).check();
  expect(await pageViolations(page, "contrast")).toEqual([]);
  await shotOf(`bench-page-${theme}`);
});

test("nothing has gone wrong in the page", () => {
  expect(panel.errors).toEqual([]);
});
