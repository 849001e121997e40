/**
 * The panel and the script in the real editor under a random hand: gestures on the picture, typing, undo and redo on
 * either side, the view hidden and shown. At the end the script is what the steps came to, and undoing all of them
 * gives it back as it was; and the panel is what a fresh one draws.
 */
import { afterAll, beforeAll, expect, test } from "vitest";
import { lastsMsOr, ONLY, SEED } from "../../fire/amount.ts";
import { type Random, randomOf } from "../../fire/random.ts";
import { type Editor, goTo, openFile, runCommand, startEditor, type, visibleLines } from "../editor.ts";
import { webview } from "../looks.ts";

/** Short enough that all of it is in sight. */
const SCRIPT = `craft "Ladle"

osd
  grid         30 x 16
  pack-volts   at left+2, bottom-2
  flight-time  at 12, 8
  sight        at centre, middle
  mode         at left+2, top+1
  alerts       at centre, bottom-4  # never hidden
`;
const ELEMENTS = ["pack-volts", "flight-time", "sight", "mode", "alerts"];
const NOTE_LINE = 2;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files: { "ladle.fettle": SCRIPT },
    open: ["ladle.fettle"],
    views: ["fettle.panel"],
    settings: { "editor.inlayHints.enabled": "off", "editor.quickSuggestions": "off", "editor.codeLens": false },
  });
  await element("alerts").waitFor();
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const element = (name: string) => panel().locator(`[data-element="${name}"]`);
const script = async () => (await visibleLines(editor.page)).join("\n").trimEnd();
const labels = () =>
  panel()
    .locator("[data-element]")
    .evaluateAll((all) => all.map((each) => each.getAttribute("aria-label")));

/** The text once it is another one than before. */
async function changed(from: string): Promise<string> {
  await expect.poll(script).not.toBe(from);
  return script();
}

/** Moves an element by keys, to where it was not. */
async function moved(random: Random): Promise<string> {
  const [from, name] = [await script(), random.oneOf(ELEMENTS)];
  await element(name).focus();
  const here = await element(name).getAttribute("aria-label");
  // Where one way is the edge of the grid, the other is not.
  for (const key of random.onceIn(2) ? ["ArrowUp", "ArrowDown"] : ["ArrowDown", "ArrowUp"]) {
    await editor.page.keyboard.press(key);
    if ((await panel().locator("[data-moving]").count()) > 0) break;
  }
  const text = await changed(from);
  await expect.poll(() => element(name).getAttribute("aria-label")).not.toBe(here);
  const differing = text.split("\n").filter((line, index) => line !== from.split("\n")[index]);
  expect(differing.map((line) => line.trim().split(" ")[0])).toEqual([name]);
  return text;
}

/** Types a note in the script, as one step. */
async function typed(random: Random): Promise<string> {
  const lines = (await script()).split("\n");
  const note = `#${random.oneOf(["kiln", "shelf", "clay"])}`;
  await openFile(editor.page, "ladle.fettle");
  await goTo(editor.page, NOTE_LINE, 100);
  await type(editor.page, note);
  const text = lines.map((line, index) => (index === NOTE_LINE - 1 ? line + note : line)).join("\n");
  await expect.poll(script).toBe(text);
  return text;
}

/** Undo or redo, on the picture or in the script. */
async function step(keys: "Control+z" | "Control+Shift+z", random: Random): Promise<string> {
  const from = await script();
  if (random.onceIn(2)) await openFile(editor.page, "ladle.fettle");
  else await element(ELEMENTS[0]!).focus();
  await editor.page.keyboard.press(keys);
  return changed(from);
}

async function hideAndShow(): Promise<void> {
  await runCommand(editor.page, "View: Toggle Primary Side Bar Visibility");
  await element("alerts").waitFor({ state: "hidden" });
  await runCommand(editor.page, "View: Toggle Primary Side Bar Visibility");
  await element("alerts").waitFor();
}

test("whatever is done in panel and script, both agree, and undo takes all of it back", { timeout: 0 }, async () => {
  const random = randomOf(SEED, ONLY ?? 0);
  const untilMs = performance.now() + lastsMsOr(14);
  /** The texts that were there, one for each step; `at` is the one that is there. */
  const texts = [await script()];
  let at = 0;
  let count = 0;
  const came = (text: string) => {
    texts.splice(++at, texts.length, text);
  };
  for (; performance.now() < untilMs; count++) {
    const act = random.below(8);
    if (act < 3) came(await moved(random));
    else if (act === 3) came(await typed(random));
    else if (act < 6 && at > 0) expect(await step("Control+z", random)).toBe(texts[--at]);
    else if (act === 6 && at < texts.length - 1) expect(await step("Control+Shift+z", random)).toBe(texts[++at]);
    else if (act === 7) await hideAndShow();
    expect(await script()).toBe(texts[at]);
  }
  console.log(`seed ${SEED}: ${count} acts in the editor, ${texts.length} texts`);
  const drawn = await labels();
  await hideAndShow();
  await expect.poll(labels).toEqual(drawn);
  while (at > 0) expect(await step("Control+z", random)).toBe(texts[--at]);
  expect(`${await script()}\n`).toBe(SCRIPT.replaceAll("\t", " "));
  await editor.page.locator(".tab.active:not(.dirty)", { hasText: "ladle" }).waitFor();
});
