/** Two craft in the page by itself: both pictures, the switches before and after, by pointer and by keys. */
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { panelOf } from "../../shared/ide/panel/panel.ts";
import type { Scenario } from "../../shared/protocol/osd.ts";
import type { ControlsAt, ViewName } from "../../shared/protocol/panel.ts";
import { atCursor } from "../ide/cursor.ts";
import { withFile } from "../ide/panel/told-against.ts";
import { pageViolations, type Theme, themes } from "./looks.ts";
import { openPanelPage, type PanelPage, wear } from "./panel-page.ts";

const CRAFT = `craft "Jug"
use "wheel.fettle"
pack
  cells  4
  warn-at  3.5 V/cell
modes
  arm       when TL is down
  level     when TR is mid
  turtle    when TR is down
  recorder  when arm
  lights    when KN above 1700 us
rates
  roll  slope 200 deg/s  end 700 deg/s
osd
  grid          30 x 16
  pack-volts    at left+2, bottom-2
  flight-time   at right-2, bottom-1
  craft         at centre, top
  link-quality  at right-2, top+1
  alerts        at centre, middle+3
  sight         at centre, middle
`;
const FRIEND = CRAFT.replace('"Jug"', '"Saucer"')
  .replace("arm       when TL is down", "arm       when TL is down and TR is not down")
  .replace("turtle    when TR is down", "finder   when TR is down")
  .replace("above 1700", "above 1500")
  .replace("left+2, bottom-2", "left+6, bottom-5")
  .replace("link-quality  at right-2, top+1", "cell-volts  at left+1, top+1")
  .replace("middle+3", "middle-3")
  .replace("end 700", "end 900")
  .replace("3.5 V/cell", "3.4 V/cell");

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage({ width: 420, height: 900 });
});
afterAll(() => panel?.close());

const { workspace, file } = atCursor(CRAFT, { "saucer.fettle": FRIEND });
let version = 0;
let asked: { positions: ControlsAt; scenario: Scenario; compared: boolean; view: ViewName };

/** Answers as the host would: the model for what the page sent last. */
async function answer(): Promise<void> {
  for (const message of await panel.posted()) {
    if (message.kind === "positions") asked = { ...asked, positions: message.positions };
    if (message.kind === "look") asked = { ...asked, scenario: message.scenario };
    if (message.kind === "end-against") asked = { ...asked, compared: false };
  }
  version++;
  const against = asked.compared ? withFile(workspace, "/shed/saucer.fettle") : undefined;
  await panel.post({ kind: "model", model: panelOf(workspace, file, version, { ...asked, against }) });
}

const tab = async (name: string) => {
  await panel.page.getByRole("tab", { name }).click();
  asked = { ...asked, view: name.toLowerCase() as ViewName };
  await answer();
};
const there = () => panel.page.locator("[data-there]");
const side = (name: string) => panel.page.getByRole("button", { name, exact: true });

beforeEach(async () => {
  asked = { positions: {}, scenario: "mid-flight", compared: true, view: "goggles" };
  await panel.posted();
  await answer();
  await tab("Goggles");
  await side("Both").click();
});

test("both pictures: what is elsewhere there is outlined and told, the rest is not; ours can still be moved", async () => {
  const { page } = panel;
  expect(await there().evaluateAll((all) => all.map((each) => each.getAttribute("data-there")))).toEqual([
    "pack-volts",
    "alerts",
    "cell-volts",
  ]);
  expect(await page.getByRole("img", { name: /^pack-volts: / }).getAttribute("aria-label")).toBe(
    "pack-volts: there 4 columns to the right and 3 rows up, from left+2, bottom-2 to left+6, bottom-5",
  );
  const section = page.getByRole("region", { name: "4 elements are not in the same place" });
  expect(await section.getByRole("listitem").allTextContents()).toEqual([
    "pack-volts there 4 columns to the right and 3 rows up, from left+2, bottom-2 to left+6, bottom-5 line here line there",
    "link-quality only here, at right-2, top+1 line here",
    "alerts there 6 rows up, from centre, middle+3 to centre, middle-3 line here line there",
    "cell-volts only there, at left+1, top+1 line there",
  ]);
  expect((await page.getByRole("region", { name: "Comparison" }).textContent())!).toMatch(/^Here Jug → there Saucer/);
  await section.getByRole("button", { name: "alerts: the line there" }).click();
  expect(await panel.posted()).toContainEqual({ kind: "select", at: { file: "/shed/saucer.fettle", line: 19 } });
  await page.locator("[data-element=pack-volts]").focus();
  await page.keyboard.press("ArrowRight");
  await expect
    .poll(async () => (await panel.posted()).find(({ kind }) => kind === "osd"))
    .toMatchObject({
      gesture: { kind: "move", element: "pack-volts", column: 3, row: 13 },
    });
});

