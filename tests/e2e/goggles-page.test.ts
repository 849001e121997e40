/** Gestures on the picture against models that come when they like, as the editor may send them. */
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { FLASH } from "../../shared/draw/flash.ts";
import { BLANK_OPACITY } from "../../shared/draw/palette.ts";
import { USUAL_GRIDS } from "../../shared/protocol/osd.ts";
import type { OsdBeginnings } from "../../shared/protocol/osd-edit.ts";
import type { GogglesPicture, PanelElement, PanelModel } from "../../shared/protocol/panel.ts";
import type { FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { element, picture } from "../draw/samples.ts";
import { modelOf, openPanelPage, type PanelPage } from "./panel-page.ts";

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage();
});
afterAll(() => panel?.close());

const volts = element("pack-volts", 2, 13, "22.2V", { placed: "left+2, bottom-2" });
const amps = element("amps", 2, 5, "12.0A");
const mode = element("mode", 20, 2, "LEVEL");
const all = [volts, amps, mode];
const at = (one: PanelElement, column: number, row: number): PanelElement => ({ ...one, column, row });

let version = 0;
const show = async (elements: readonly PanelElement[], more: Partial<GogglesPicture> = {}, craft?: string) => {
  version++;
  await panel.post(modelOf(picture(elements, more), version, craft));
};
const drawn = (name: string) => panel.page.locator(`[data-element="${name}"]`);
const note = () => panel.page.locator("[data-part=note]");
const movesTold = async () =>
  (await panel.posted()).flatMap((message: FromPanel) => (message.kind === "osd" ? [message.gesture] : []));
const shiftOf = (name: string) => drawn(name).getAttribute("transform");

async function cell(column: number, row: number): Promise<[number, number]> {
  const sky = (await panel.page.locator(".sky").boundingBox())!;
  return [sky.x + ((column + 0.5) * sky.width) / 30, sky.y + ((row + 0.5) * sky.height) / 16];
}
async function drag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  await panel.page.mouse.move(...(await cell(...from)));
  await panel.page.mouse.down();
  await panel.page.mouse.move(...(await cell(...to)), { steps: 4 });
  await note().waitFor();
}

beforeEach(async () => {
  await show(all, {}, `Jug ${version}`);
  await panel.posted();
});

test("a drag goes on if a new model arrives meanwhile, and is sent as one message", async () => {
  await drag([3, 13], [12, 9]);
  expect(await note().textContent()).toContain("column 11, row 9");
  // Somebody moves it, and another into its way, in the script.
  const before = await panel.page.locator("[data-part=hatch]").getAttribute("d");
  await panel.post(modelOf(picture([at(volts, 4, 12), at(amps, 13, 9), mode]), 900, `Jug ${version - 1}`));
  await panel.page.getByText("shares cells with amps", { exact: true }).waitFor();
  expect(await panel.page.locator("[data-part=hatch]").getAttribute("d")).not.toBe(before);
  expect(await shiftOf("pack-volts")).toBe("translate(168 -101.25)");
  await panel.page.mouse.up();
  expect(await panel.posted()).toEqual([
    {
      kind: "osd",
      file: "file:///shed/jug 0.fettle",
      page: "osd",
      gesture: { kind: "move", element: "pack-volts", column: 11, row: 9 },
    },
  ]);
});

test("a drag ends where its element is gone, or another craft is drawn", async () => {
  await drag([3, 13], [12, 9]);
  await show([amps, mode], {}, `Jug ${version - 1}`);
  await note().waitFor({ state: "hidden" });
  await panel.page.mouse.up();
  await show(all);
  await drag([3, 13], [12, 9]);
  await show(all, {}, "Pitcher");
  await note().waitFor({ state: "hidden" });
  expect(await shiftOf("pack-volts")).toBeNull();
  await panel.page.mouse.up();
  expect(await movesTold()).toEqual([]);
});

