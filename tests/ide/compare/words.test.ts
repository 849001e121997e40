/** Differences in words. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { wordsOf } from "../../../shared/ide/compare/words.ts";
import { WHEEL } from "../../rules/check.ts";
import { pairs, workspaceOf } from "./made-pairs.ts";

const SELECTOR = "  SX selector ch10 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us\n";

/** The sentences of all differences, in their order. */
function words(before: string, after: string, others: Readonly<Record<string, string>> = {}): string[] {
  const workspace = workspaceOf({
    "before.fettle": before,
    "after.fettle": after,
    "wheel.fettle": WHEEL + SELECTOR,
    ...others,
  });
  const [a, b] = [workspace.craftLike("before.fettle")!, workspace.craftLike("after.fettle")!];
  return differencesOf(a, b, workspace.catalogue).map((each) => wordsOf(each, a, b, workspace));
}

type Case = readonly [title: string, before: string, after: string, expected: string[]];

function cases(name: string): readonly Case[] {
  const found: Case[] = [];
  let [section, both] = ["", ""];
  for (const line of readFileSync(new URL(name, import.meta.url), "utf8")
    .split("\n")
    .slice(4)) {
    const heading = /^\[(.*?)(?: \| (.*))?\]$/.exec(line);
    if (heading) [section, both] = [heading[1]!, heading[2] ?? ""];
    else if (line.startsWith("  ")) found.at(-1)![3].push(line.slice(2));
    else if (line !== "") {
      const [before = "", after = ""] = line.split(" => ").map((entries) => scriptOf(section, both, entries));
      found.push([`${section}: ${line}`, before, after, []]);
    }
  }
  return found;
}

function scriptOf(section: string, both: string, entries: string): string {
  const lines = [both, ...entries.split(" ; ")].filter((each) => each !== "" && each !== "-");
  const body = lines.length === 0 ? "" : `${section}\n${lines.map((each) => `  ${each}\n`).join("")}`;
  return `craft "Jug"\nuse "wheel.fettle"\n${body}`;
}

test.each(cases("words.txt"))("%s", (_, before, after, expected) => expect(words(before, after)).toEqual(expected));

test("where the handsets differ each side is told by its own controls", () => {
  const lathe = `handset "Lathe"\ncontrols\n  SR switch ch8 up 1000 us down 2000 us\n`;
  const mine = `craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  turtle when TR is not up\n`;
  const theirs = `craft "Mug"\nuse "lathe.fettle"\nmodes\n  arm when SR is up\n  turtle when TR is not up\n`;
  expect(words(mine, theirs, { "lathe.fettle": lathe }).slice(0, 3)).toEqual([
    'the handset is "Lathe" in place of "Wheel"',
    "arm moves from TL down to SR up",
    "KN is gone: it was a dial on ch9, 1000 us to 2000 us",
  ]);
});

test("a handset that one of them lacks", () => {
  const bare = 'craft "Jug"\nmodes\n  arm when TL is down\n';
  const used = 'craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n';
  expect(words(bare, used)[0]).toBe('the handset is new: "Wheel"');
  expect(words(used, bare)[0]).toBe('there is no handset: it was "Wheel"');
});

test("a condition that would take a page is told as it is written", () => {
  const odd = (last: string) =>
    `modes\n  level when ${["SX is one", "SX is three", "SX is five"].map((sx) => `${sx} and TR is mid and PB is ${last}`).join(" or ")} or TL is up and TR is up or KN above 1500 us and TR is down or ch14 above 1200 us or ch13 below 1300 us\n`;
  const [told] = words(`craft "A"\nuse "wheel.fettle"\n`, `craft "A"\nuse "wheel.fettle"\n${odd("held")}`);
  expect(told).toMatch(/^level is new: on when SX is one and TR is mid and PB is held or /);
});

test("any difference of any two craft has words, both ways, and no sentence is cut off", () => {
  fc.assert(
    fc.property(pairs, ({ texts, mine, theirs }) => {
      const workspace = workspaceOf(texts);
      const [a, b] = [workspace.craft(mine)!, workspace.craft(theirs)!];
      for (const [before, after] of [
        [a, b],
        [b, a],
      ] as const)
        for (const each of differencesOf(before, after, workspace.catalogue)) {
          const told = wordsOf(each, before, after, workspace);
          expect(told).not.toMatch(
            /undefined|\bnull\b|NaN|object Object|: ?$|, ?$|differs: *$|is written otherwise|^\s/,
          );
          expect(told.length).toBeGreaterThan(8);
        }
    }),
    { numRuns: 150, seed: 2026 },
  );
});
