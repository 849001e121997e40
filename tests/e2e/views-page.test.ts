/** Switches and packs in the page by itself, with the models that the core makes of a craft: pointer, wheel and keys. */
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { panelOf } from "../../shared/ide/panel/panel.ts";
import type { ControlsAt } from "../../shared/protocol/panel.ts";
import { atCursor } from "../ide/cursor.ts";
import { openPanelPage, type PanelPage } from "./panel-page.ts";

const CRAFT = `craft "Jug"

use "wheel.fettle"

modes
  arm       when TL is down and TR is not down
  level     when TR is mid
  recorder  when arm
  lights    when KN above 1700 us

safety
  arm-throttle-limit  1050 us
  arm-tilt-limit      25 deg

adjust
  overall  follows KN from 0.85 to 1.15
`;

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage({ width: 420, height: 700 });
});
afterAll(() => panel?.close());

const { workspace, file } = atCursor(CRAFT);
let version = 0;
let positions: ControlsAt = {};
/** Answers as the host would: the model for the positions that the page sent last. */
async function answer(): Promise<void> {
  for (const message of await panel.posted()) if (message.kind === "positions") positions = message.positions;
  version++;
  await panel.post({ kind: "model", model: panelOf(workspace, file, version, { positions, view: "switches" }) });
}
const knob = () => panel.page.getByRole("slider", { name: "KN," });
const valueText = async () => {
  await answer();
  return knob().getAttribute("aria-valuetext");
};
const status = () => panel.page.getByRole("status").textContent();
/** A point around the knob, by the hour of a clock; at `far` of its radius. */
async function atHour(hour: number, far = 0.8): Promise<[number, number]> {
  await knob().scrollIntoViewIfNeeded();
  const circle = (await knob().locator("circle").first().boundingBox())!;
  const rad = (hour * Math.PI) / 6;
  const [x, y, radius] = [circle.x + circle.width / 2, circle.y + circle.height / 2, circle.width / 2];
  return [x + far * radius * Math.sin(rad), y - far * radius * Math.cos(rad)];
}

const screenshotOf = (name: string) => panel.page.screenshot({ path: inProject(".cache/screenshots", `${name}.png`) });

beforeEach(async () => {
  positions = {};
  await panel.posted();
  await panel.page.waitForTimeout(0);
  await answer();
  await panel.page.getByRole("tab", { name: "Switches" }).click();
  await knob().waitFor();
  await panel.page.getByRole("button", { name: "Everything to rest" }).click();
  await answer();
});

test("a dial that nobody has set says so, and what it may be", async () => {
  expect(await valueText()).toBe("not set, may stand anywhere: overall 0.85 to 1.15");
  expect(await status()).toContain("KN may stand anywhere: overall from 0.85 to 1.15.");
});

test("a drag follows the pointer, stops at the stop, and Escape takes it back", async () => {
  const { mouse, keyboard } = panel.page;
  await mouse.move(...(await atHour(0)));
  await mouse.down();
  expect(await valueText()).toBe("1500 us: overall 1");
  await mouse.move(...(await atHour(3)), { steps: 4 });
  // The words above take fewer lines now, so the knob has moved a little under the pointer.
  expect(await valueText()).toMatch(/^18\d\d us: overall 1\.\d+; lights on now$/);
  // Over the card's edge, and through the gap at the bottom.
  await mouse.move(...(await atHour(5.5, 3)), { steps: 4 });
  await mouse.move(...(await atHour(7, 3)), { steps: 4 });
  expect(await valueText()).toBe("2000 us: overall 1.15; lights on now");
  await keyboard.press("Escape");
  expect(await valueText()).toBe("not set, may stand anywhere: overall 0.85 to 1.15");
  await mouse.move(...(await atHour(3)));
  expect((await panel.posted()).filter(({ kind }) => kind === "positions")).toEqual([]);
  await mouse.up();
});