test("what was dropped stays there, past a model from before, until one has it", async () => {
  const craft = `Jug ${version - 1}`;
  await drag([3, 13], [12, 9]);
  await panel.page.mouse.up();
  await show(all, {}, craft);
  expect(await shiftOf("pack-volts")).toBe("translate(216 -135)");
  await show([at(volts, 11, 9), amps, mode], {}, craft);
  expect(await shiftOf("pack-volts")).toBeNull();
});

test("what was dropped goes back where the models stay as they were", async () => {
  await drag([3, 13], [12, 9]);
  await panel.page.mouse.up();
  await show(all, {}, `Jug ${version - 1}`);
  await expect.poll(() => shiftOf("pack-volts")).toBeNull();
});

test("keys go on from where the element was put, also before the script has followed", async () => {
  const { keyboard } = panel.page;
  const craft = `Jug ${version - 1}`;
  await drawn("amps").focus();
  await keyboard.press("ArrowRight");
  await expect.poll(movesTold).toEqual([{ kind: "move", element: "amps", column: 3, row: 5 }]);
  await keyboard.press("ArrowRight");
  await show([volts, at(amps, 3, 5), mode], {}, craft);
  expect(await shiftOf("amps")).toBe("translate(24 0)");
  await expect.poll(movesTold).toEqual([{ kind: "move", element: "amps", column: 4, row: 5 }]);
});

test("keys take an element to the edges, and letters go to another", async () => {
  const { keyboard } = panel.page;
  await drawn("amps").focus();
  for (const key of ["End", "PageDown", "m"]) await keyboard.press(key);
  // The focus has gone to the mode: the move is sent at once.
  expect(await movesTold()).toEqual([{ kind: "move", element: "amps", column: 25, row: 15 }]);
  await expect.poll(() => drawn("mode").evaluate((group) => group === document.activeElement)).toBe(true);
  await keyboard.press("Delete");
  expect(await movesTold()).toEqual([{ kind: "remove", element: "mode" }]);
});

test("whoever cannot drag moves the chosen element by presses, a run of which is one gesture", async () => {
  await drawn("amps").focus();
  for (const to of ["right", "right", "down"]) await panel.page.getByRole("button", { name: to }).click();
  expect(await shiftOf("amps")).toBe("translate(48 33.75)");
  await expect.poll(movesTold).toEqual([{ kind: "move", element: "amps", column: 4, row: 6 }]);
});

test("a finger drags as a mouse does, and what it takes hold of does not scroll away", async () => {
  const session = await panel.page.context().newCDPSession(panel.page);
  await session.send("Emulation.setTouchEmulationEnabled", { enabled: true });
  const point = async (column: number, row: number) => {
    const [x, y] = await cell(column, row);
    return [{ x, y }];
  };
  await session.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: await point(3, 13) });
  for (const row of [11, 9, 6])
    await session.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: await point(9, row) });
  await note().waitFor();
  await session.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await session.send("Emulation.setTouchEmulationEnabled", { enabled: false });
  expect(await movesTold()).toEqual([{ kind: "move", element: "pack-volts", column: 8, row: 6 }]);
});

test("a pen that hovers over an element will not scroll, over the sky it will", async () => {
  const touchAction = () => panel.page.locator(".picture").evaluate((frame) => getComputedStyle(frame).touchAction);
  await panel.page.mouse.move(...(await cell(3, 5)));
  await expect.poll(touchAction).toBe("none");
  await panel.page.mouse.move(...(await cell(15, 9)));
  await expect.poll(touchAction).toBe("auto");
});

test("an element that is off the grid can be taken hold of, and comes back whole", async () => {
  const craft = `Jug ${version - 1}`;
  await show([at(volts, 28, 13), amps, mode], {}, craft);
  await drag([28, 13], [27, 13]);
  expect(await note().textContent()).toContain("column 25, row 13");
  await panel.page.mouse.up();
  expect(await movesTold()).toEqual([{ kind: "move", element: "pack-volts", column: 25, row: 13 }]);
});

