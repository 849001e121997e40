/** The reference as it is opened from a disk, without a server: searched by keyboard, in light and in dark. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { referenceOf } from "../../shared/ide/reference/reference.ts";
import { newPage } from "./browser.ts";
import { screenshot } from "./looks.ts";

let page: Page;
let folder: string;
let address: string;
const errors: string[] = [];
const requests: string[] = [];

beforeAll(async () => {
  mkdirSync(inProject(".cache"), { recursive: true });
  folder = mkdtempSync(inProject(".cache/reference-"));
  for (const { path, text } of referenceOf(makeCatalogue())) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  address = pathToFileURL(join(folder, "index.html")).href;
  page = await newPage({ width: 1100, height: 800 });
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  page.on("pageerror", ({ message }) => errors.push(message));
  page.on("request", (request) => requests.push(request.url()));
  await page.goto(address);
});
afterAll(async () => {
  await page?.close();
  rmSync(folder, { recursive: true, force: true });
});

const shown = () => page.locator("article:visible");

test("it opens from the disk, shows its beginning, and asks the world for nothing", async () => {
  expect(await shown().count()).toBe(1);
  expect(await shown().locator("h2").textContent()).toBe("What a script can say");
  expect(requests.filter((url) => url.startsWith("http"))).toEqual([]);
  expect(errors).toEqual([]);
});

test("plain words find a name, all by keyboard", async () => {
  await page.keyboard.press("/");
  await page.keyboard.type("low battery warning");
  expect(await page.locator("#found").textContent()).toMatch(/^\d+ found/);
  expect(await page.locator("#results a code").first().textContent()).toBe("pack.warn-at");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  await expect.poll(() => shown().locator("h2").textContent()).toBe("pack.warn-at");
  expect(await page.title()).toBe("pack.warn-at · Fettle reference");
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("MAIN");
  await page.keyboard.press("Escape");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("query");
});

test("a name comes before pages that only mention it, and words without results get a message", async () => {
  const first = async (text: string) => {
    await page.locator("#query").fill(text);
    return (await page.locator("#results a code").allTextContents())[0];
  };
  expect(await first("arm")).toBe("arm");
  // As one who is new to it asks: with words that say nothing, and one that nobody here says.
  expect(await first("my quad won't arm")).toBe("arm");
  expect(await first("How do I stop it beeping?")).toBe("sounds-off");
  expect(await first("silly low battery warning")).toBe("pack.warn-at");
  expect(await first("A")).toBe("A");
  expect(await first("turt")).toBe("turtle");
  expect(await first("osd overlap")).toBe("osd-overlap");
  expect(await first("warn at")).toBe("pack.warn-at");
  expect(await first("rpm/V")).toBe("rpm/V");
  expect(await first("zzzz")).toBeUndefined();
  expect(await page.locator("#found").textContent()).toBe("Nothing found: try other words.");
  await page.locator("#query").fill("");
  expect(await page.locator("#contents").isVisible()).toBe(true);
});

test("links lead from page to page, and back", async () => {
  await page.goto(`${address}#setting/pack.warn-at`);
  await shown().locator("a", { hasText: "pack.land-at" }).first().click();
  await expect.poll(() => shown().locator("h2").textContent()).toBe("pack.land-at");
  await shown().locator("a", { hasText: "pack-order" }).first().click();
  await expect.poll(() => shown().locator("h2").textContent()).toBe("pack-order");
  await page.goBack();
  await expect.poll(() => shown().locator("h2").textContent()).toBe("pack.land-at");
  await page.goto(`${address}#setting/none`);
  await expect.poll(() => shown().locator("h2").textContent()).toBe("What a script can say");
});

const require = createRequire(import.meta.url);
const axePath = createRequire(require.resolve("@axe-core/playwright")).resolve("axe-core");
const axe: { source: string } = require(axePath);

interface AxeInPage {
  run(): Promise<{ passes: unknown[]; violations: { id: string; help: string; nodes: { html: string }[] }[] }>;
}

/** What axe finds in what is shown. */
async function violations(): Promise<string[]> {
  // Pages that are not shown take axe a minute to pass over.
  await page.evaluate(() => {
    for (const hidden of document.querySelectorAll("article:not(.shown)")) hidden.remove();
  });
  await page.evaluate(axe.source);
  const { passes, violations } = await page.evaluate(() => (window as unknown as { axe: AxeInPage }).axe.run());
  expect(passes.length).toBeGreaterThan(15);
  return violations.flatMap(({ id, help, nodes }) => nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 160)}`));
}

test.each(["light", "dark"] as const)(
  "axe finds nothing wrong on the page with tables and curves in %s",
  async (scheme) => {
    await page.emulateMedia({ colorScheme: scheme });
    await page.goto(`${address}?${scheme}-speed#speed`);
    expect(await violations()).toEqual([]);
    await page.locator("figure.curve").first().scrollIntoViewIfNeeded();
    await screenshot(page, `reference-speed-${scheme}`);
  },
);

