/** The fleet in the page by itself, over hand-made craft: what is read, what the keys do, how it scrolls, how it looks. */
import { afterAll, beforeAll, expect, test } from "vitest";
import type { FromFleetTab, ToFleetTab } from "../../shared/protocol/fleet-messages.ts";
import { handMadeFleet } from "./hand-made-fleet.ts";
import { pageViolations, screenshot, type Theme, themes } from "./looks.ts";
import { openPage, type PageByItself, wear } from "./panel-page.ts";

let fleet: PageByItself<ToFleetTab, FromFleetTab>;
beforeAll(async () => {
  fleet = await openPage("fleet", { width: 1000, height: 800 });
  await fleet.post({ kind: "about", about: { of: "workspace" } });
});
afterAll(() => fleet?.close());

const focused = () =>
  fleet.page.evaluate(() => {
    const { textContent, dataset } = document.activeElement as HTMLElement;
    return `${dataset.at}: ${textContent}`;
  });
const press = async (...keys: string[]) => {
  for (const key of keys) await fleet.page.keyboard.press(key);
};
const choose = (table: string) => fleet.page.getByLabel("Table").selectOption({ label: table });

test("waits, then shows every craft with what is other than on most", async () => {
  await fleet.page.getByRole("heading", { name: "Reading the fleet…" }).waitFor();
  await fleet.post({ kind: "result", result: handMadeFleet(8, 60) });
  await fleet.page.getByText("8 craft, 5 columns.").waitFor();
  const grid = fleet.page.getByRole("grid", { name: "Controls of “Wheel”" });
  expect(await grid.getByRole("columnheader").allTextContents()).toEqual([
    "Craft",
    ...["TL", "TR", "FL", "PB", "KN"].map((name) => `${name}, left shoulder`),
  ]);
  expect(await grid.getByRole("rowheader").count()).toBe(8);
  expect(await grid.getByRole("gridcell", { name: / else \(most have: / }).count()).toBeGreaterThan(0);
  expect(await pageViolations(fleet.page, "all rules")).toEqual([]);
});

test("is gone through cell by cell; Enter leads to the line, Tab leaves the table", async () => {
  await fleet.page.locator('[data-at="0,0"]').focus();
  await press("ArrowDown", "ArrowRight");
  expect(await focused()).toMatch(/^1,1: /);
  await press("End");
  expect(await focused()).toMatch(/^1,5: /);
  await press("Control+End");
  expect(await focused()).toMatch(/^8,5: /);
  await press("Home", "PageUp", "ArrowUp");
  expect(await focused()).toBe("0,0: Craft");
  await press("ArrowDown", "ArrowDown", "ArrowRight");
  await fleet.posted();
  await press("Enter", "ArrowLeft", "Enter");
  expect(await fleet.posted()).toEqual([
    { kind: "open", at: { file: "file:///shed/craft/1.fettle", line: 4 } },
    { kind: "open", at: { file: "file:///shed/craft/1.fettle", line: 0 } },
  ]);
  await press("Tab");
  expect(await focused()).toBe("undefined: Change a habit everywhere…");
  await press("Shift+Tab");
  expect(await focused()).toBe("2,0: Jug");
});

test("shows what is searched for, and what differs, and says how much that is", async () => {
  await fleet.page.getByLabel("Find a craft").fill("ja");
  await fleet.page.getByText("No craft has all of these words in its name.").waitFor();
  await fleet.page.getByLabel("Find a craft").fill("u");
  await fleet.page.getByText("2 of 8 craft, 5 columns.").waitFor();
  await fleet.page.getByLabel("Find a craft").fill("");
  await choose("Layers");
  await fleet.page.getByLabel("Only what differs").check();
  await fleet.page.getByText(/^\d of 8 craft, (?:one|2) columns?\./).waitFor();
  await fleet.page.getByLabel("Only what differs").uncheck();
  await choose("Video");
  await fleet.page.getByText("are 20 MHz apart, and overlap").waitFor();
  await fleet.page.getByText("Jug: from 5820 MHz to 5880 MHz").waitFor();
});

test("a thousand craft stand as a few rows, of which a reader knows the place, and none is lost", async () => {
  await fleet.post({ kind: "result", result: handMadeFleet(1000, 60) });
  await choose("Settings");
  await fleet.page.getByText("1000 craft, 60 columns.").waitFor();
  const grid = fleet.page.getByRole("grid", { name: "Settings" });
  expect(await grid.getAttribute("aria-rowcount")).toBe("1001");
  expect(await grid.getAttribute("aria-colcount")).toBe("61");
  expect(await grid.locator("[data-at]").count()).toBeLessThan(2000);
  await fleet.page.locator('[data-at="1,0"]').focus();
  await press("Control+End");
  expect(await focused()).toMatch(/^1000,60: /);
  expect(await fleet.page.locator('[data-at="1000,60"]').isVisible()).toBe(true);
  expect(await fleet.page.locator("tr:has(:focus)").getAttribute("aria-rowindex")).toBe("1001");
  // Scrolled away by the wheel, the cell still has the keyboard and goes on from where it is.
  await fleet.page.locator(".fleet-grid").evaluate((box) => box.scrollTo(0, 0));
  await fleet.page.locator('[data-at="1,0"]').waitFor();
  await press("ArrowUp");
  expect(await focused()).toMatch(/^999,60: /);
});

test("scrolls smoothly", async () => {
  const timesMs = await fleet.page.evaluate(async () => {
    const box = document.querySelector(".fleet-grid")!;
    box.scrollTo(0, 0);
    const frames: number[] = [];
    let last = performance.now();
    for (let at = 0; at < 120; at++) {
      box.scrollTop += 97;
      if (at % 3 === 0) box.scrollLeft += 31;
      await new Promise(requestAnimationFrame);
      const now = performance.now();
      frames.push(now - last);
      last = now;
    }
    return frames.sort((a, b) => a - b);
  });
  // On a machine that has other work a frame may wait for its turn.
  expect(timesMs[60]).toBeLessThan(40);
});

test("stands in every theme, narrow and wide", async () => {
  for (const theme of Object.keys(themes) as Theme[]) {
    await wear(fleet.page, theme);
    for (const [name, width] of Object.entries({ wide: 1000, narrow: 250 })) {
      await fleet.page.setViewportSize({ width, height: 800 });
      await fleet.post({ kind: "result", result: handMadeFleet(12, 20) });
      await choose(name === "wide" ? "Settings" : "Controls of “Wheel”");
      expect(await pageViolations(fleet.page, "contrast")).toEqual([]);
      expect(await fleet.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      await screenshot(fleet.page, `fleet-${name}-${theme}`);
    }
  }
  expect(fleet.errors).toEqual([]);
});