test("a preview can be looked at and pressed, and nothing in it moves", async () => {
  await show(all, { preview: { columns: 30, rows: 16, unplaced: ["sight", "heading"] } });
  await panel.page.getByText("There is no room for sight and heading.").waitFor();
  await panel.page.mouse.move(...(await cell(3, 13)));
  await panel.page.mouse.down();
  await panel.page.mouse.move(...(await cell(12, 9)), { steps: 4 });
  await panel.page.mouse.up();
  await drawn("amps").focus();
  await panel.page.keyboard.press("ArrowRight");
  expect(await shiftOf("amps")).toBeNull();
  expect(await panel.posted()).toEqual([]);
  await panel.page.keyboard.press("Enter");
  expect(await panel.posted()).toEqual([{ kind: "select", at: amps.at }]);
});

test("the viewer's own grid is offered where it is another, beside sizes without a name", async () => {
  const form = panel.page.getByText("Fit to another grid…");
  const own = panel.page.getByRole("button", { name: "The viewer's own, 53 × 20", exact: true });
  await show(all, { viewerGrid: { columns: 53, rows: 20 } });
  await form.click();
  await own.click();
  await panel.page.getByRole("group", { name: "Sizes in use" }).getByRole("button", { name: "60 × 22" }).click();
  const previews = (await panel.posted()).filter(({ kind }) => kind === "preview");
  expect(previews).toEqual([
    { kind: "preview", grid: { columns: 53, rows: 20 } },
    { kind: "preview", grid: { columns: 60, rows: 22 } },
  ]);
  await show(all, { viewerGrid: { columns: 30, rows: 16 } });
  expect(await panel.page.getByText("The viewer's own").count()).toBe(0);
  await show(all);
  expect(await panel.page.getByText("The viewer's own").count()).toBe(0);
});

test("a page that can be hidden can be seen bare", async () => {
  await show(all, { canHide: true });
  const bare = panel.page.getByRole("button", { name: "Bare picture" });
  await bare.click();
  expect(await drawn("amps").count()).toBe(0);
  expect(await bare.getAttribute("aria-pressed")).toBe("true");
  await bare.click();
  expect(await drawn("amps").count()).toBe(1);
});

test("with reduced motion in the editor nothing flashes, and what would has a mark of its own", async () => {
  await show([at({ ...volts, flashes: true }, 2, 13), amps, mode]);
  const plate = () =>
    drawn("pack-volts")
      .locator(".plate")
      .evaluate((rect) => getComputedStyle(rect).strokeDasharray);
  const flashes = () =>
    drawn("pack-volts").evaluate((group) =>
      group.getAnimations({ subtree: true }).map(({ effect }) => ({
        ms: effect?.getTiming().duration,
        frames: (effect as KeyframeEffect).getKeyframes().map(({ offset, opacity }) => [offset, opacity]),
      })),
    );
  const frames = [
    [0, "1"],
    [FLASH.shareOn, "0"],
    [1, "1"],
  ];
  expect(await flashes()).toEqual([{ ms: 1000 / FLASH.perSecond, frames }]);
  expect(await plate()).toBe("none");
  await panel.page.emulateMedia({ reducedMotion: "reduce" });
  expect(await flashes()).toEqual([]);
  await panel.page.emulateMedia({ reducedMotion: null });
  expect(await flashes()).toHaveLength(1);
  await panel.page.evaluate(() => document.body.classList.add("vscode-reduce-motion"));
  expect(await flashes()).toEqual([]);
  expect(await plate()).not.toBe("none");
  await panel.page.evaluate(() => document.body.classList.remove("vscode-reduce-motion"));
});