test("the wheel turns it by steps, and leaves the page where it is", async () => {
  const { mouse } = panel.page;
  await mouse.move(...(await atHour(0)));
  await mouse.wheel(0, -120);
  await expect.poll(valueText).toBe("1520 us: overall 1.006");
  const before = await panel.page.evaluate(() => window.scrollY);
  await mouse.wheel(0, -120);
  await mouse.wheel(0, -120);
  await expect.poll(valueText).toBe("1560 us: overall 1.018");
  expect(await panel.page.evaluate(() => window.scrollY)).toBe(before);
});

test("all keys of a slider; Home is the dial's, and on a switch everything's", async () => {
  const { keyboard } = panel.page;
  await panel.page.getByRole("radio", { name: "mid" }).click();
  await answer();
  await knob().focus();
  for (const [key, said] of [
    ["End", "2000 us: overall 1.15; lights on now"],
    ["PageDown", "1350 us: overall 0.955"],
    ["ArrowRight", "1370 us: overall 0.961"],
    ["Shift+ArrowLeft", "1369 us: overall 0.961"],
    ["Home", "1000 us: overall 0.85"],
    ["ArrowDown", "1000 us: overall 0.85"],
  ] as const) {
    await keyboard.press(key);
    expect(await valueText(), key).toBe(said);
  }
  expect(positions).toMatchObject({ TR: "mid", KN: 1000 });
  await panel.page.getByRole("radio", { name: "mid" }).focus();
  await keyboard.press("Home");
  await answer();
  expect(positions).toEqual({});
});

test("no key of a quick run is lost, though no model has come yet", async () => {
  const { keyboard } = panel.page;
  await knob().focus();
  for (let press = 0; press < 10; press++) await keyboard.press("ArrowUp");
  expect(await valueText()).toBe("1700 us: overall 1.06");
});

test("what is on and what can be: by a mark, by weight and in words", async () => {
  const { page } = panel;
  const down = page.getByRole("radio", { name: "down" }).first();
  expect(await down.getAttribute("aria-label")).toBe("down: can turn on arm and recorder");
  expect(await down.locator(".can-line").count()).toBe(1);
  await down.click();
  await answer();
  expect(await down.getAttribute("aria-label")).toBe("down: arm and recorder on now");
  expect([await down.locator(".on-bar").count(), await down.locator(".can-line").count()]).toEqual([1, 0]);
  const weight = (of: string) =>
    down
      .locator(of)
      .first()
      .evaluate((node) => getComputedStyle(node).fontWeight);
  expect(await weight(".on-name")).toBe("600");
});

