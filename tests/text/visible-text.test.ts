/** What is shown of a stranger's text, by the place in which it is shown. */
import { expect, test } from "vitest";
import { visibleLine, visibleNotice, visibleText, withoutIcons } from "../../shared/text/visible-text.ts";

test.each([
  ["two\r\nlines\rand\u2028more", "two\nlines\nand‹U+2028 line separator›more"],
  ["a\u202egnp.exe", "a‹U+202E right-to-left override›gnp.exe"],
  ["\u001b[31m", "‹U+001B escape›[31m"],
  ["\u009b31m", "‹U+009B control character›31m"],
  ["“V/cell” — 3 µs", "“V/cell” — 3 µs"],
  ["שלום", "שלום"],
])("%j is shown as %j", (text, shown) => expect(visibleText(text)).toBe(shown));

test("on one line nothing breaks it", () => {
  expect(visibleLine("a\tb\r\nc\u2028d\u0007")).toBe("a b c d‹U+0007 bell›");
});

test("no words of a message become a link, and none of a label an icon", () => {
  expect(visibleNotice("see [x](command:y), [z] (w)")).toBe("see [x] (command:y), [z] (w)");
  expect(withoutIcons("$(trash) 5 $ (x)")).toBe("$ (trash) 5 $ (x)");
});
