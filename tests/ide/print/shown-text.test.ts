import fc from "fast-check";
import { expect, test } from "vitest";
import { cssString, shortened } from "../../../shared/ide/print/shown-text.ts";
import { escapeHtml } from "../../../shared/text/html.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { hostileTexts } from "../../hostile-texts.ts";

test.each([
  ["Bowl & <Spoon>", "Bowl &amp; &lt;Spoon&gt;"],
  ['5" props', "5&quot; props"],
  ["a\u202egnp.exe", "a‹U+202E right-to-left override›gnp.exe"],
  ["nul\u0000", "nul‹U+0000 null›"],
  ["zero\u200bwidth", "zero‹U+200B zero width space›width"],
  ["lone \ud800", "lone \ufffd"],
  // What people need to write their languages.
  ["שלום", "שלום"],
  ["👩‍🚀", "👩‍🚀"],
  // A letter of another script is a letter.
  ["Таnkard", "Таnkard"],
  ["two\r\nlines", "two\nlines"],
])("%j shows as %j", (text, shown) => expect(escapeHtml(text)).toBe(shown));

test("nothing that is left turns the direction of what follows, or controls a terminal", () => {
  for (const text of hostileTexts) {
    expect(visibleText(text), text).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202d\u202e\ufffe\uffff]/);
    expect(visibleText(text), text).not.toMatch(/\p{Cs}/u);
  }
});

test("a string of CSS gives the text back, and holds no sign that CSS or HTML knows but its own quotes", () => {
  const asCssReads = (css: string) =>
    css.slice(1, -1).replaceAll(/\\([0-9a-f]{1,6}) /g, (_, code) => String.fromCodePoint(Number.parseInt(code, 16)));
  const holds = (text: string) => {
    const css = cssString(text);
    expect(css).toMatch(/^"(?:[A-Za-z0-9 ]|\\[0-9a-f]{1,6} )*"$/);
    expect(asCssReads(css)).toBe(visibleText(text));
  };
  hostileTexts.forEach(holds);
  fc.assert(fc.property(fc.string({ unit: "binary" }), holds), { seed: 13, numRuns: 300 });
});

test("a title is shortened between characters, never inside one", () => {
  expect(shortened("Tankard", 7)).toBe("Tankard");
  expect(shortened("Tankard", 6)).toBe("Tanka…");
  expect(shortened("🏺🏺🏺", 2)).toBe("🏺…");
});
