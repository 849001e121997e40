/** First contact: by keys alone from an empty folder to a handset, a craft and a panel; a second craft; the walkthrough's steps. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { PRACTICE_SCRIPT } from "../../client/src/practice-script.ts";
import {
  askBy,
  cursor,
  type Editor,
  goTo,
  quickInput,
  runCommand,
  startEditor,
  type,
  undo,
  waitForLine,
} from "./editor.ts";
import { countedKeys } from "./keys.ts";
import { problems } from "./language.ts";
import { hasKeyboard, screenshot, showPanel, type Theme, themes, useTheme, violations, webview } from "./looks.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ ownWindow: true, files: {} });
});
afterAll(() => editor?.close());

const MOST_S = 5 * 60;

const panel = () => webview(editor.page);
const title = () => editor.page.locator(".quick-input-widget .quick-input-title");
const row = (text: string) => editor.page.locator(".quick-input-list .monaco-list-row", { hasText: text });
const step = (place: string) => title().filter({ hasText: place }).waitFor();
const stepOf = (name: string) => editor.page.locator(".getting-started-step", { hasText: name });
const tick = (name: string) => stepOf(name).getByRole("checkbox");

/** What the quick input asks now; null where none is shown. */
async function asked(): Promise<string | null> {
  const widget = editor.page.locator(".quick-input-widget:visible");
  const input = widget.locator(".quick-input-box input");
  if ((await input.count()) === 0) return null;
  const [aside, message] = await Promise.all([
    input.getAttribute("placeholder"),
    widget.locator(".quick-input-message").textContent(),
  ]);
  return `${await title().textContent()}: ${message || aside}`;
}

/** Waits until the quick input asks something else, with the keyboard in it. */
async function nextQuestion(before: string | null): Promise<string> {
  let question: string | null = null;
  await expect
    .poll(async () => {
      // What takes the place of another is without words for a moment, or has the other's: it is read twice.
      const last = question;
      question = await asked();
      return question === last && question !== before && question?.includes("?") ? "another question" : question;
    })
    .toBe("another question");
  await editor.page.locator(".quick-input-widget .quick-input-box input:focus").waitFor();
  return question!;
}

test("an empty panel says how to begin, and its button asks", async () => {
  const { page } = editor;
  await showPanel(page);
  const button = panel().getByRole("button", { name: "New craft…" });
  await button.focus();
  await page.keyboard.press("Enter");
  await step("New craft");
  await page.keyboard.press("Escape");
  await quickInput(page).waitFor({ state: "hidden" });
  for (const theme of Object.keys(themes).reverse() as Theme[]) {
    await useTheme(page, theme);
    await panel().locator(`body.vscode-${theme}`).waitFor();
    expect(await violations(page)).toEqual([]);
    await screenshot(page, `first-empty-${theme}`);
  }
  await page.keyboard.press("Control+Shift+e");
});

test("from an empty folder to a craft without a finding, by keys alone, takes less than five minutes", async () => {
  const { page } = editor;
  const keys = countedKeys(page);
  await keys.command("open walkthrough");
  await page.locator(".quick-input-widget input[aria-label*='walkthrough']:focus").waitFor();
  await keys.type("set up a craft");
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: "Set up a craft" }).waitFor();
  await keys.press("Enter");
  await page.locator(".getting-started-step.expanded:focus").waitFor();
  keys.decide();
  for (const key of ["Tab", "Tab", "Enter"]) await keys.press(key);

  /** Answers until one says where the script goes: what is not said here, as it is offered. */
  const answer = async (first: string, how: (question: string) => { text?: string; down?: number }) => {
    for (let question = first; ; question = await nextQuestion(question)) {
      const { text = "", down = 0 } = how(question);
      keys.decide();
      await keys.type(text);
      // A list answers as it searches.
      const list = page.locator(".quick-input-list:visible");
      if (text !== "" && (await list.count()) > 0) await list.locator(".focused", { hasText: text }).first().waitFor();
      for (let i = 0; i < down; i++) await keys.press("ArrowDown");
      await keys.press("Enter");
      if (/Where does it go/.test(question)) return;
    }
  };
  const first = await nextQuestion(null);
  // The walkthrough takes the keyboard back a little later: it must not keep it.
  await page.waitForTimeout(1000);
  await page.locator(".quick-input-widget .quick-input-box input:focus").waitFor();
  const kinds = ["Switch", "Switch", "Button", "No more"];
  const names = ["TL", "TR", "PB"];
  const positions = ["up, down", "up, mid, down", ""];
  await answer(first, (question) => {
    if (/handset called/.test(question)) return { text: "Kiln" };
    if (/: what is it/.test(question)) return { text: kinds.shift()! };
    if (/do you call it/.test(question)) return { text: names.shift()! };
    if (/Which positions/.test(question)) return { text: positions.shift()! };
    return /Where does it go/.test(question) ? { down: 1 } : {};
  });
  await step("New craft");
  await answer(await nextQuestion(null), (question) => (/is it called/.test(question) ? { text: "Jug" } : {}));
  await page.locator(".tab.active", { hasText: "jug.fettle" }).waitFor();
  await waitForLine(page, 'use "../handsets/kiln.fettle"');
  await keys.command("fettle: show panel");
  await panel().getByRole("heading", { name: "Jug" }).waitFor();
  await expect.poll(() => hasKeyboard(page)).toBe(true);
  keys.decide();
  await keys.press("Control+Shift+m");
  await page.locator(".markers-panel", { hasText: "No problems have been detected" }).waitFor();
  const { keys: pressed, decisions, seconds } = keys.taken();
  console.log(
    `From an empty folder to a craft without a finding: ${pressed} keys and ${decisions} decisions, ${Math.round(seconds)} s.`,
  );
  expect(seconds).toBeLessThan(MOST_S);
  await screenshot(page, "first-craft");
});

