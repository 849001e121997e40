import fc from "fast-check";
import { expect, test } from "vitest";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { type Dice, diceOf } from "../compare/made-lines.ts";

const NAMES = { ours: "ours", base: "base", theirs: "theirs" };
const merge = (base: string, ours: string, theirs: string) => mergeTexts(base, ours, theirs, NAMES);
const RUNS = Number(process.env.MERGES ?? 150);

const WORDS = ["shelf", "kiln", "glaze", "tile", "spin", "holds", "of", "flue", "lean"];
const SETTINGS = ["cells", "capacity", "warn-after", "parallel", "shunt-gain", "adc-bits"];
const SECTIONS = ["pack", "frame", "osd"];

interface Part {
  readonly section: string;
  readonly facts: readonly string[];
}

function factOf(dice: Dice): string {
  if (dice.chance(0.06)) return `  under "firing ${dice.below(3)}"`;
  if (dice.chance(0.15)) return `  ${dice.pick(["axis", "does"])}  words ${dice.below(9)} ${dice.pick(SETTINGS)}`;
  return `  "${dice.pick(WORDS)} {n}${dice.chance(0.3) ? ` ${dice.pick(WORDS)} {m=0}` : ""}"  ${dice.pick(SETTINGS)} {n}`;
}

function textOf(parts: readonly Part[]): string {
  return `dialect "Kiln"\n${parts.map(({ section, facts }) => `\n${section}\n${facts.join("\n")}\n`).join("")}`;
}

function changed(dice: Dice, parts: readonly Part[]): Part[] {
  const now = parts.map(({ section, facts }) => ({ section, facts: [...facts] }));
  for (let step = 1 + dice.below(3); step > 0 && now.length > 0; step--) {
    const { facts } = dice.pick(now);
    const at = dice.below(facts.length + 1);
    const action = dice.below(7);
    if (action < 3) facts.splice(at, 0, factOf(dice));
    else if (action === 3 && facts.length > 1) facts.splice(at, 1);
    else if (action === 4 && facts[at]) facts[at] = `${facts[at]}  # ${dice.below(99)}`;
    else if (action === 5)
      now.splice(dice.below(now.length + 1), 0, { section: dice.pick(SECTIONS), facts: [factOf(dice)] });
    else if (facts[at]) facts.splice(dice.below(facts.length), 0, ...facts.splice(at, 1));
  }
  return now.filter(({ facts }) => facts.length > 0);
}

function made(seed: number) {
  const dice = diceOf(seed);
  const parts = dice.some(SECTIONS, 1 + dice.below(3)).map((section) => ({
    section,
    facts: [...new Set(Array.from({ length: 1 + dice.below(5) }, () => factOf(dice)))],
  }));
  return { base: textOf(parts), ours: textOf(changed(dice, parts)), theirs: textOf(changed(dice, parts)) };
}

/** The lines of a dialect, each with its section; those that are there twice are left out. */
function linesOf(text: string): Map<string, number> {
  let section = "";
  const places = new Map<string, number>();
  const twice = new Set<string>();
  text.split("\n").forEach((line, i) => {
    if (/^[a-z]/.test(line)) section = line;
    else if (line !== "") {
      const key = `${section} ${line}`;
      if (places.has(key)) twice.add(key);
      places.set(key, i);
    }
  });
  for (const key of twice) places.delete(key);
  return places;
}

function countsIn(text: string): Map<string, number> {
  const counts = new Map<string, number>();
  for (const line of text.split("\n")) counts.set(line, (counts.get(line) ?? 0) + 1);
  return counts;
}

function expectOf(fault: (texts: ReturnType<typeof made>) => string | null): void {
  fc.assert(
    fc.property(fc.nat(2 ** 31 - 1), (seed) => {
      const texts = made(seed);
      const found = fault(texts);
      const { text } = merge(texts.base, texts.ours, texts.theirs);
      if (found) throw new Error([found, seed, texts.base, texts.ours, texts.theirs, text].join("\n-----\n"));
    }),
    { numRuns: RUNS, seed: Number(process.env.SEED ?? 2026), endOnFailure: true },
  );
  expect(RUNS).toBeGreaterThan(0);
}

test("a line that one side wrote is in the result, one that a side removed is not, and none is new", () => {
  expectOf(({ base, ours, theirs }) => {
    const { text, conflicts } = merge(base, ours, theirs);
    const [b, o, t, r] = [base, ours, theirs, text].map(linesOf);
    for (const line of new Set([...o!.keys(), ...t!.keys()])) {
      const isThere = text.split("\n").includes(line.slice(line.indexOf(" ") + 1));
      const stays =
        o!.has(line) && t!.has(line) ? true : !b!.has(line) && !base.includes(line.slice(line.indexOf(" ") + 1));
      if (stays && !isThere) return `“${line}” is lost`;
    }
    if (conflicts > 0) return null;
    const [inBase, inOurs, inTheirs] = [base, ours, theirs].map(countsIn);
    for (const line of countsIn(text).keys()) {
      const [o = 0, t = 0] = [inOurs!.get(line), inTheirs!.get(line)];
      if (inBase!.get(line) === 1 && Math.min(o, t) === 0 && Math.max(o, t) < 2) return `“${line}” is back`;
    }
    for (const line of r!.keys())
      if (![base, ours, theirs].some((each) => each.includes(line.slice(line.indexOf(" ") + 1)))) {
        // A comment of one side behind what the other changed.
        if (!line.includes("#")) return `“${line}” is new`;
      }
    return null;
  });
});

test("two lines that both sides have in one order keep it", () => {
  expectOf(({ base, ours, theirs }) => {
    const { text, conflicts } = merge(base, ours, theirs);
    if (conflicts > 0) return null;
    const [o, t, r] = [ours, theirs, text].map(linesOf);
    const all = [...r!.keys()].filter((line) => o!.has(line) && t!.has(line));
    for (const [i, one] of all.entries()) {
      for (const other of all.slice(i + 1)) {
        const inOurs = o!.get(one)! < o!.get(other)!;
        if (inOurs === t!.get(one)! < t!.get(other)! && inOurs !== r!.get(one)! < r!.get(other)!)
          return `“${one}” and “${other}” changed places`;
      }
    }
    return null;
  });
});

test("the order of the sides does not matter, but for lines of which it does not matter which comes first", () => {
  expectOf(({ base, ours, theirs }) => {
    const [one, other] = [merge(base, ours, theirs), merge(base, theirs, ours)];
    if (one.conflicts !== other.conflicts) return `conflicts: ${one.conflicts} and ${other.conflicts}\n${other.text}`;
    const sorted = (text: string) => text.split("\n").sort().join("\n");
    return one.conflicts > 0 || sorted(one.text) === sorted(other.text) ? null : `other lines\n${other.text}`;
  });
});

test("one side of each conflict gives that side's lines back", () => {
  const isClashing = /^<{7} ours\n([\s\S]*?)={7}\n([\s\S]*?)>{7} theirs\n/gm;
  expectOf(({ base, ours, theirs }) => {
    const { text } = merge(base, ours, theirs);
    for (const [, inOurs = "", inTheirs = ""] of text.matchAll(isClashing)) {
      const isIn = (part: string, side: string) =>
        part.split("\n").every((line) => line === "" || side.split("\n").includes(line));
      if (!isIn(inOurs, ours) || !isIn(inTheirs, theirs)) return "a line between marks that is none of its side";
    }
    return null;
  });
});
