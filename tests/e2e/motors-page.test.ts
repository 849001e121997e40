/** The motors in the page by itself, over scripts that its gestures change: pointer, keys, tools, in every theme. */
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { motorEditOf } from "../../shared/ide/edits/motor-edit.ts";
import { panelOf } from "../../shared/ide/panel/panel.ts";
import { edited, shed, type Texts } from "../ide/edits/scripts-edited.ts";
import { craftOf } from "../rules/motors-in-short.ts";
import { pageViolations, type Theme, themes } from "./looks.ts";
import { openPanelPage, type PanelPage, wear } from "./panel-page.ts";

const JUG = "/shed/jug.fettle";
const X = "4 true-x: rl cw, fl acw, fr cw, rr acw";

let panel: PanelPage;
beforeAll(async () => {
  panel = await openPanelPage({ width: 360, height: 820 });
});
afterAll(() => panel?.close());

let texts: Texts;
let version = 0;
let selected: number[] = [];

/** Answers as the host would: makes the edits of the gestures that were posted, and sends the model of the script. */
async function answer(): Promise<void> {
  for (const message of await panel.posted()) {
    if (message.kind === "select") selected.push(message.at.line);
    if (message.kind !== "motor") continue;
    const made = motorEditOf(shed(texts), JUG, { gesture: message.gesture, where: "override" });
    if (made.kind === "edits")
      for (const { file, edits } of made.files) texts = { ...texts, [file]: edited(texts[file]!, edits) };
  }
  version++;
  await panel.post({ kind: "model", model: panelOf(shed(texts), JUG, version, { view: "numbers" }) });
}
async function show(script: string): Promise<void> {
  await panel.posted();
  texts = { [JUG]: script };
  selected = [];
  await answer();
}
/** The lines of the motors, without what does not differ. */
const motorLines = () => texts[JUG]!.split("\n").flatMap((line) => /^\s*(motor\d.*)$/.exec(line)?.[1] ?? []);
const motor = (number: number) => panel.page.getByRole("button", { name: `motor ${number},` });
async function middleOf(number: number): Promise<[number, number]> {
  await motor(number).scrollIntoViewIfNeeded();
  const box = (await motor(number).boundingBox())!;
  return [box.x + box.width / 2, box.y + box.height / 2];
}

beforeEach(async () => {
  await wear(panel.page, "light");
  await show(craftOf(X));
  await panel.page.getByRole("tab", { name: "Numbers" }).click();
  await motor(1).waitFor();
  await answer();
});

test("a motor that is dragged to a corner changes places with the one there", async () => {
  const { mouse } = panel.page;
  await mouse.move(...(await middleOf(1)));
  await mouse.down();
  const [x, y] = await middleOf(3);
  await mouse.move(x - 60, y + 40, { steps: 4 });
  await mouse.move(x + 3, y - 2, { steps: 4 });
  expect(await panel.page.locator(".motor-target").count()).toBe(1);
  await panel.page.screenshot({ path: inProject(".cache/screenshots/motors-page-held.png") });
  await mouse.up();
  // Drawn at once, before any model.
  const [nowX] = await middleOf(1);
  expect(Math.abs(nowX - x)).toBeLessThan(4);
  await answer();
  expect(motorLines().map((line) => line.split(" ")[2])).toEqual([
    "front-right",
    "front-left",
    "rear-left",
    "rear-right",
  ]);
  expect(await panel.page.getByRole("status").textContent()).toBe("motor 1, front right, clockwise.");
});

test("beside the frame it stays, Escape takes a drag back, and a press shows the line", async () => {
  const { mouse, keyboard } = panel.page;
  const before = motorLines();
  await mouse.move(...(await middleOf(1)));
  await mouse.down();
  const [x, y] = await middleOf(1);
  await mouse.move(x + 65, y - 55, { steps: 4 });
  await mouse.up();
  await answer();
  expect(motorLines()).toEqual(before);
  await mouse.move(x, y);
  await mouse.down();
  await mouse.move(...(await middleOf(2)), { steps: 4 });
  await keyboard.press("Escape");
  await mouse.up();
  await answer();
  expect(motorLines()).toEqual(before);
  await mouse.click(...(await middleOf(2)));
  await answer();
  expect(selected).toEqual([6]);
});

