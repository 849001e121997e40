import { expect, test } from "vitest";
import { lettered, letteredWidth } from "../../shared/draw/lettering.ts";
import { styleSheet } from "../../shared/draw/palette.ts";
import { node } from "../../shared/draw/scene.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { text, textWidth } from "../../shared/draw/writing.ts";
import { all, texts } from "./find.ts";
import { inkOf } from "./ink.ts";
import { fullSwitches } from "./samples.ts";

test("every text becomes a path that keeps its class and its text", () => {
  const scene = drawSwitches(fullSwitches, { width: 700 });
  const made = lettered(scene);
  expect(texts(made)).toEqual([]);
  const letters = all(made, "letters");
  expect(letters.map(({ attributes }) => attributes["data-text"])).toEqual(texts(scene));
  expect(all(made, "control-name")).toHaveLength(all(scene, "control-name").length);
  expect(all(made, "card")).toEqual(all(scene, "card"));
});

/** The columns that have ink, of a text at x 100 in a picture of 200 by 40. */
function span(anchor: "start" | "middle" | "end", content = "mid") {
  const scene = node("svg", { viewBox: "0 0 200 40" }, [text("", 100, 30, 20, content, anchor)]);
  const { width, cover } = inkOf(
    toSvg(scene, "light", { title: "x", letters: "outlines" }).replace(/<rect class="page"[^>]*>/, ""),
  );
  const columns = [...cover].flatMap((amount, index) => (amount > 0 ? [index % width] : []));
  return { from: Math.min(...columns), to: Math.max(...columns) + 1 };
}

test("text is placed before, around or after its point, by its anchor", () => {
  expect(Math.abs(span("start").from - 100)).toBeLessThanOrEqual(1);
  expect(Math.abs(span("end").to - 100)).toBeLessThanOrEqual(1);
  const { from, to } = span("middle");
  expect(Math.abs((from + to) / 2 - 100)).toBeLessThanOrEqual(1);
  expect(Math.abs(to - from - letteredWidth("mid", 20))).toBeLessThanOrEqual(2);
});

test("capitals stand on the baseline, about seven tenths of the font size high", () => {
  const scene = node("svg", { viewBox: "0 0 400 200" }, [text("", 20, 150, 100, "HE")]);
  const { width, cover } = inkOf(
    toSvg(scene, "light", { title: "x", letters: "outlines" }).replace(/<rect class="page"[^>]*>/, ""),
  );
  const rows = [...cover].flatMap((amount, index) => (amount > 127 ? [Math.floor(index / width)] : []));
  expect(Math.abs(Math.max(...rows) + 1 - 150)).toBeLessThanOrEqual(3);
  expect(Math.abs(Math.max(...rows) + 1 - Math.min(...rows) - 72)).toBeLessThanOrEqual(5);
});

test("names in bold are drawn with a wider pen", () => {
  const ink = (className: string) => {
    const scene = node("svg", { viewBox: "0 0 200 40" }, [text(className, 10, 30, 20, "TL")]);
    return String(all(lettered(scene), "letters")[0]!.attributes.d);
  };
  expect(ink("control-name")).not.toBe(ink("small"));
  // A position's name is bold only where the control stands there.
  const within = (outer: string) => {
    const scene = node("g", { class: outer }, [text("way-name", 0, 0, 13, "down")]);
    return all(lettered(scene), "letters")[0]!.attributes.d;
  };
  expect(within("way set")).not.toBe(within("way"));
  expect(styleSheet("light")).toContain(".set .way-name");
});

test("our own letters need no more room than drawings reserve", () => {
  for (const words of [
    "Not armed. Level and recorder on.",
    "outputs.tail-lamp",
    "1000–2000 us",
    "switch, ch5",
    "half at 76 %",
  ])
    expect(letteredWidth(words, 12), words).toBeLessThan(textWidth(words, 12) * 1.08);
});
