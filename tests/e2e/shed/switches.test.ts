/** The switches played with in the real editor: moved, lost, and set to what a finding shows. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { cursor, type Editor, openFile, runCommand, startEditor, type, waitForLine } from "../editor.ts";
import { applyQuickFix, quickFixes } from "../language.ts";
import { screenshot, type Theme, themes, useTheme, violations, webview } from "../looks.ts";
import { execute } from "../start.ts";

/** With two values beyond their limits, and a used file that is not there. */
const plate = `craft "Plate"

use "../handsets/wheel.fettle"
use "../layers/habits.fettle"
use "../layers/gone.fettle"

pack
  cells    99
  full-at  9 V/cell

osd
  grid        30 x 16
  pack-volts  at left+2, bottom-1
`;

/** It arms by another switch than the tankard, and has one element elsewhere. */
const beaker = `craft "Beaker"

use "../handsets/wheel.fettle"
use "../layers/habits.fettle"

modes
  drop arm
  arm  when TR is down

osd
  grid        53 x 20
  picture     16:9
  pack-volts  at left+7, bottom-2
`;
/** Line and column behind the 7. */
const AFTER_PLACE = [13, 24] as const;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("tests/fixtures/shed"),
    files: { "craft/plate.fettle": plate, "craft/beaker.fettle": beaker },
    open: ["craft/tankard.fettle"],
    views: ["fettle.panel"],
  });
});
afterAll(() => editor?.close());

const panel = () => webview(editor.page);
const status = () => panel().getByRole("status");
const tab = (name: string) => panel().getByRole("tab", { name });
const positions = (control: string) =>
  panel()
    .getByRole("radiogroup", { name: `${control},` })
    .getByRole("radio");
const mode = (name: string) => panel().getByRole("button", { name, exact: true });
/** Takes the finding's offer from the light bulb's list, by keyboard. */
async function showClash(): Promise<void> {
  expect(await quickFixes(editor.page, 8, 5)).toEqual([
    "Show it on the switches: mode-clash",
    "Accept this here, because… (mode-clash)",
    "Accept it in all of modes, because… (mode-clash)",
    "Accept it in this whole craft, because… (mode-clash)",
    "Accept it in a layer, because… (mode-clash)",
    "Extract a new layer…",
    "Change when video-high is on, on every craft…",
  ]);
  const row = ".action-widget .monaco-list-row.action.focused";
  await editor.page.locator(row, { hasText: "mode-clash" }).waitFor();
  await editor.page.keyboard.press("Enter");
}
/** What colours a whole line of the active editor from behind, beyond the cursor's own line. */
const marks = () => editor.page.locator(".editor-group-container.active .view-overlays [class*='ced-']");

test("a control moved by keys is read in words, and the lines behind it are marked until it is at rest", async () => {
  const { page } = editor;
  await openFile(page, "layers/habits.fettle");
  await tab("Switches").click();
  await expect.poll(() => status().textContent()).toContain("Not armed.");
  expect(await marks().count()).toBe(0);
  await positions("TL").first().focus();
  await page.keyboard.press("ArrowDown");
  await expect.poll(() => status().textContent()).toContain("Armed.");
  await expect.poll(() => marks().count()).toBeGreaterThan(0);
  await screenshot(page, "switches-marked");
  // Another view of the panel, and back; the panel hidden, and back.
  await tab("Goggles").click();
  await expect.poll(() => marks().count()).toBe(0);
  await tab("Switches").click();
  await expect.poll(() => marks().count()).toBeGreaterThan(0);
  await positions("TL").nth(1).focus();
  await page.keyboard.press("Home");
  await expect.poll(() => status().textContent()).toContain("Not armed.");
  await expect.poll(() => marks().count()).toBe(0);
});

test("what keeps it from arming is said, and the shortest way is a press away", async () => {
  await openFile(editor.page, "craft/tankard.fettle");
  await panel().getByText("arm is off here").waitFor();
  await panel().getByText("TL to down.").waitFor();
  await panel().getByRole("button", { name: "Go there" }).click();
  await expect.poll(() => status().textContent()).toContain("Armed.");
  await panel().getByText("nothing that is known here.").waitFor();
  await panel().getByRole("button", { name: "Everything to rest" }).click();
  await expect.poll(() => status().textContent()).toContain("Not armed.");
});

test("one key cuts the link and shows the effect on each mode, and restores it", async () => {
  const { page } = editor;
  await positions("TL").first().focus();
  await page.keyboard.press("l");
  await expect.poll(() => status().textContent()).toContain("Signal lost. The script does not say");
  const button = panel().getByRole("button", { name: "Signal lost" });
  expect(await button.getAttribute("aria-pressed")).toBe("true");
  await panel().getByText("on or off").first().waitFor();
  await screenshot(page, "switches-lost");
  await page.keyboard.press("l");
  await expect.poll(() => status().textContent()).toContain("Not armed.");
});

test("a mode in focus has the positions marked that give it, and says them", async () => {
  await mode("arm").focus();
  await expect.poll(() => panel().locator(".gives").count()).toBe(1);
  expect(await panel().locator(".gives").getAttribute("data-set")).toBe("down");
  const described = await mode("arm").getAttribute("aria-describedby");
  expect(await panel().locator(`[id="${described}"]`).textContent()).toContain("with TL down");
  await mode("arm").press("Enter");
  await editor.page.locator(".tab.active", { hasText: "habits.fettle" }).waitFor();
});