test("arrow keys, R and Enter; a quick run of keys loses none", async () => {
  const { keyboard } = panel.page;
  await motor(1).focus();
  await keyboard.press("ArrowUp");
  await keyboard.press("ArrowRight");
  await answer();
  expect(motorLines()[0]).toContain("place front-right");
  expect(
    motorLines()
      .map((line) => line.split(" ")[2])
      .sort(),
  ).toEqual(["front-left", "front-right", "rear-left", "rear-right"]);
  await keyboard.press("r");
  await answer();
  expect(motorLines()[0]).toContain("direction anticlockwise");
  expect(await motor(1).getAttribute("aria-label")).toContain("motor 1, front right, anticlockwise");
  // The focus is still where it was, on what moved.
  expect(await panel.page.evaluate(() => document.activeElement?.getAttribute("data-motor"))).toBe("1");
  await keyboard.press("Enter");
  await answer();
  expect(selected).toEqual([5]);
  await keyboard.press("ArrowRight");
  expect((await panel.posted()).filter(({ kind }) => kind === "motor")).toEqual([]);
});

test("a frame without motors is filled by keys from below it, and by the tools", async () => {
  await show(craftOf("4 true-x props-out: -"));
  const { page } = panel;
  await motor(1).focus();
  await page.keyboard.press("ArrowUp");
  await answer();
  expect(motorLines()).toEqual(["motor1 place rear-left"]);
  await motor(2).focus();
  await page.getByRole("combobox", { name: "Corner" }).selectOption("front-left");
  await answer();
  expect(motorLines()[1]).toBe("motor2 place front-left");
  await page.getByRole("button", { name: "clockwise", exact: true }).click();
  await answer();
  expect(motorLines()[1]).toBe("motor2 place front-left  direction clockwise");
  // With props-out it turns the other way there.
  await page.getByText("With props-out a motor at front-left turns anticlockwise").waitFor();
  await page.getByText("As a table").last().click();
  expect(await page.getByRole("table", { name: "Motors" }).getByRole("row").nth(2).textContent()).toContain(
    "2front leftclockwise",
  );
});

test("the motor of the cursor's line is marked and has the tools; one that cannot be read has none that writes", async () => {
  await show(craftOf("4 true-x: rl kettle, fl cw"));
  await panel.post({ kind: "cursor", at: { file: JUG, line: 6 } });
  expect(await motor(2).getAttribute("data-marked")).toBe("true");
  expect(await panel.page.locator(".chosen b").textContent()).toBe("motor 2");
  await motor(1).focus();
  expect(await panel.page.getByRole("combobox", { name: "Corner" }).count()).toBe(0);
  await panel.page.keyboard.press("ArrowUp");
  await answer();
  expect(motorLines()[0]).toContain("kettle");
});

const LOOKS: Readonly<Record<string, string>> = {
  x: "4 true-x props-in: rl acw 3, fl, fr acw 4, rr 2",
  plus: "4 plus: r cw, left acw, f cw, right acw",
  three: "3 tri: r cw, fl cw, fr acw",
  six: "6 hexagon: rl cw, left acw, fl cw, fr acw, right cw, rr acw",
  eight: "8 octagon: rl cw, lr acw, lf cw, fl acw, fr cw, rf acw, r-r cw, rr acw",
  stacked: "8 stacked: rl acw, fl cw, fr acw, rr cw, u-rl cw, u-fl acw, u-fr cw, u-rr acw",
  faults: "4 true-x: rl cw 1, fl acw 2, fl cw 2, rr cw 4",
  empty: "4 true-x props-out: -",
};

test.each(Object.keys(themes) as Theme[])("the %s theme: nothing against the rules of accessibility", async (theme) => {
  const { page } = panel;
  // Nothing of the theme before.
  await page.evaluate(() => document.documentElement.removeAttribute("style"));
  await wear(page, theme);
  for (const [name, short] of Object.entries(LOOKS)) {
    await show(craftOf(short));
    await motor(1).focus();
    await page.screenshot({ path: inProject(`.cache/screenshots/motors-page-${theme}-${name}.png`) });
    if (name === "x" || name === "faults") expect(await pageViolations(page, "all rules"), name).toEqual([]);
  }
});

test("at 250 px, and at 200 % of 360 px, nothing runs out of the page", async () => {
  const { page } = panel;
  for (const width of [250, 180]) {
    await page.setViewportSize({ width, height: 900 });
    for (const short of Object.values(LOOKS)) {
      await show(craftOf(short));
      await motor(1).focus();
      const wider = await page.evaluate(() =>
        [...document.querySelectorAll("body *")].flatMap((each) =>
          each.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5
            ? [each.outerHTML.slice(0, 80)]
            : [],
        ),
      );
      expect(wider, `${short} at ${width}`).toEqual([]);
    }
    await page.screenshot({ path: inProject(`.cache/screenshots/motors-page-${width}.png`), fullPage: true });
  }
  await page.setViewportSize({ width: 360, height: 820 });
});