test("what shows nothing now is drawn as pale as in a file", async () => {
  await show([at({ ...volts, blank: true }, 2, 13), amps, mode]);
  const opacity = (name: string) =>
    drawn(name)
      .locator(".glyphs")
      .evaluate((glyphs) => getComputedStyle(glyphs).opacity);
  expect(await opacity("pack-volts")).toBe(String(BLANK_OPACITY));
  expect(await opacity("amps")).toBe("1");
});

test("undo in what is typed is the typing's own; elsewhere it is the script's", async () => {
  const { keyboard } = panel.page;
  await show(all, {
    addable: [{ name: "speed", what: "Speed over ground.", width: 6, height: 1, lacks: [], asks: [] }],
  });
  await panel.page.getByLabel("Add an element").focus();
  await keyboard.type("nothing of the sort");
  await panel.page.getByText("There is no such element to add.").waitFor();
  await keyboard.press("Enter");
  await keyboard.press("Control+z");
  expect(await panel.posted()).toEqual([]);
  await panel.page.getByRole("slider").focus();
  for (const keys of ["Control+z", "Control+y", "Control+Shift+z"]) await keyboard.press(keys);
  expect(await panel.posted()).toEqual([{ kind: "undo" }, { kind: "redo" }, { kind: "redo" }]);
});

test("undo cancels a move that has not been sent yet", async () => {
  const { keyboard } = panel.page;
  await drawn("amps").focus();
  await keyboard.press("ArrowRight");
  await keyboard.press("Control+z");
  expect(await shiftOf("amps")).toBeNull();
  expect(await panel.posted()).toEqual([]);
});

test("the magnifier follows the pointer and the focus, and what is dragged under it stays in the hand", async () => {
  const lens = panel.page.locator("[data-part=lens]");
  await panel.page.getByRole("button", { name: "Magnifier" }).click();
  await panel.page.mouse.move(...(await cell(3, 13)));
  await lens.waitFor();
  const shown = async () => lens.locator("svg").getAttribute("viewBox");
  const before = await shown();
  await drag([3, 13], [12, 9]);
  expect(await shown()).not.toBe(before);
  // The moving element is seen in it, where the pointer holds it.
  const [x, y] = await cell(12, 9);
  const box = (await lens.boundingBox())!;
  expect(x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height).toBe(true);
  await panel.page.mouse.up();
  expect(await movesTold()).toEqual([{ kind: "move", element: "pack-volts", column: 11, row: 9 }]);
  await panel.page.mouse.move(5, 5);
  await drawn("mode").focus();
  await lens.waitFor();
  const atMode = await shown();
  await panel.page.keyboard.press("ArrowDown");
  await expect.poll(shown).not.toBe(atMode);
  await panel.page.keyboard.press("-");
  await lens.waitFor({ state: "detached" });
  await panel.page.keyboard.press("+");
  await lens.waitFor();
  await panel.page.keyboard.press("-");
});

test("where letters are too small the picture gets larger, is scrolled, and elements are dragged where they are seen", async () => {
  const larger = panel.page.getByRole("button", { name: "Larger" });
  expect(await larger.count()).toBe(0);
  await panel.page.setViewportSize({ width: 190, height: 800 });
  await larger.click();
  const scrolled = panel.page.locator(".scrolled");
  await scrolled.evaluate((frame) => frame.scrollTo(60, 0));
  expect(await scrolled.evaluate((frame) => frame.scrollLeft)).toBeGreaterThan(10);
  const sky = (await panel.page.locator(".sky").boundingBox())!;
  expect(sky.width).toBeGreaterThan(190);
  const at = (column: number, row: number) =>
    [sky.x + ((column + 0.5) * sky.width) / 30, sky.y + ((row + 0.5) * sky.height) / 16] as const;
  await panel.posted();
  await panel.page.mouse.move(...at(21, 2));
  await panel.page.mouse.down();
  await panel.page.mouse.move(...at(19, 4), { steps: 4 });
  await note().waitFor();
  await panel.page.mouse.up();
  expect(await movesTold()).toEqual([{ kind: "move", element: "mode", column: 18, row: 4 }]);
  await larger.click();
  await panel.page.setViewportSize({ width: 420, height: 800 });
  await larger.waitFor({ state: "detached" });
});