test("a second craft is offered the handset, or makes another on the way; what is no answer is asked again", async () => {
  const { page } = editor;
  const enter = () => quickInput(page).press("Enter");
  const answer = async (text: string) => {
    await quickInput(page).fill(text);
    await enter();
  };
  const prompt = (text: string) => expect.poll(asked).toContain(text);
  await askBy(page, "Fettle: New Craft…", title().filter({ hasText: "New craft" }));
  await prompt("What is it called?");
  await answer("A bowl whose name is far too long for any display");
  await page.locator(".quick-input-message", { hasText: "at most 40 characters" }).waitFor();
  await answer("Bowl");
  for (const place of ["1/7", "2/7"]) {
    await step(place);
    await row(place === "1/7" ? "5 inch" : "6 cells, lipo").waitFor();
    await enter();
  }
  await step("3/7");
  await row("Kiln, 2.4 GHz").and(page.locator(".focused")).waitFor();
  await screenshot(page, "first-second-craft");
  await answer("A new handset");
  await prompt("What is the handset called?");
  // The way back from the first question leads to the craft again.
  await page.keyboard.press("Control+Alt+Minus");
  await step("3/7");
  await answer("A new handset");
  await prompt("What is the handset called?");
  await answer("Bellows");
  await prompt("like another handset");
  await enter();
  await prompt("which band");
  await answer("868.3 MHz");
  await prompt("how much power");
  await answer("fast");
  // What no module sends is asked again, with the reason.
  await prompt("“fast” is no answer");
  await answer("25 mW");
  await prompt("which stick");
  await answer("Mode 2");
  await prompt("which order");
  await answer("throttle roll pitch yaw");
  await prompt("at their ends");
  await answer("988 us to 2012 us");
  for (const [name, positions, place] of [
    ["TL", "up, down", "Left shoulder"],
    ["TR", "up, mid, down", "Right shoulder"],
  ] as const) {
    await prompt("what is it");
    await answer("Switch");
    await prompt("What do you call it?");
    await answer(name);
    await prompt("On which channel");
    await enter();
    await prompt("Which positions");
    await answer(positions);
    await prompt("switched on");
    await enter();
    await prompt("does the hand find");
    if (name === "TR") await screenshot(page, "new-handset");
    await answer(place);
  }
  await title().filter({ hasText: "TL on ch5, TR on ch6" }).waitFor();
  await answer("No more controls");
  for (const place of ["4/7", "5/7", "6/7", "7/7"]) {
    await step(place);
    if (place !== "7/7") await page.locator(".quick-input-list .monaco-list-row.focused").waitFor();
    await enter();
  }
  await row("Save as craft/bowl.fettle").waitFor();
  await enter();
  await page.locator(".tab.active", { hasText: "bowl.fettle" }).waitFor();
  await waitForLine(page, 'use "../handsets/bellows.fettle"');
  await goTo(page, 30);
  await waitForLine(page, /order\s+throttle\sroll\spitch\syaw/);
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  expect((await problems(page)).filter((each) => /bowl|bellows/.test(each))).toEqual([]);
});

test("the craft takes another handset: what becomes of each control is shown, changed and written as one step", async () => {
  const { page } = editor;
  await askBy(page, "Fettle: Use Another Handset…", row("Kiln"));
  await row("Kiln").first().click();
  await title().filter({ hasText: "Bowl on Kiln" }).waitFor();
  await row("TL → TL").filter({ hasText: "the same channel, ch5" }).waitFor();
  await screenshot(page, "map-controls");
  // What the pointer rests on explains itself after a while, over the row below.
  await page.mouse.move(5, 400);
  await row("TL → TL").click();
  await title().filter({ hasText: "TL becomes" }).waitFor();
  await row("PB").click();
  await row("TL → PB").filter({ hasText: "it springs back" }).waitFor();
  // What was written before stays as it is until the proposal is taken.
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  await row("Write this").click();
  await waitForLine(page, /arm\s+when\sPB\sis\sheld/);
  await goTo(page, 1);
  await waitForLine(page, 'use "../handsets/kiln.fettle"');
  await undo(page);
  await waitForLine(page, /arm\s+when\sTL\sis\sdown/);
  await goTo(page, 1);
  await waitForLine(page, 'use "../handsets/bellows.fettle"');
});

