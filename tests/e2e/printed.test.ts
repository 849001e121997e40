/** The sheets as they come out of a printer, and as a screen shows them: a page of the browser, and no editor. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { benchPage, type SheetPictures } from "../../shared/ide/bench/bench-page.ts";
import { sheetPictures } from "../../shared/ide/bench/sheet-pictures.ts";
import { fleetPage } from "../../shared/ide/fleet/fleet-page.ts";
import type { BenchList } from "../../shared/protocol/bench.ts";
import { hostileTexts } from "../hostile-texts.ts";
import { listOf, phase, reading, richList, step } from "../ide/bench/hand-made-lists.ts";
import { richFleet } from "../ide/fleet/hand-made-fleets.ts";
import { workspaceOf } from "../rules/check.ts";
import { newPage } from "./browser.ts";
import { pageViolations, screenshot } from "./looks.ts";
import { bare, PAPERS, print, SIZES } from "./printed.ts";

let page: Page;
const told: string[] = [];

beforeAll(async () => {
  page = await newPage({ width: 1100, height: 800 });
  page.on("console", ({ text }) => void told.push(text()));
  page.on("pageerror", ({ message }) => void told.push(message));
});
afterAll(async () => {
  expect(told).toEqual([]);
  await page?.close();
});

const none: SheetPictures = { osd: null, "osd-second": null, switches: null, motors: null };

/** The pictures of a craft with two pages of OSD and so many controls. */
function picturesWith(controls: number): SheetPictures {
  const lines = Array.from(
    { length: controls },
    (_, at) => `  S${at + 1}  switch  ch${5 + (at % 12)}  up 1000 us  mid 1500 us  down 2000 us`,
  );
  const workspace = workspaceOf({
    "saucer.fettle": `craft "Saucer"

use "wide.fettle"

modes
  arm    when S1 is down
  level  when S2 is mid

osd
  grid        53 x 20
  pack-volts  at left+2, bottom-1
  craft       at centre, top
  horizon     at centre, middle

osd-second
  flight-time  at left, top
`,
    "wide.fettle": `handset "Wide"\n\ncontrols\n${lines.join("\n")}\n`,
  });
  return sheetPictures(workspace.craft("saucer.fettle")!, workspace);
}

/** The words of each step, and of each heading with those of what comes after it: a picture, and the first step or row. */
async function piecesOf(sheet: Page) {
  return await sheet.evaluate(() => {
    const steps = [...document.querySelectorAll(".step")].map((step) => step.textContent!);
    const headings = [...document.querySelectorAll("section")].map((section) => ({
      heading: section.querySelector("h2")!.textContent!,
      after: ["figcaption", ".step, tbody tr, li"].flatMap((one) => section.querySelector(one)?.textContent ?? []),
    }));
    return { steps, headings };
  });
}

const bare60: BenchList = listOf(
  [
    phase(
      "switches",
      "What each switch does",
      Array.from({ length: 60 }, (_, at) => step(`s.${at}`, `Move S${at + 1} to mid`, { expect: "level comes on" })),
    ),
  ],
  { unknown: ["The script says nothing of the OSD."] },
);

const LISTS: readonly (readonly [
  name: string,
  list: BenchList,
  pictures: () => SheetPictures,
  pages: readonly [number, number],
])[] = [
  [
    "a bare craft",
    listOf([phase("unpowered", "Without a pack", [step("a", "Take the propellers off.")])]),
    () => none,
    [1, 1],
  ],
  ["sixty steps", bare60, () => none, [2, 5]],
  ["a craft with everything", richList(), () => picturesWith(7), [4, 6]],
  ["sixty controls and eight motors", richList(60, 8), () => picturesWith(60), [9, 14]],
];

describe.each(LISTS)("the bench list of %s", (_, list, pictures, [fewest, most]) => {
  test.each(PAPERS)("on %s: each step once and whole, no title at the foot, nothing beyond the edge", async (paper) => {
    await page.setContent(benchPage(list, pictures()));
    const { steps, headings } = await piecesOf(page);
    const sheets = await print(page, paper);
    expect(sheets.length).toBeGreaterThanOrEqual(fewest);
    expect(sheets.length).toBeLessThanOrEqual(most);
    const [width, height] = SIZES[paper];
    sheets.forEach((sheet, index) => {
      expect(Math.abs(sheet.widthPt - width) + Math.abs(sheet.heightPt - height)).toBeLessThan(2);
      expect(sheet.text).toContain(bare(`${index + 1} of ${sheets.length}`));
      expect(sheet.rightPt).toBeLessThanOrEqual(sheet.widthPt - 30);
    });
    const countOf = (text: string) => sheets.map((sheet) => sheet.text.split(bare(text)).length - 1);
    const onSheet = (text: string) => countOf(text).flatMap((count, at) => Array.from({ length: count }, () => at));
    for (const text of steps) expect(onSheet(text), text).toHaveLength(1);
    for (const { heading, after } of headings)
      expect(
        after.some((text) => onSheet(heading).includes(onSheet(text)[0]!)),
        heading,
      ).toBe(true);
  });
});