test("what keeps it from arming stays in sight, short, and folds out; also in a narrow and low window", async () => {
  const { page } = panel;
  const sight = page.locator(".in-sight");
  const top = async (of: ReturnType<typeof page.locator>) => (await of.boundingBox())!.y;
  const ready = page.getByRole("region", { name: "What keeps it from arming" });
  expect(await ready.textContent()).toContain("arm is off here");
  expect(await top(ready)).toBeLessThan(await top(page.locator("svg.switches")));
  // The last two as at 200 % zoom; there less is kept in sight.
  for (const [width, height, share] of [
    [420, 700, 0.46],
    [250, 600, 0.46],
    [250, 300, 0.35],
    [125, 300, 0.46],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    const kept = height > 480 ? sight : ready;
    const box = (await kept.boundingBox())!;
    expect(box.y, `${width} x ${height}`).toBeCloseTo(0, 0);
    await screenshotOf(`switches-page-${width}-${height}`);
    expect(box.height, `${width} x ${height}`).toBeLessThan(height * share);
    await page.evaluate(() => window.scrollTo(0, 0));
  }
  const more = ready.getByRole("button", { name: "and 2 more that may" });
  expect(await more.getAttribute("aria-expanded")).toBe("false");
  await more.click();
  expect(await ready.getByRole("listitem").allTextContents()).toEqual([
    expect.stringContaining("May: The throttle must be below 1050 us"),
    expect.stringContaining("May: The craft must be tilted by 25 deg at most"),
  ]);
  expect((await ready.boundingBox())!.height).toBeLessThan(300 * 0.46);
  await more.click();
  await page.setViewportSize({ width: 420, height: 700 });
});

test("of hundreds of packs the worst is drawn, and any other is found and opened by keys", async () => {
  const { page } = panel;
  const packs = Array.from({ length: 500 }, (_, i) => {
    const land = i === 321 ? "  land-at  3.9 V/cell\n" : "";
    return `pack "P${i}"\n  capacity  ${900 + i} mAh\n${land}\n`;
  });
  const jug = atCursor(
    `craft "Jug"\n\npack\n  chemistry  lipo\n  cells  6\n  warn-at  3.5 V/cell\n\n${packs.join("")}`,
  );
  const model = panelOf(jug.workspace, jug.file, 900, { view: "numbers" });
  await panel.post({ kind: "model", model });
  await page.getByRole("tab", { name: "Numbers" }).click();
  await page.getByText("501 packs, 1 of them with an error or a warning").waitFor();
  expect(await page.locator("svg.pack").count()).toBe(2);
  expect(await page.getByRole("heading", { name: "P321" }).count()).toBe(1);
  expect(await page.locator("*").count()).toBeLessThan(400);
  await page.getByLabel("Find a pack").focus();
  await page.keyboard.type("p44 mah");
  await page.getByText("11 packs found.").waitFor();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "P44, 6 cells, 944 mAh", expanded: true }).waitFor();
  expect(await page.locator("svg.pack").count()).toBe(3);
  await screenshotOf("numbers-page-packs");
  // Another view, and back: what was found and opened is still there.
  await page.getByRole("tab", { name: "Switches" }).click();
  await page.getByRole("tab", { name: "Numbers" }).click();
  expect(await page.getByLabel("Find a pack").inputValue()).toBe("p44 mah");
  expect(await page.locator("svg.pack").count()).toBe(3);
  // The pack at the cursor comes first.
  await panel.post({ kind: "cursor", at: model.numbers!.packs[200]!.at });
  await page.getByRole("heading", { name: "P199" }).waitFor();
});

test("a text, a file and an address that are dropped on the page are handed over, and a link is not", async () => {
  const { page } = panel;
  const drop = (what: {
    readonly texts?: Readonly<Record<string, string>>;
    readonly file?: readonly [string, string];
  }) =>
    page.evaluate(({ texts = {}, file }) => {
      const dataTransfer = new DataTransfer();
      for (const [type, text] of Object.entries(texts)) dataTransfer.setData(type, text);
      if (file) dataTransfer.items.add(new File([file[1]], file[0]));
      const event = (name: string) => new DragEvent(name, { dataTransfer, bubbles: true, cancelable: true });
      const isTaken = !document.body.dispatchEvent(event("dragover"));
      const isMarked = document.body.classList.contains("dropping");
      document.body.dispatchEvent(event("drop"));
      return [isTaken, isMarked, document.body.classList.contains("dropping")];
    }, what);
  const handedOver = async () =>
    (await panel.posted()).flatMap((message) => (message.kind === "dropped" ? [message.what] : []));
  await panel.posted();
  expect(await drop({ texts: { "text/plain": "arm when TR is up" } })).toEqual([true, true, false]);
  await drop({ file: ["bram.txt", "warn-at 3.6 V/cell"] });
  await expect
    .poll(() => panel.page.evaluate(() => (window as unknown as { posted: unknown[] }).posted.length))
    .toBe(2);
  expect(await handedOver()).toEqual([
    { kind: "text", text: "arm when TR is up", name: "the dropped text" },
    { kind: "text", text: "warn-at 3.6 V/cell", name: "bram.txt" },
  ]);
  const mug = "file:///shed/mug.fettle";
  await drop({ texts: { "text/uri-list": `# from the explorer\r\n${mug}\r\n`, "text/plain": "/shed/mug.fettle" } });
  await drop({ texts: { "text/uri-list": "https://example.test/mug" } });
  expect(await handedOver()).toEqual([{ kind: "file", uri: mug }]);
  // What is of no use here is left to whoever wants it.
  expect(await drop({ texts: { "application/json": "{}" } })).toEqual([false, false, false]);
});

test("nothing has gone wrong in the page", () => {
  expect(panel.errors).toEqual([]);
});
