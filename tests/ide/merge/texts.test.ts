/** Line ends, byte-order marks, and what else of a text has no meaning and yet must stay. */
import { expect, test } from "vitest";
import { formatted } from "../../../shared/ide/format/format.ts";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { catalogue } from "../compare/made-lines.ts";
import { madeMerge } from "./made-merges.ts";
import { isSameSaying, saysOf } from "./oracle.ts";

const NAMES = { ours: "ours", base: "base", theirs: "theirs" };
const merge = (base: string, ours: string, theirs: string) => mergeTexts(base, ours, theirs, NAMES);

const base = 'craft "Jug"\n\npack\n  cells     6\n  capacity  1100 mAh\n  land-at   3.3 V/cell\n';
const ours = base.replace("1100", "1300");
const theirs = `${base.replace("3.3 V", "3.2 V")}  warn-at   3.5 V/cell\n\nmodes\n  arm  when TL is down\n`;
const both = theirs.replace("1100", "1300");
const ended = (text: string, end: string) => text.replaceAll("\n", end);

test.each(["\n", "\r\n", "\r"])("line ends stay those of ours, and new lines take them: %j", (end) => {
  for (const other of ["\n", "\r\n", "\r"]) {
    expect(merge(ended(base, other), ended(ours, end), ended(theirs, other)).text).toBe(ended(both, end));
    expect(merge(ended(base, end), ended(ours, end), ended(theirs, other)).text).toBe(ended(both, end));
  }
});

test("in a text with two kinds of line ends each line keeps its own, and new ones take the more frequent", () => {
  const mixed = ours.replace('"Jug"\n', '"Jug"\r\n');
  expect(merge(base, mixed, theirs).text).toBe(both.replace('"Jug"\n', '"Jug"\r\n'));
});

test("the marks of a conflict have the line ends of ours", () => {
  const { text } = merge(base, ended(ours, "\r\n"), base.replace("1100", "1500"));
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  expect(text).toContain("<<<<<<< ours\r\n");
});

test("a byte-order mark stays where ours has it", () => {
  expect(merge(`\uFEFF${base}`, `\uFEFF${ours}`, `\uFEFF${theirs}`).text).toBe(`\uFEFF${both}`);
  expect(merge(base, `\uFEFF${ours}`, theirs).text).toBe(`\uFEFF${both}`);
  expect(merge(base, ours, `\uFEFF${theirs}`).text).toBe(both);
});

test("whether the last line is ended is as the side has it that changed that", () => {
  const cut = (text: string) => text.slice(0, -1);
  expect(merge(cut(base), cut(ours), cut(theirs)).text).toBe(cut(both));
  expect(merge(base, cut(ours), theirs).text).toBe(cut(both));
  expect(merge(base, ours, cut(theirs)).text).toBe(cut(both));
  expect(merge(cut(base), ours, cut(theirs)).text).toBe(both);
  expect(merge(cut(base), cut(ours), cut(base.replace("1100", "1500"))).text).toMatch(
    />>>>>>> theirs\n {2}land-at {3}3\.3 V\/cell$/,
  );
  // Behind the last mark there is a line end in any case.
  expect(merge(cut(base), cut(base.replace("3.3", "3.2")), cut(base.replace("3.3", "3.1"))).text).toMatch(
    />>>>>>> theirs\n$/,
  );
});

test("a text that one side emptied, or began", () => {
  expect(merge(base, "", base)).toMatchObject({ text: "", conflicts: 0 });
  expect(merge("", base, "")).toMatchObject({ text: base, conflicts: 0 });
  const { text, conflicts } = merge(base, "", ours);
  expect(conflicts).toBe(1);
  expect(text).toBe(`<<<<<<< ours\n=======\n${ours}>>>>>>> theirs\n`);
});

test("labels may be empty, marks of any size, and the lines of the base shown", () => {
  const names = { ours: "", base: "as it was", theirs: "", markerSize: 3, style: "diff3" as const };
  expect(mergeTexts(base, ours, base.replace("1100", "1500"), names).text).toContain(
    "<<<\n  capacity  1300 mAh\n||| as it was\n  capacity  1100 mAh\n===\n  capacity  1500 mAh\n>>>\n",
  );
});

test("each conflict is told with its line and what clashes", () => {
  const { clashes } = merge(base, ours, base.replace("1100", "1500").replace("cells     6", "cells     4"));
  expect(clashes).toEqual([{ line: 4, why: "pack.capacity: changed in two ways" }]);
});

test("a script that one side laid out anew takes every change of the other", () => {
  for (let seed = 0; seed < 60; seed++) {
    const made = madeMerge(seed, "any");
    const canonical = formatted(parse(made.base), catalogue);
    for (const { text, conflicts } of [
      merge(made.base, canonical, made.theirs),
      merge(made.base, made.theirs, canonical),
    ]) {
      expect(conflicts, `${seed}\n${text}`).toBe(0);
      const [expected, found] = [saysOf(made.theirs), saysOf(text)];
      for (const key of new Set([...expected.keys(), ...found.keys()]))
        expect(isSameSaying(found.get(key), expected.get(key)), `${seed} ${key}\n${text}`).toBe(true);
    }
  }
});

test("any lines in any order are merged without an exception, and what one side alone says stays", () => {
  for (let seed = 0; seed < 60; seed++) {
    const [one, two, three] = [madeMerge(seed, "any"), madeMerge(seed + 1, "any"), madeMerge(seed + 2, "any")];
    const shuffled = (text: string) =>
      text
        .split("\n")
        .map((line, i) => [(i * 7919 + seed) % 101, line] as const)
        .sort(([a], [b]) => a - b)
        .map(([, line]) => line)
        .join("\n");
    for (const [b, o, t] of [
      [one.base, two.ours, three.theirs],
      [shuffled(one.base), one.ours, shuffled(one.theirs)],
      [shuffled(one.base), shuffled(one.ours), shuffled(one.theirs)],
    ] as const) {
      const { text } = merge(b, o, t);
      const lines = new Set(text.split("\n").map((line) => line.trim()));
      const [inBase, inTheirs] = [new Set(b.split("\n")), new Set(t.split("\n"))];
      for (const line of o.split("\n"))
        if (inTheirs.has(line) && inBase.has(line))
          expect(lines.has(line.trim()), `${seed} ${line}\n${text}`).toBe(true);
    }
  }
});
