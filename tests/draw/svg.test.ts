import { expect, test } from "vitest";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { element, fullPicture, fullSwitches, picture } from "./samples.ts";

test("a drawing in a file has a title and its own colours", () => {
  const svg = toSvg(drawGoggles(fullPicture), "dark", { title: "What the pilot of Tankard sees" });
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" role="img" width="[\d.]+" height="[\d.]+" /);
  expect(svg).toContain("<title>What the pilot of Tankard sees</title>");
  expect(svg).not.toMatch(/var\(|undefined|NaN/);
  expect(toSvg(drawSwitches(fullSwitches), "light", { title: "x" })).not.toBe(
    toSvg(drawSwitches(fullSwitches), "dark", { title: "x" }),
  );
});

test("text of a script is escaped", () => {
  const svg = toSvg(drawGoggles(picture([element("craft", 1, 1, '<&">\u0001')])), "light", {
    title: "</title><script>",
  });
  expect(svg).toContain("&lt;&amp;&quot;&gt;‹U+0001 control character›");
  expect(svg).not.toContain("<script");
});

test("the same picture gives the same text", () => {
  expect(toSvg(drawGoggles(fullPicture), "light", { title: "x" })).toBe(
    toSvg(drawGoggles(fullPicture), "light", { title: "x" }),
  );
});

test("flashing is at two a second, half on and half off, and never with reduced motion", () => {
  const flashing = drawGoggles(picture([element("pack-volts", 2, 2, "13.1V", { flashes: true })]));
  const svg = toSvg(flashing, "light", { title: "x" });
  const [, seconds] =
    /@media \(prefers-reduced-motion:no-preference\)\{[^}]*animation:flash ([\d.]+)s step-end infinite/.exec(svg)!;
  const rateHz = 1 / Number(seconds);
  // NUREG-0700 Rev 2, 1.3.10-12: 2 to 3 Hz, 0.8 to 5 Hz at all, half on and half off; WCAG 2.3.1: at most three a second (both read).
  expect(rateHz).toBeGreaterThanOrEqual(2);
  expect(rateHz).toBeLessThanOrEqual(3);
  expect(svg).toContain("@keyframes flash{50%{opacity:0}}");
  expect(svg).toMatch(/@media \(prefers-reduced-motion:reduce\)\{\.flashes \.plate\{[^}]*stroke-dasharray/);

  const steady = toSvg(flashing, "light", { title: "x", letters: "outlines" });
  expect(steady).not.toMatch(/animation|@media|@keyframes/);
  expect(steady).toContain(".flashes .plate{");
});

test("a file can have a margin and a width, and keeps its shape", () => {
  const scene = drawSwitches(fullSwitches, { width: 700 });
  const svg = toSvg(scene, "dark", { title: "x", description: "y & z", margin: 14, widthPx: 1456 });
  const [, width, height, viewBox] = / width="([\d.]+)" height="([\d.]+)" viewBox="([^"]*)"/.exec(svg)!;
  const [left, top, across, down] = viewBox!.split(" ").map(Number);
  expect([left, top, across]).toEqual([-14, -14, 728]);
  expect(width).toBe("1456");
  expect(Number(height) / Number(width)).toBeCloseTo(down! / across!, 4);
  expect(svg).toContain("<desc>y &amp; z</desc>");
  expect(svg).toContain('<rect class="page" x="-14" y="-14" width="728"');
});

test("half a character, as a broken file may have it, does not break the drawing", () => {
  const svg = toSvg(drawGoggles(picture([element("craft", 1, 1, "a\ud83d")])), "light", { title: "\udc00" });
  expect(svg).toContain('data-text="a\ufffd"');
  expect(svg).toContain("<title>\ufffd</title>");
});
