import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { codeTextOf, heldOfText, type TokenFit, tokensFor } from "../../../shared/dialect/learn/tokens-for.ts";

interface Case {
  readonly line: string;
  readonly value: string;
  readonly offers: readonly string[];
}

const cases: readonly Case[] = readFileSync(new URL("tokens.txt", import.meta.url), "utf8")
  .split(/\n{2,}/)
  .map((block) => block.split("\n").filter((line) => line !== "" && !line.startsWith("#")))
  .filter((lines) => lines.length > 0)
  .map(([line, value, ...offers]) => ({ line: line!, value: value!.replace(/^= /, ""), offers }));

test("there are more than sixty lines with a value each", () => expect(cases.length).toBeGreaterThan(60));

describe.each(cases)("$line = $value", ({ line, value, offers }) => {
  test("offers what can be it", () => {
    const fits = tokensFor(line, heldOfText(value));
    const found = fits.length === 0 ? ["nothing"] : fits.map(inWords);
    const isOpen = offers.at(-1) === "...";
    expect(isOpen ? [...found.slice(0, offers.length - 1), "..."] : found).toEqual(offers);
    for (const { token } of fits) {
      const { mark, text } = token;
      expect(line.slice(token.start, token.end)).toBe(mark + text + mark);
    }
  });
});

function inWords({ token, how, means }: TokenFit): string {
  const code = codeTextOf(means);
  const behind = means.kind === "plain" && means.unit !== "" ? `, ${means.unit} behind it` : "";
  return `${token.text} ${how}${behind}${code === null ? "" : ` ${code}`}`;
}

test("a line longer than any that is read offers nothing, and costs nothing", () => {
  expect(tokensFor(`holds ${"1300 ".repeat(2000)}`, heldOfText("1300 mAh"))).toEqual([]);
});