test("a clash is followed from the script to the switches", async () => {
  const { page } = editor;
  await openFile(page, "craft/vase.fettle");
  await page.locator(".editor-group-container.active .squiggly-error").first().waitFor();
  await tab("Goggles").click();
  await showClash();
  await expect.poll(() => positions("TR").nth(1).getAttribute("aria-checked")).toBe("true");
  expect(await tab("Switches").getAttribute("aria-selected")).toBe("true");
  await expect.poll(() => status().textContent()).toContain("Video-low, video-high");
  await screenshot(page, "switches-clash");
  await panel().getByRole("button", { name: "Everything to rest" }).click();
  await expect.poll(() => status().textContent()).toContain("Nothing on.");
  await panel().getByRole("button", { name: "Show it" }).first().click();
  await expect.poll(() => status().textContent()).toContain("Video-low, video-high");
});

test("a finding opens the switches also where the panel is not in view", async () => {
  const { page } = editor;
  await panel().getByRole("button", { name: "Everything to rest" }).click();
  await runCommand(page, "View: Show Explorer");
  await page.locator(".explorer-viewlet").waitFor();
  await showClash();
  await expect.poll(() => status().textContent()).toContain("Video-low, video-high");
});

test.each(["light", "dark", "high-contrast"] as Theme[])(
  "the accessibility rules hold in the %s theme",
  async (theme) => {
    const { page } = editor;
    await useTheme(page, theme);
    await panel().locator(`body.vscode-${theme}`).waitFor();
    await mode("arm").focus();
    expect(await violations(page)).toEqual([]);
    await screenshot(page, `switches-${theme}`);
  },
);

test("a missing part is told above each view, and what it may say of arming is not known", async () => {
  const { page } = editor;
  await openFile(page, "craft/plate.fettle");
  for (const name of ["Goggles", "Numbers", "Switches"]) {
    await tab(name).click();
    await panel().getByText("“../layers/gone.fettle” is missing: there is no such file.").waitFor();
  }
  await positions("TL").nth(1).click();
  await expect
    .poll(() => status().textContent())
    .toContain("Whether it is armed is not known: a part of the craft is missing.");
  for (const theme of Object.keys(themes) as Theme[]) {
    await useTheme(page, theme);
    await panel().locator(`body.vscode-${theme}`).waitFor();
    expect(await violations(page)).toEqual([]);
    await screenshot(page, `missing-part-${theme}`);
  }
  await panel().getByRole("button", { name: "Show line 5" }).first().click();
  await expect.poll(() => page.locator("#status\\.editor\\.selection").textContent()).toContain("Ln 5");
});

test("a finding is accepted where its reason is then typed: on its line, and in a layer", async () => {
  const { page } = editor;
  await openFile(page, "craft/plate.fettle", 8, 12);
  await page.locator(".editor-group-container.active .squiggly-error").first().waitFor();
  await applyQuickFix(page, 8, 12, /^Accept this here, because… \(out-of-range\)/);
  await expect.poll(() => cursor(page)).toEqual({ line: 8, column: 25 });
  await type(page, "a bench supply");
  await waitForLine(page, "  # allow out-of-range: a bench supply");
  await applyQuickFix(page, 10, 13, /^Accept it in a layer, because… \(out-of-range\)/);
  await screenshot(page, "accept-in-a-layer");
  await page
    .locator(".quick-input-list")
    .getByRole("option", { name: /^Habits \(\.\.\/layers\/habits\.fettle\)/ })
    .click();
  await page.locator(".tab.active", { hasText: "habits.fettle" }).waitFor();
  await expect.poll(async () => (await cursor(page))?.column).toBe("# allow out-of-range: ".length + 1);
  await screenshot(page, "accept-in-a-layer-written");
  await type(page, "the same");
  await waitForLine(page, "# allow out-of-range: the same");
  await openFile(page, "craft/plate.fettle", 10, 13);
  await page.locator(".editor-group-container.active .squiggly-error").nth(1).waitFor({ state: "detached" });
});

test("two craft in one panel: both states and both pictures, live, until the comparison ends", async () => {
  const { page } = editor;
  const address = (path: string) => `vscode-test-web://mount/${path}`;
  await openFile(page, "craft/tankard.fettle");
  await tab("Switches").click();
  await execute(page, "fettle.overlay", {
    mine: address("craft/tankard.fettle"),
    other: { kind: "file", uri: address("craft/beaker.fettle") },
  });
  await panel().getByRole("region", { name: "Comparison" }).waitFor();
  await panel().getByText("arm moves from TL down to TR down").waitFor();
  await positions("TL").nth(1).click();
  await expect.poll(() => status().textContent()).toContain("Armed here, not armed there.");
  expect(await violations(page)).toEqual([]);
  await screenshot(page, "against-switches");
  await tab("Goggles").click();
  await panel()
    .getByRole("img", { name: /^pack-volts: there 4 columns to the right/ })
    .waitFor();
  await panel().getByRole("button", { name: "pack-volts: the line there" }).click();
  await page.locator(".tab.active", { hasText: "beaker.fettle" }).waitFor();
  // A script by itself is drawn by itself; what is typed there is what is compared with.
  await panel().getByRole("region", { name: "Comparison" }).waitFor({ state: "detached" });
  await openFile(page, "craft/beaker.fettle", ...AFTER_PLACE);
  await page.keyboard.press("Backspace");
  await type(page, "9");
  await waitForLine(page, /left\+9/);
  await openFile(page, "craft/tankard.fettle");
  await panel()
    .getByRole("img", { name: /^pack-volts: there 6 columns to the right/ })
    .waitFor();
  await screenshot(page, "against-goggles");
  await panel().getByRole("button", { name: "End the comparison" }).click();
  await panel().getByRole("region", { name: "Comparison" }).waitFor({ state: "detached" });
});
