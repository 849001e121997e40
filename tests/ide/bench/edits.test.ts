/** What a pilot writes down on the bench list, as edits of the craft: whole scripts to read, and what holds for any. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { benchEditOf, benchTrialOf } from "../../../shared/ide/edits/bench-edit.ts";
import { settingOf } from "../../../shared/model/setting-lookup.ts";
import type { BenchGesture } from "../../../shared/protocol/bench-edit.ts";
import { edited, inverse, JUG, shed, type Texts } from "../edits/scripts-edited.ts";

function gestureOf(line: string): BenchGesture {
  const [, kind, rest = ""] = /^do (day|void|reading) (.*)$/.exec(line) ?? [];
  if (kind === "void") return { kind, check: rest };
  const [, name = "", text = ""] = /^(\S+(?: (?:roll|pitch|yaw)(?= |$))?) ?(.*)$/.exec(rest) ?? [];
  return kind === "day" ? { kind, check: name, day: text } : { kind: "reading", name, text };
}

/** A text as it stands in the list: ⏎ ends a text without an end of its last line. */
function textOf(lines: readonly string[]): string {
  const shown = lines.join("\n").replaceAll("→", "\t");
  const text = shown.endsWith("⏎") ? shown.slice(0, -1) : `${shown}\n`;
  return /^(craft|layer) "/.test(text) ? text : `craft "Jug"\n\n${text}`;
}

interface Case {
  readonly title: string;
  readonly texts: Texts;
  readonly at: string;
  readonly gesture: BenchGesture;
  readonly after: string | null;
  readonly told: string | null;
}

function caseOf(block: string): Case {
  const [title = "", ...lines] = block.trimEnd().split("\n");
  const does = lines.findIndex((line) => line.startsWith("do "));
  const told = lines.at(-1)!.startsWith("> ") ? lines.at(-1)!.slice(2) : null;
  const after = lines.slice(does + 2, told === null ? undefined : -1);
  const before = lines.slice(0, does);
  const at = before.find((line) => line.startsWith("at "))?.slice(3);
  const [jug = "", ...others] = before
    .filter((line) => !line.startsWith("at "))
    .join("\n")
    .split("\n+++ ");
  const texts = Object.fromEntries(
    others.map((other) => [`/shed/${other.split("\n")[0]}`, textOf(other.split("\n").slice(1))]),
  );
  return {
    title,
    texts: { ...texts, [JUG]: textOf(jug.split("\n")) },
    at: at === undefined ? JUG : `/shed/${at}`,
    gesture: gestureOf(lines[does]!),
    after: lines[does + 1] === "---" ? textOf(after) : null,
    told,
  };
}

const cases = readFileSync(inProject("tests/ide/bench/edits.txt"), "utf8").split("\n=== ").slice(1).map(caseOf);

describe("a gesture, the craft after it, and what is told", () => {
  test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { texts, at, gesture, after, told }) => {
    const answer = benchEditOf(shed(texts), at, { gesture });
    const files = answer.kind === "edits" ? answer.files : [];
    if (told !== null) expect(answer.kind === "edits" ? answer.told : answer.message).toBe(told);
    expect(files.map(({ file }) => file)).toEqual(after === null ? [] : [JUG]);
    if (after === null) return;
    const { edits } = files[0]!;
    const text = edited(texts[JUG]!, edits);
    expect(text).toBe(after);
    expect(edited(text, inverse(texts[JUG]!, edits))).toBe(texts[JUG]);
  });
});

const CHECKS = ["order-checked", "motors-checked", "mount-checked", "hover-checked"];
const blanks = fc.constantFrom(" ", "  ", "\t", "      ");
const comment = fc.constantFrom("", "", "  # seen", "\t#motors-checked 2020-01-01", " # allow stale-check: later");
const line = fc
  .tuple(
    blanks,
    fc.constantFrom(
      ...CHECKS.map((name) => `${name} 2026-04-18`),
      "roll 998 us to 2003 us",
      "pitch\t1000 us to 2000 us",
      "centres roll 1501 us  yaw 1502 us",
      "centres pitch 1499 us",
      "centres  yaw 1500",
      "motors-checked  once",
      "drop mount-checked",
      "drop all",
    ),
    comment,
  )
  .map((parts) => parts.join(""));
const other = fc.constantFrom(
  "",
  "  # a note",
  "# allow stale-check: seen",
  "pack",
  "  cells  6",
  "bench",
  "  ",
  "<<<<<<< a",
  "\u0000",
);
const body = fc
  .array(fc.oneof({ weight: 4, arbitrary: line }, { weight: 1, arbitrary: other }), { maxLength: 10 })
  .map((lines) => ["bench", ...lines]);
const texts = fc
  .tuple(
    body,
    body,
    fc.constantFrom("", "\uFEFF"),
    fc.constantFrom("\n", "\r\n", "\r"),
    fc.constantFrom("", "\n", "\n\n"),
  )
  .map(
    ([layer, own, bom, eol, end]): Texts => ({
      [JUG]: bom + ['craft "Jug"', 'use "habits.fettle"', "", ...own].join(eol) + end.replaceAll("\n", eol),
      "/shed/habits.fettle": ['layer "Habits"', ...layer, ""].join(eol),
    }),
  );