test.each(["light", "dark"] as const)(
  "axe finds nothing wrong in %s: at the start, in a search, on pages",
  async (scheme) => {
    await page.emulateMedia({ colorScheme: scheme });
    for (const [hash, query] of [
      ["start", ""],
      ["setting/filters.smooth-gyro", "gyro"],
      ["rule/mode-clash", ""],
      ["section/osd", ""],
    ] as const) {
      await page.goto(`${address}?${scheme}-${hash}#${hash}`);
      await page.locator("#query").fill(query);
      await page
        .locator("details")
        .first()
        .evaluate((details) => details.setAttribute("open", ""));
      expect(await violations()).toEqual([]);
      if (query !== "") await screenshot(page, `reference-${scheme}`);
    }
  },
);

test("in the system's own contrast colours the curves have them too, and are told apart by more", async () => {
  await page.emulateMedia({ forcedColors: "active" });
  await page.goto(`${address}?forced-speed#speed`);
  await page.locator("figure.curve").first().scrollIntoViewIfNeeded();
  const looks = await page.evaluate(() => {
    const styleOf = (selector: string) => getComputedStyle(document.querySelector(`figure.curve ${selector}`)!);
    document.body.style.color = "CanvasText";
    const strokes = ["first", "second"].map((_, i) => styleOf(`.chart-line.series-${i}`));
    return {
      ink: getComputedStyle(document.body).color,
      lines: strokes.map(({ stroke }) => stroke),
      names: [styleOf(".chart-name.series-0").fill, styleOf(".chart-name.series-1").fill, styleOf(".small").fill],
      dashes: strokes.map(({ strokeDasharray }) => strokeDasharray),
    };
  });
  expect(new Set([...looks.lines, ...looks.names])).toEqual(new Set([looks.ink]));
  expect(new Set(looks.dashes).size).toBe(2);
  await screenshot(page, "reference-speed-forced");
  await page.emulateMedia({ forcedColors: "none" });
});

test("in a narrow window the letters of the curves can still be read", async () => {
  await page.setViewportSize({ width: 360, height: 740 });
  await page.goto(`${address}?narrow-letters#speed`);
  const letterPx = await page.evaluate(() => {
    const svg = document.querySelector<SVGSVGElement>("figure.curve svg")!;
    const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    return Math.min(
      ...[...svg.querySelectorAll("text")].map((each) => scale * parseFloat(getComputedStyle(each).fontSize)),
    );
  });
  expect(letterPx).toBeGreaterThan(8.5);
});

test.each(["setting/motors.motor1", "speed"])("on a narrow screen nothing is cut off at the side: %s", async (hash) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await page.goto(`${address}?narrow-${hash}#${hash}`);
  const { scroll, client } = await page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    return { scroll: scrollWidth, client: clientWidth };
  });
  expect(scroll).toBeLessThanOrEqual(client);
});
