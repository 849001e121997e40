/** The bench list in the real editor: ticked, a reading and a day written into the script, undone. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { askBy, type Editor, openFile, quickInput, runCommand, startEditor, visibleLines } from "../editor.ts";
import { applyQuickFix, lens } from "../language.ts";
import { hasKeyboard, screenshot, useTheme, violations, webview } from "../looks.ts";

const wheel = `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;
const jug = `craft "Jug"

use "wheel.fettle"

board
  flashed-on  2026-03-14

modes
  arm    when TL is down
  level  when TR is mid

link
  order  roll pitch throttle yaw

bench
  order-checked      2026-02-01
  direction-checked  2026-02-02
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    files: { "jug.fettle": jug, "wheel.fettle": wheel },
    open: ["jug.fettle"],
    views: ["fettle.panel"],
  });
  await lens(editor.page, "Goggles").waitFor();
});
afterAll(() => editor?.close());

const list = () => webview(editor.page);
const status = () => list().getByRole("status").textContent();
/** The lines of the script, as they stand in the editor. */
const script = async () => (await visibleLines(editor.page)).join("\n");

test("by a command, what is due is shown; it is ticked by keys, a reading is written and undone", async () => {
  const { page } = editor;
  const { keyboard } = page;
  await runCommand(page, "Fettle: Show the Bench List");
  await list()
    .getByText(/Propellers OFF/)
    .waitFor();
  await expect.poll(() => hasKeyboard(page)).toBe(true);
  expect(await list().getByRole("checkbox", { name: "Only what is due" }).isChecked()).toBe(true);
  await list().getByRole("checkbox", { name: "Only what is due" }).uncheck();
  await list().getByRole("button", { name: "Unfold all" }).click();
  const field = list().getByRole("textbox", { name: /roll/ }).first();
  await field.waitFor();
  const first = list().locator(".step input[type=checkbox]").first();
  await first.focus();
  await keyboard.press(" ");
  await expect.poll(status).toMatch(/^1 of \d+ ticked\./);
  await field.focus();
  await keyboard.type("988 2012");
  await list().getByText("Reads as “988 us to 2012 us”").waitFor();
  await keyboard.press("Enter");
  await expect.poll(status).toContain("Written: “roll 988 us to 2012 us”.");
  await expect.poll(script).toContain("  roll               988 us to 2012 us");
  expect(await field.inputValue()).toBe("988 us to 2012 us");
  await keyboard.press("Control+z");
  await expect.poll(script).not.toContain("988 us");
  await expect.poll(() => hasKeyboard(page)).toBe(true);
  await expect.poll(() => field.inputValue()).toBe("");
  await keyboard.press("Control+Shift+z");
  await expect.poll(script).toContain("988 us to 2012 us");
  await expect.poll(() => hasKeyboard(page)).toBe(true);
});

test("once all of a check is ticked its day is written", async () => {
  const { page } = editor;
  const steps = list().locator(".step", { hasText: /stick|roll|pitch|yaw|throttle/i });
  for (const box of await steps.locator("input[type=checkbox]").all()) await box.check();
  const offer = list()
    .getByRole("button", { name: /^Write today as the day of the check: .*order/ })
    .first();
  await offer.click();
  const today = new Date();
  const day = `${today.getFullYear()}-${String(today.getMonth() + 1).padStart(2, "0")}-${String(today.getDate()).padStart(2, "0")}`;
  await expect.poll(status).toContain(`Written: “order-checked ${day}”.`);
  await expect.poll(script).toContain(`  order-checked      ${day}`);
  await expect.poll(() => offer.count()).toBe(0);
  await screenshot(page, "bench-list");
  expect(await violations(page)).toEqual([]);
});

test("a stale check leads to the list", async () => {
  const { page } = editor;
  await openFile(page, "jug.fettle");
  await applyQuickFix(page, 6, 17, "Show it on the bench list");
  await expect.poll(() => hasKeyboard(page)).toBe(true);
});

test("after a wipe what to do is shown beside the script, and the day of the new software is written", async () => {
  const { page } = editor;
  const { keyboard } = page;
  await openFile(page, "jug.fettle");
  await askBy(
    page,
    "Fettle: Put the Craft Back After a Wipe…",
    page.getByText("On which day does the board get its new software?"),
  );
  await quickInput(page).fill("2026-11-29");
  await quickInput(page).press("Enter");
  await page.getByText("Show what to do, and write “flashed-on 2026-11-29”").first().waitFor();
  await screenshot(page, "put-back-asked");
  await keyboard.press("Enter");
  await page.locator(".view-line", { hasText: "Put it back after a wipe: Jug" }).waitFor();
  await page.locator(".view-line", { hasText: /flashed-on\s+2026-11-29/ }).waitFor();
  for (const theme of ["high-contrast", "dark", "light"] as const) {
    await useTheme(page, theme);
    await screenshot(page, `put-back-${theme}`);
  }
});
