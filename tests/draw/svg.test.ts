import { expect, test } from "vitest";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { element, fullPicture, fullSwitches, picture } from "./samples.ts";

test("a drawing in a file names itself and carries its own colours", () => {
  const svg = toSvg(drawGoggles(fullPicture), "dark", { title: "What the pilot of Tankard sees" });
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" role="img" width="[\d.]+" height="[\d.]+" /);
  expect(svg).toContain("<title>What the pilot of Tankard sees</title>");
  expect(svg).not.toMatch(/var\(|undefined|NaN/);
  expect(toSvg(drawSwitches(fullSwitches), "light", { title: "x" })).not.toBe(
    toSvg(drawSwitches(fullSwitches), "dark", { title: "x" }),
  );
});

test("text of a script cannot break out of its place", () => {
  const svg = toSvg(drawGoggles(picture([element("craft", 1, 1, '<&">\u0001')])), "light", {
    title: "</title><script>",
  });
  expect(svg).toContain("&lt;&amp;&quot;&gt;\ufffd");
  expect(svg).not.toContain("<script");
});

test("the same picture gives the same text", () => {
  expect(toSvg(drawGoggles(fullPicture), "light", { title: "x" })).toBe(
    toSvg(drawGoggles(fullPicture), "light", { title: "x" }),
  );
});