/** The way up of an Enter that comes to a walkthrough counts there: it takes the keyboard, a quarter of a second later. */
const HELD_AGAIN_MS = 350;

/** Opens a step of the walkthrough, and presses its button if `what` says so. */
async function openStep(name: string, what: "look" | "press"): Promise<void> {
  const { page } = editor;
  await page.waitForTimeout(HELD_AGAIN_MS);
  await runCommand(page, "Welcome: Open Walkthrough...");
  await page.locator(".quick-input-widget input[aria-label*='walkthrough']:focus").waitFor();
  await type(page, "set up a craft");
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: "Set up a craft" }).waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".getting-started-step.expanded:focus").waitFor();
  await page.waitForTimeout(HELD_AGAIN_MS);
  for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowUp");
  await stepDown(name);
  if (what === "look") return;
  for (const key of ["Tab", "Tab", "Enter"]) await page.keyboard.press(key);
}

/** Goes down to a step: each that is come to is opened. */
async function stepDown(name: string): Promise<void> {
  const { page } = editor;
  const isOpen = async () => (await stepOf(name).getAttribute("class"))?.includes("expanded");
  for (let i = 0; i < 5 && !(await isOpen()); i++) await page.keyboard.press("ArrowDown");
  await page.locator(".getting-started-step.expanded:focus", { hasText: name }).waitFor();
}

const isDone = (name: string) =>
  expect.poll(() => tick(name).getAttribute("aria-label")).toMatch(/(?<!Not )[Cc]ompleted$/);

test("a clash is shown, mended where the cursor stands, and its step is done", async () => {
  const { page } = editor;
  await openStep("See a clash", "press");
  await panel().getByText("video-low and video-high on").first().waitFor();
  await page.locator(".monaco-editor.focused").first().waitFor();
  const lines = PRACTICE_SCRIPT.split("\n");
  const line = lines.findIndex((each) => each.startsWith("  video-low"));
  await expect.poll(() => cursor(page)).toEqual({ line: line + 1, column: lines[line]!.length + 1 });
  await screenshot(page, "first-clash");
  for (let i = 0; i < "not up".length; i++) await page.keyboard.press("Backspace");
  await type(page, "mid");
  await expect.poll(async () => (await problems(page)).filter((each) => /mode-clash/.test(each))).toEqual([]);
  await openStep("See a clash", "look");
  await isDone("See a clash");
  for (const made of ["Write your handset down", "Begin with a few questions"]) await isDone(made);
});

test("an element is moved by keys, dragged on, and its step is done", async () => {
  const { page } = editor;
  await openStep("Drag an element", "press");
  const element = panel().locator('[data-element="flight-time"]');
  await element.waitFor();
  // The cursor's line is marked in the picture.
  await panel().locator('[data-element="flight-time"].marked').waitFor();
  for (let i = 0; i < 8 && !(await isFocused()); i++) await page.keyboard.press("Tab");
  expect(await isFocused()).toBe(true);
  for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowUp");
  await waitForLine(page, "flight-time   at left+4, bottom-5");
  const box = (await element.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 25, y - 8, { steps: 5 });
  await page.mouse.up();
  await waitForLine(page, /flight-time\s+at\sleft\+(?!4,)/);
  await expect.poll(async () => (await problems(page)).filter((each) => /osd-overlap/.test(each))).toEqual([]);
  await openStep("Drag an element", "look");
  await isDone("Drag an element");
});

const isFocused = () =>
  panel()
    .locator('[data-element="flight-time"]')
    .evaluate((element) => element === element.ownerDocument.activeElement);

test.each(Object.keys(themes) as Theme[])("the walkthrough's pictures suit the %s theme", async (theme) => {
  const { page } = editor;
  await useTheme(page, theme);
  await openStep("Write your handset", "look");
  for (const name of ["Write your handset", "See a clash", "Drag an element"]) {
    await stepDown(name);
    await page.locator(".getting-started-media img").waitFor();
    await screenshot(page, `first-walk-${name.split(" ").at(-1)}-${theme}`);
  }
});

test("a friend's text is reviewed on the practice craft, what is chosen of it is adopted, and its step is done", async () => {
  const { page } = editor;
  await openStep("Review a friend", "press");
  const review = webview(page, "tab");
  await review.getByRole("heading", { name: /^Dangerous: / }).waitFor();
  await review.getByText("lamp glows at dusk").waitFor();
  expect(await review.getByRole("checkbox", { name: /^arm / }).isChecked()).toBe(false);
  await screenshot(page, "first-review");
  await review.getByRole("button", { name: /^Adopt \S+ lines?$/ }).press("Enter");
  await review.getByText(/^Adopted into Practice Pot/).waitFor();
  await openStep("Review a friend", "look");
  await isDone("Review a friend");
});