test.each(PAPERS)(
  "the fleet on %s: on its side, heads on every page of a table, every name in every part",
  async (paper) => {
    const fleet = richFleet(41, 40);
    await page.setContent(fleetPage(fleet));
    const sheets = await print(page, paper);
    const [short, long] = SIZES[paper];
    for (const sheet of sheets) {
      expect(Math.abs(sheet.widthPt - long) + Math.abs(sheet.heightPt - short)).toBeLessThan(2);
      expect(sheet.rightPt).toBeLessThanOrEqual(sheet.widthPt - 30);
      // All that is printed is in tables, but for the last lines: each page has the heads of one.
      if (sheet !== sheets.at(-1)) expect(sheet.text).toContain("Craft");
    }
    const parts = await page.locator(".wide").count();
    const all = sheets.map(({ text }) => text).join("");
    // Its name is in no other; once in the list of craft besides.
    expect(all.split(bare("Tankard 6")).length - 1).toBe(parts + 1);
    expect(sheets.length).toBeLessThanOrEqual(6 * (parts + 1));
  },
);

/** A list in which every text is this one. */
function filled(text: string): BenchList {
  const due = { state: "due", why: text } as const;
  const one = step("a", text, {
    expect: text,
    caution: text,
    due,
    readings: [reading(text, text, { expected: text, form: text })],
  });
  return listOf([phase("a", text, [one], text)], { craft: text, file: text, warning: text, unknown: [text] });
}

test("whatever is written in a script, the page is the same but for its words, and nothing is beyond its edge", async () => {
  const shapeOf = async (text: string) => {
    await page.setContent(benchPage(filled(text), none));
    return await page.evaluate(() => [...document.querySelectorAll("*")].map(({ tagName }) => tagName).join(" "));
  };
  const plain = await shapeOf("plain");
  for (const text of hostileTexts) {
    expect(await shapeOf(text), text).toBe(plain);
    // The width of letter paper between its margins, and that of a narrow window.
    for (const width of [710, 250]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), text).toBeLessThanOrEqual(width);
    }
  }
  await page.setViewportSize({ width: 1100, height: 800 });
});

test("on paper it is black on white, and its boxes are drawn, whatever the screen prefers", async () => {
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  for (const html of [benchPage(richList(2), none), fleetPage(richFleet(3, 4))]) {
    await page.setContent(html);
    const looks = await page.evaluate(() => {
      const styleOf = (selector: string) => getComputedStyle(document.querySelector(selector)!);
      const box = document.querySelector("input[type=checkbox]");
      return {
        ink: styleOf("body").color,
        ground: styleOf("body").backgroundColor,
        title: styleOf(".kind").color,
        // Borders are printed where grounds are not.
        box: box && getComputedStyle(box).borderTopColor,
        boxMm: box ? (box.getBoundingClientRect().width / 96) * 25.4 : 4.2,
      };
    });
    const black = "rgb(0, 0, 0)";
    expect(looks).toMatchObject({ ink: black, ground: "rgba(0, 0, 0, 0)", title: black });
    expect(looks.box ?? black).toBe(black);
    expect(looks.boxMm).toBeCloseTo(4.2, 1);
  }
  await page.emulateMedia({ media: null, colorScheme: null });
});

test.each(["light", "dark"] as const)("on a %s screen axe finds nothing wrong, and it fits 250 px", async (scheme) => {
  await page.emulateMedia({ colorScheme: scheme });
  for (const [name, html] of [
    ["bench", benchPage(richList(2), picturesWith(7))],
    ["fleet", fleetPage(richFleet(3, 12))],
  ] as const) {
    await page.setContent(html);
    await screenshot(page, `printed-${name}-${scheme}`);
    await page.setViewportSize({ width: 250, height: 800 });
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width, name).toBeLessThanOrEqual(250);
    // All rules once: of the other scheme the colours alone are others.
    expect(await pageViolations(page, scheme === "light" ? "all rules" : "contrast"), name).toEqual([]);
    await screenshot(page, `printed-${name}-${scheme}-250`);
    await page.setViewportSize({ width: 1100, height: 800 });
  }
  await page.emulateMedia({ colorScheme: null });
});
