/** Published figures that the OSD and its drawing must meet, each with its source. */
import { wcagContrast } from "culori";
import { describe, expect, test } from "vitest";
import { FLASH } from "../../shared/draw/flash.ts";
import { motion, palettes, styleSheet } from "../../shared/draw/palette.ts";
import { CHARACTER_PIXELS } from "../../shared/osd/layout.ts";
import { NAMED_GRIDS } from "../../shared/protocol/osd.ts";

describe("the overlay chip", () => {
  // MAX7456 datasheet, 19-0576 Rev 0, 8/07, p. 10: 30 columns; 13 rows NTSC, 16 rows PAL; 12 x 18 pixels (read).
  test("30 x 16, 30 x 13, and 12 x 18 pixels a character", () => {
    expect(NAMED_GRIDS).toEqual({ pal: { columns: 30, rows: 16 }, ntsc: { columns: 30, rows: 13 } });
    expect(CHARACTER_PIXELS).toEqual({ width: 12, height: 18 });
  });

  test("480 display addresses", () => {
    // Application note 4117, 2007 (read).
    expect(NAMED_GRIDS.pal!.columns * NAMED_GRIDS.pal!.rows).toBe(480);
  });

  // Computed from the datasheet's figures.
  test.each([
    ["pal", 360, 288],
    ["ntsc", 360, 234],
  ])("%s: %i x %i pixels", (name, width, height) => {
    const { columns, rows } = NAMED_GRIDS[name]!;
    expect([columns * CHARACTER_PIXELS.width, rows * CHARACTER_PIXELS.height]).toEqual([width, height]);
  });
});

describe("flashing", () => {
  // NUREG-0700 Rev 2, 1.3.10-12 (read): one rate, 2 to 3 Hz, half on and half off. WCAG 2.3.1 (read): at most three a second.
  test("one rate, between 2 and 3 a second, half of the time on", () => {
    expect(FLASH.perSecond).toBeGreaterThanOrEqual(2);
    expect(FLASH.perSecond).toBeLessThanOrEqual(3);
    expect(FLASH.shareOn).toBe(0.5);
  });

  /** Seconds of every animation in a style sheet, and the shares of its keyframes at which something is hidden. */
  const ratesIn = (css: string) =>
    [...css.matchAll(/animation: ?flash ([\d.]+)s step-end infinite/g)].map((m) => Number(m[1]));
  const sharesIn = (css: string) =>
    [...css.matchAll(/@keyframes flash\s*\{\s*(\d+)%\s*\{\s*opacity:\s*0/g)].map((m) => Number(m[1]) / 100);

  // The panel's own style sheet is held to the same in the page itself: tests/e2e/goggles-page.test.ts.
  test("a drawing in a file flashes at that rate only, and not for those who want no motion", () => {
    expect(ratesIn(motion("light"))).toEqual([1 / FLASH.perSecond]);
    expect(motion("light").match(/animation\s*:/g)).toHaveLength(1);
    expect(sharesIn(motion("light"))).toEqual([FLASH.shareOn]);
    expect(motion("light")).toMatch(/prefers-reduced-motion: ?no-preference\)\s*\{[^}]*animation\s*:/);
  });
});

describe("contrast", () => {
  // Computed; the npm libraries wcag-contrast, colorjs.io and culori agree.
  test.each([
    ["#777777", 4.478],
    ["#767676", 4.542],
    ["#000000", 21],
  ])("the measure itself: %s on white", (colour, ratio) =>
    expect(wcagContrast(colour, "#ffffff")).toBeCloseTo(ratio, 3),
  );

  describe.each(["light", "dark", "paper"] as const)("%s", (theme) => {
    const p = palettes[theme];
    // WCAG 2.2, 1.4.3 (from memory): 4.5 to 1 for text.
    test.each([
      ["text on the page", p.text, p.page],
      ["quiet text on the page", p.quiet, p.page],
      ["text on a plate", p.text, p.plate],
      ["text on the accent", p.onAccent, p.accent],
      ["letters on the sky", long(p.ink), p.sky],
      ["letters on the ground", long(p.ink), p.ground],
      ["letters on their own edge", long(p.ink), long(p.edge)],
    ])("%s", (_, front, back) => expect(wcagContrast(front, back)).toBeGreaterThanOrEqual(4.5));

    // WCAG 2.2, 1.4.11 (read): 3 to 1 for graphics that must be distinguishable.
    test.each([
      ["the accent on the page", p.accent, p.page],
      ["hatching, on the sky", p.clash, p.sky],
      ["hatching, on the ground", p.clash, p.ground],
      ["the outline of the safe area, on the sky", outline(p.ink, p.sky), p.sky],
      ["the outline of the safe area, on the ground", outline(p.ink, p.ground), p.ground],
    ])("%s", (_, front, back) => expect(wcagContrast(front, back)).toBeGreaterThanOrEqual(3));
  });

  /** A colour of three digits with six. */
  function long(colour: string): string {
    return colour.replaceAll(/[0-9a-f]/g, "$&$&");
  }

  /** Ink over a colour, at the opacity that the style sheet gives the safe area's outline. */
  function outline(ink: string, under: string): string {
    const opacity = Number(/\.safe\{[^}]*stroke-opacity:([\d.]+)/.exec(styleSheet("light"))![1]);
    const partsOf = (colour: string) => [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
    const over = partsOf(long(ink));
    const mixed = partsOf(under).map((part, at) => Math.round(over[at]! * opacity + part * (1 - opacity)));
    return `#${mixed.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
  }
});
