/** A board's text in the real editor: its lines are named, read into a script and reviewed, and what was adopted goes back. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { askBy, type Editor, openInFirstGroup, quickInput, runCommand, startEditor, waitForLine } from "../editor.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "../looks.ts";
import { execute } from "../start.ts";

const wheel = `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
`;
const jug = `craft "Jug"

use "wheel.fettle"

board
  dialect  "jug-board-dialect.fettle"
  text     "jug-board.txt"

pack
  chemistry   lipo
  cells       6
  capacity    1300 mAh
  warn-at     3.5 V/cell
  land-at     3.3 V/cell

link
  lost-after  300 ms
`;
/** As the board wrote it, after the pilot has changed two things on it. */
const board = `kiln log of the east shed
~ stoked by Wren
shelves 6
bell at 180, doors at 165
clay 1300 spoons
ash is cold after 300
shelves a few
glaze is celadon
end of log
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files: { "jug.fettle": jug, "wheel.fettle": wheel, "jug-board.txt": board },
    open: ["jug.fettle", "jug-board.txt"],
  });
  await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
});
afterAll(() => editor?.close());

const rows = () => editor.page.locator(".quick-input-list .monaco-list-row");
const lens = (text: string | RegExp) => editor.page.locator(".codelens-decoration", { hasText: text });
const review = () => webview(editor.page, "tab");

/** A file in the group of editors in which the texts stand; the dialect has the one beside. */
const open = (path: string, line = 1) => openInFirstGroup(editor.page, path, line);

/** Names the line by words for our name; the value is the craft's unless it is said. */
async function name(line: number, words: string, named: string, fact: string, value?: string) {
  const { page } = editor;
  await open("jug-board.txt", line);
  await askBy(page, "Fettle: Name This Line…", page.locator(".quick-input-title", { hasText: `Name line ${line}` }));
  await quickInput(page).fill(words);
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: named }).waitFor();
  if (line === 3) await screenshot(page, "board-name");
  await quickInput(page).press("Enter");
  await page.locator(".quick-input-message", { hasText: "as a script writes it" }).waitFor();
  if (value !== undefined) await quickInput(page).fill(value);
  await quickInput(page).press("Enter");
  await rows().filter({ hasText: fact }).first().waitFor();
  if (line === 4) await screenshot(page, "board-offers");
  await rows().filter({ hasText: fact }).first().click();
}

test("five lines are named; the dialect stands beside, and the states follow", async () => {
  const { page } = editor;
  await name(3, "how many cells", "pack cells", '"shelves {c}"');
  await lens("1 line understood, 1 odd").waitFor();
  await page.locator('.tab[data-resource-name="jug-board-dialect.fettle"]').waitFor();
  await name(4, "low battery warning", "pack warn-at", '"bell at {w:cell-voltage}, doors at 165"', "3.6 V/cell");
  await name(4, "land-at", "pack land-at", '"bell at {w}, doors at {l}"');
  await name(5, "capacity", "pack capacity", '"clay {c} spoons"');
  await name(6, "lost-after", "link lost-after", '"ash is cold after {l}"');
  await lens("4 lines understood, 1 odd, 4 kept").waitFor();
  await open("jug-board.txt", 4);
  await screenshot(page, "board-named-light");
});

test("a line says in our words what it means, and leads to the fact and to the craft's line", async () => {
  const { page } = editor;
  await page.locator(".view-line", { hasText: "bell at" }).first().hover();
  const hover = page.locator(".monaco-hover:visible", { hasText: "180" });
  await hover.getByText("3.6 V/cell").first().waitFor();
  await screenshot(page, "board-hover");
  await page.keyboard.press("Escape");
});

test("the text is read into a script beside it, with the lines that nobody named", async () => {
  const { page } = editor;
  await open("jug-board.txt", 1);
  await askBy(page, "Fettle: Read into a Script…", rows().filter({ hasText: "No handset" }));
  await rows().filter({ hasText: "No handset" }).click();
  await page.locator(".tab.active", { hasText: "jug-board.fettle" }).waitFor();
  await waitForLine(page, "|glaze is celadon");
  await screenshot(page, "board-read");
  await page.keyboard.press("Control+w");
  await page.locator(".tab", { hasText: "jug-board.fettle" }).waitFor({ state: "hidden" });
});

test("it is reviewed against the craft, one line is adopted, and the board's text has nothing to change then", async () => {
  const { page } = editor;
  await open("jug-board.txt", 1);
  await askBy(page, "Fettle: Review This Text against a Craft…", rows().filter({ hasText: "jug.fettle" }));
  // The script that was read a moment ago names the text as well.
  await rows().filter({ hasText: "jug.fettle" }).click();
  await page.locator(".tab", { hasText: "Review: Jug" }).waitFor();
  await review().getByRole("checkbox", { name: "warn-at" }).waitFor();
  await screenshot(page, "board-review");
  expect(await violations(page, "tab")).toEqual([]);
  // What was told of the text that was read lies over the button, for some eight seconds.
  await execute(page, "notifications.clearAll", {});
  await review().getByRole("button", { name: "Adopt one line" }).click();
  await review().getByText("Adopted into Jug: pack.warn-at").waitFor();
  await open("jug.fettle", 14);
  await waitForLine(page, /warn-at\s+3\.6\sV/);
});

test("what is changed in the craft goes back as that line and no other", async () => {
  const { page } = editor;
  await open("jug.fettle", 12);
  await page.keyboard.press("Home");
  await page.keyboard.press("Shift+End");
  await page.keyboard.type("capacity    1500 mAh");
  await waitForLine(page, /capacity\s+1500/);
  await runCommand(page, "Fettle: Copy What Changed for the Board");
  await rows().first().waitFor();
  await screenshot(page, "board-copy");
  await page.keyboard.press("Enter");
  await page.locator(".notifications-toasts", { hasText: "is copied" }).waitFor();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe("clay 1500 spoons\n");
});

test("states and words are read well in every theme", async () => {
  const { page } = editor;
  for (const theme of Object.keys(themes).filter((each) => each !== "light") as Theme[]) {
    await useTheme(page, theme);
    await open("jug-board.txt", 4);
    await lens("lines understood").waitFor();
    await screenshot(page, `board-named-${theme}`);
  }
});