const model = (more: Partial<PanelModel>): ToPanel => {
  const sent = modelOf(picture([]), ++version);
  return sent.kind === "model" ? { kind: "model", model: { ...sent.model, ...more } } : sent;
};

test("a page that shows nothing begins with one press, from whatever there is", async () => {
  const begin: OsdBeginnings = {
    page: "osd",
    lacks: "page",
    grids: [{ columns: 53, rows: 20 }],
    layers: [{ file: "file:///shed/wide.fettle", name: "Wide", columns: 53, rows: 20 }],
    crafts: ["Mug", "Vase", "Urn"].map((name) => ({ file: `file:///shed/${name}`, name, columns: 30, rows: 16 })),
  };
  await panel.post(model({ goggles: null, noGoggles: "Nothing is placed on the OSD yet.", begin }));
  const press = (name: string | RegExp) => panel.page.getByRole("button", { name, exact: true }).click();
  await press("Begin an OSD, 53 × 20");
  await press("Use the layer “Wide”, 53 × 20");
  await press("Copy that of Mug, 30 × 16");
  await press("1 more…");
  const gestures = (await panel.posted()).map((message) => (message.kind === "osd" ? message.gesture : message));
  expect(gestures).toEqual([
    { kind: "begin", from: { kind: "usual", columns: 53, rows: 20 } },
    { kind: "begin", from: { kind: "layer", file: "file:///shed/wide.fettle" } },
    { kind: "begin", from: { kind: "craft", file: "file:///shed/Mug" } },
    { kind: "run", action: { name: "begin-osd", page: "osd" } },
  ]);
  await panel.post(model({ begin: { ...begin, grids: USUAL_GRIDS } }));
  await panel.page.getByRole("group", { name: "Begin an OSD for a viewer that draws" }).waitFor();
  await press("30 × 13, ntsc");
  expect(await panel.posted()).toMatchObject([{ gesture: { from: { columns: 30, rows: 13 } } }]);
});

test("what an element lacks is said with its repair, and before it is added", async () => {
  const way = { label: "Say that port4 serves gps", action: { name: "fill-in", file: "x", what: "port gps" } } as const;
  const fault = {
    code: "port-missing",
    severity: "error",
    message: "It needs a port.",
    marked: true,
    ways: [way],
  } as const;
  await show([{ ...volts, faults: [fault] }, { ...amps, faults: [fault] }, mode], {
    addable: [{ name: "speed", what: "Speed.", width: 6, height: 1, lacks: ["a satellite receiver"], asks: [] }],
  });
  await panel.posted();
  expect(await panel.page.locator(".fault").count()).toBe(2);
  // Once for both, and once still when one of them is chosen.
  await panel.page.getByRole("button", { name: way.label }).click();
  expect(await panel.posted()).toEqual([{ kind: "run", action: way.action }]);
  await drawn("amps").focus();
  expect(await panel.page.getByRole("button", { name: way.label }).count()).toBe(1);
  await panel.page.getByLabel("Add an element").fill("speed");
  await panel.page.getByText("It needs a satellite receiver, which this craft does not have.").waitFor();
});

test("a server that does not answer is said, and started again from there", async () => {
  await panel.post({ kind: "failed" });
  await panel.page.getByRole("alert").getByText("does not answer").waitFor();
  await panel.posted();
  await panel.page.getByRole("button", { name: "Restart it" }).click();
  expect(await panel.posted()).toEqual([{ kind: "run", action: { name: "restart-server" } }]);
  await show(all);
  await panel.page.getByRole("alert").waitFor({ state: "detached" });
});

test("nothing went wrong in the page", () => {
  expect(panel.errors).toEqual([]);
});