test("the pictures one by one, by keys; there nothing is moved; the moment of the flight is that of both", async () => {
  const { page } = panel;
  await side("There").focus();
  await page.keyboard.press("Enter");
  expect(await there().count()).toBe(0);
  expect(await page.locator("[data-element=cell-volts]").count()).toBe(1);
  expect(await page.getByRole("group", { name: "There: 6 elements on 30 by 16 cells" }).count()).toBe(1);
  await page.locator("[data-element=cell-volts]").focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Delete");
  expect((await panel.posted()).filter(({ kind }) => kind === "osd")).toEqual([]);
  await page.getByRole("slider", { name: "Moment of the flight" }).focus();
  await page.keyboard.press("Home");
  await answer();
  expect(asked.scenario).toBe("fresh-pack");
  await side("Here").click();
  expect([await there().count(), await page.locator("[data-element=cell-volts]").count()]).toEqual([0, 0]);
  await side("Both").click();
  expect(await there().count()).toBe(3);
});

test("the switches before and after: marks at changed positions, and the state on both sides", async () => {
  const { page } = panel;
  await tab("Switches");
  const status = page.getByRole("status");
  expect(await status.textContent()).toMatch(/^Armed on neither side\. Level on, on both sides\./);
  await page.getByRole("radio", { name: /^down: can turn on arm/ }).click();
  await page.getByRole("radio", { name: /^down: can turn on turtle/ }).click();
  await answer();
  expect(await status.textContent()).toMatch(/^Armed here, not armed there\. Turtle and recorder on here only\./);
  const down = page.getByRole("radio", { name: /^down: turtle on now/ });
  expect(await down.getAttribute("aria-label")).toBe(
    "down: turtle on now; turns on finder there only; turns on turtle here only",
  );
  expect(await down.locator(".change-mark").count()).toBe(1);
  const section = page.getByRole("region", { name: "From here to there" });
  expect((await section.getByRole("listitem").allTextContents()).slice(0, 2)).toEqual([
    "arm also needs TR not down line here line there",
    "turtle is gone: it was on with TR down line here",
  ]);
  await page.keyboard.press("l");
  expect(await status.textContent()).toContain("There: Signal lost.");
});

test("the numbers of both: what differs in sentences, and the rates in one chart", async () => {
  const { page } = panel;
  await tab("Numbers");
  await page.getByRole("heading", { name: "Rates here and there" }).waitFor();
  const words = page.locator(".numbers section").first().getByRole("listitem");
  expect(await words.allTextContents()).toEqual([
    expect.stringContaining("warn-at goes down from 3.5 V/cell to 3.4 V/cell"),
    expect.stringMatching(/roll/),
  ]);
});

test("a button ends the comparison, and everything is as before", async () => {
  const { page } = panel;
  await page.getByRole("button", { name: "End the comparison" }).focus();
  await page.keyboard.press("Enter");
  await answer();
  expect([await there().count(), await side("Both").count()]).toEqual([0, 0]);
  expect(await page.getByRole("region", { name: "Comparison" }).count()).toBe(0);
  expect(panel.errors).toEqual([]);
});

test("it is there to look at in every theme, wide and narrow", async () => {
  const { page } = panel;
  await page.getByRole("button", { name: "Both", exact: true }).waitFor();
  for (const theme of Object.keys(themes) as Theme[]) {
    await wear(page, theme);
    for (const view of ["Goggles", "Switches", "Numbers"]) {
      await tab(view);
      for (const width of theme === "dark" ? [420, 250] : [420]) {
        await page.setViewportSize({ width, height: 900 });
        const path = inProject(".cache/screenshots", `against-${view.toLowerCase()}-${theme}-${width}.png`);
        await page.screenshot({ path, fullPage: true });
        expect(await page.locator(".against").isVisible()).toBe(true);
        const labels = page.locator(".goggles-view .picture .there-label");
        const seen = await labels.evaluateAll((all) => all.map((each) => getComputedStyle(each).opacity));
        // Too small to read they would only hide what they stand on.
        if (view === "Goggles") expect(new Set(seen), `at ${width}`).toEqual(new Set([width === 250 ? "0" : "1"]));
      }
      const rules = theme === "light" ? "all rules" : "contrast";
      expect(await pageViolations(page, rules), `${view}, ${theme}`).toEqual([]);
    }
  }
});
