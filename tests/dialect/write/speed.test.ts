/** How long writing takes: a craft of some five hundred lines onto a base of five thousand, and twice of both. */
import { expect, test } from "vitest";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { expectGrowth, expectWithin } from "../../growth.ts";
import { boardCase } from "./board-case.ts";

const DIALECT = `dialect "Long"

text
  heading "rack {r}"

pack "{n}"
  "jar {n} holds {c:0 to 99999}"  capacity {c} mAh

modes
  "shelf {#:0 to 99} {m} by {c:1 to 16} {a:800 to 2200}..{b:800 to 2200}"  {m} when {c} in {a} us to {b} us

filters
  "sieve {#:0 to 99} {f} wide {w}"  notch at {f} Hz width {w} Hz
`;

function longCase(size: number) {
  const packs = Array.from({ length: size }, (_, i) => `pack "P${i}"\n  capacity ${1000 + i} mAh\n`).join("");
  const notches = Array.from({ length: 5 }, (_, i) => `  notch at ${100 + i * 10} Hz width 40 Hz\n`).join("");
  const craft = `craft "Long"\n\n${packs}\nfilters\n${notches}`;
  const base = Array.from({ length: size * 10 }, (_, i) => {
    if (i % 500 === 0) return `rack ${i / 500}`;
    if (i % 20 === 1) return `jar P${(i - 1) / 10} holds ${i % 40 === 1 ? 1 : 1000 + (i - 1) / 10}`;
    return i % 20 === 2 ? `shelf x${i} is warm` : `kept line ${i} of the base`;
  });
  return { ...boardCase(DIALECT, craft), base: `${base.join("\n")}\n` };
}

const writing = (size: number) => {
  const { dialect, craft, workspace, base } = longCase(size);
  return () => {
    const { text } = writeBoard(dialect, craft, workspace, base);
    expect(text.split("\n").filter((line) => line.startsWith("jar ")).length).toBeGreaterThanOrEqual(size);
  };
};

test("a craft of five hundred lines onto a base of five thousand takes less than 300 ms, and of twice as much in proportion", () => {
  const small = writing(500);
  // Beside other tests the caches are theirs as well: it is given three times as long.
  expectWithin(900, small);
  expectGrowth(6, { small, large: writing(1000) });
});