const gesture: fc.Arbitrary<BenchGesture> = fc.oneof(
  fc.constantFrom(...CHECKS).map((name) => ({ kind: "day" as const, check: `bench.${name}`, day: "2026-11-29" })),
  fc.constantFrom(...CHECKS).map((name) => ({ kind: "void" as const, check: `bench.${name}` })),
  fc
    .constantFrom(
      ["roll", "988 2012"],
      ["roll", ""],
      ["centres pitch", "1500"],
      ["centres yaw", ""],
      ["pitch", "2012 988"],
    )
    .map(([name, text]) => ({ kind: "reading" as const, name: `bench.${name}`, text: text! })),
);
const RUNS = { seed: 13, numRuns: 600 };

function lineOf(gesture: BenchGesture): string {
  return (gesture.kind === "reading" ? gesture.name : gesture.check).slice("bench.".length).split(" ")[0]!;
}

describe("of any script", () => {
  test("an edit touches lines of its own name alone, keeps ends and mark, comes true, and is undone whole", () => {
    let made = 0;
    fc.assert(
      fc.property(texts, gesture, (files, asked) => {
        const answer = benchEditOf(shed(files), JUG, { gesture: asked });
        if (answer.kind === "refused" || answer.files.length === 0) return;
        made++;
        const before = files[JUG]!;
        const { edits } = answer.files[0]!;
        const after = edited(before, edits);
        expect(edited(after, inverse(before, edits))).toBe(before);
        const name = lineOf(asked);
        const rest = (text: string) => text.split(/\r\n|\r|\n/).filter((each) => !each.includes(name));
        const left = rest(after);
        // A line that goes takes its note along, or leaves it where another line says the same name; no other line goes,
        // comes or moves but the heading of a new section.
        const gone = rest(before).filter((each) => !left.includes(each));
        expect(gone.every((each) => each.trim().startsWith("#"))).toBe(true);
        expect(left.filter((each) => each.trim() !== "" && !before.includes(each.trim()) && each !== "bench")).toEqual(
          [],
        );
        if (before.startsWith("\uFEFF")) expect(after.startsWith("\uFEFF")).toBe(true);
        const ends = (text: string) => new Set(text.match(/\r\n|\r|\n/g));
        expect([...ends(after)].every((end) => ends(before).has(end))).toBe(true);
        const setting = settingOf(shed({ ...files, [JUG]: after }).craft(JUG)!, `bench.${name}`);
        if (asked.kind === "day") expect(setting?.text).toBe(asked.day);
        if (asked.kind === "void") expect(setting).toBeUndefined();
        expect(benchEditOf(shed({ ...files, [JUG]: after }), JUG, { gesture: asked })).toMatchObject({
          kind: "edits",
          files: [],
        });
      }),
      RUNS,
    );
    expect(made).toBeGreaterThan(300);
  });

  test("a script that is no UTF-8 text is not written to", () => {
    const text = 'craft "Jug"\n\nbench\n  roll 998 us to 2003 us\n';
    const view = { read: () => ({ kind: "text", text, validUtf8: false }) as const };
    const answer = benchEditOf(shed({ [JUG]: text }, view), JUG, {
      gesture: { kind: "reading", name: "bench.roll", text: "" },
    });
    expect(answer).toMatchObject({ kind: "refused", message: expect.stringContaining("no UTF-8 text") });
  });

  test.each([
    "",
    ".",
    "bench.",
    "bench",
    "bench.roll.x",
    "bench.roll roll",
    "bench.centres",
    "constructor.x",
    "pack/.cells",
    "\u202Ebench.roll",
  ])("%j names nothing that could be written", (name) => {
    const answer = benchEditOf(shed({ [JUG]: 'craft "Jug"\n' }), JUG, {
      gesture: { kind: "reading", name, text: "1" },
    });
    expect(answer.kind).toBe("refused");
  });
});

describe("a reading while it is typed", () => {
  const trial = (text: string, name: string, typed: string) =>
    benchTrialOf(shed({ [JUG]: `craft "Jug"\n\n${text}` }), JUG, { name: `bench.${name}`, text: typed });

  test("is shown as it would be written, with what the rules would say of it", () => {
    expect(trial("", "roll", "998 2003")).toEqual({ kind: "reads", text: "998 us to 2003 us", found: [] });
    expect(trial("", "roll", "1040 2003")).toEqual({
      kind: "reads",
      text: "1040 us to 2003 us",
      found: [{ severity: "warning", message: expect.stringContaining("falls 40 us short of an end point") }],
    });
  });

  test("of several on a line only this one is judged", () => {
    const line = "bench\n  centres  roll 1700 us  pitch 1499 us\n";
    expect(trial(line, "centres pitch", "1500")).toMatchObject({ kind: "reads", found: [] });
    expect(trial(line, "centres roll", "1650")).toMatchObject({
      found: [
        { severity: "warning", message: expect.stringContaining("centres roll is 1650 us") },
        { severity: "hint", message: expect.stringContaining("1480 us to 1520 us is usual") },
      ],
    });
  });

  test("is told how to be written where it is not certain", () => {
    expect(trial("", "roll", "988")).toMatchObject({
      kind: "unclear",
      message: expect.stringContaining("as in “998 us to 2003 us”"),
    });
  });
});
