/** A change of several craft in the page by itself: what is chosen, what is left out, what cannot be, and how it looks. */
import { afterAll, beforeAll, expect, test } from "vitest";
import type { FromFleetChange, ToFleetChange } from "../../shared/protocol/fleet-change-messages.ts";
import { handMadeAlike, handMadeChange } from "./hand-made-change.ts";
import { pageViolations, screenshot, type Theme, themes } from "./looks.ts";
import { openPage, type PageByItself, wear } from "./panel-page.ts";

let tab: PageByItself<ToFleetChange, FromFleetChange>;
beforeAll(async () => {
  tab = await openPage("fleet-change", { width: 900, height: 800 });
});
afterAll(() => tab?.close());

const files = handMadeChange.craft.map(({ file }) => file);
const button = (name: string) => tab.page.getByRole("button", { name, exact: true });

test("each craft says what it becomes; what is left out is told to the host, and what is chosen written", async () => {
  await tab.page.getByRole("heading", { name: "Looking at every craft…" }).waitFor();
  expect(await tab.posted()).toEqual([{ kind: "ready", leftOut: null }]);
  await tab.post({ kind: "result", result: handMadeChange });
  await tab.page.getByText("2 craft to be changed, 1 craft left out.").waitFor();
  await tab.page.getByLabel("Tankard", { exact: true }).uncheck();
  await tab.page.getByLabel("Saucer", { exact: true }).check();
  await button("Change 2 craft").click();
  await button("Leave all out").click();
  await button("PB is held and not arm, the line of Jug").click();
  expect(await tab.posted()).toEqual([
    { kind: "choose", leftOut: [files[2], files[0]] },
    { kind: "choose", leftOut: [] },
    { kind: "apply", leftOut: [files[2]] },
    { kind: "choose", leftOut: files.slice(0, 3) },
    { kind: "open", at: handMadeChange.craft[1]!.lines[0]!.at },
  ]);
  expect(await tab.page.getByText("New error: “lights” and “lights-off”").isVisible()).toBe(true);
  await tab.page.getByText("Not to be changed: 1 craft").click();
  await tab.page.getByText("Flagon: “Flagon” has no control “TR”.").waitFor();
  expect(await pageViolations(tab.page, "all rules")).toEqual([]);
});

test("is gone through by arrow keys; what was written is told with the way back, and so is that nothing is left", async () => {
  await tab.page.getByLabel("Tankard", { exact: true }).focus();
  await tab.page.keyboard.press("ArrowDown");
  expect(await tab.page.evaluate(() => document.activeElement?.id)).toBe(`craft-${files[1]}`);
  await tab.post({ kind: "told", told: { message: "Changed on “Jug”.", undo: true } });
  await tab.posted();
  await button("Undo").click();
  expect(await tab.posted()).toEqual([{ kind: "undo" }]);
  await tab.post({ kind: "result", result: { kind: "refused", message: "No craft says “finder” so any more." } });
  await tab.page.getByText("No craft says “finder” so any more.").waitFor();
  await tab.page.getByText("Changed on “Jug”.").waitFor();
  await tab.post({ kind: "result", result: handMadeChange });
});

test("lines have boxes of their own: one that is taken in takes its craft in, a craft of which nothing is chosen all of it", async () => {
  await tab.post({ kind: "result", result: handMadeAlike });
  await tab.posted();
  const [tankard, saucer] = handMadeAlike.craft.map(({ file }) => file);
  await tab.page.getByLabel("yaw of rates differs").check();
  await tab.page.getByLabel("Saucer", { exact: true }).check();
  await tab.page.getByLabel("finder moves from PB held to TR down").nth(1).check();
  expect(await tab.posted()).toEqual([
    { kind: "choose", leftOut: [saucer, `${saucer} modes.finder`, `${saucer} osd.amps`] },
    { kind: "choose", leftOut: [`${tankard} rates.yaw`] },
    { kind: "choose", leftOut: [`${tankard} rates.yaw`, `${saucer} osd.amps`] },
  ]);
  expect(await pageViolations(tab.page, "all rules")).toEqual([]);
  await screenshot(tab.page, "fleet-change-alike");
});

test.each(Object.keys(themes) as Theme[])("in the %s theme, wide and at 250 px", async (theme) => {
  await wear(tab.page, theme);
  for (const [name, width] of Object.entries({ wide: 900, narrow: 250 })) {
    await tab.page.setViewportSize({ width, height: 800 });
    expect(await pageViolations(tab.page, "contrast")).toEqual([]);
    expect(await tab.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    await screenshot(tab.page, `fleet-change-${name}-${theme}`);
  }
  expect(tab.errors).toEqual([]);
});
