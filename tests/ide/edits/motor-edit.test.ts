/** Gestures on the drawing of the motors: a file of them to read, and what holds of all. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type MotorEditQuery, motorEditOf } from "../../../shared/ide/edits/motor-edit.ts";
import type { OsdEdit } from "../../../shared/ide/edits/osd-edit.ts";
import { motorsPicture } from "../../../shared/ide/panel/motors.ts";
import type { MotorGesture } from "../../../shared/protocol/motor-edit.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import { edited, inverse, shed, type Texts } from "./scripts-edited.ts";

const pathOf = (name: string) => `/shed/${name}.fettle`;

interface Case {
  readonly title: string;
  readonly texts: Texts;
  readonly file: string;
  readonly query: MotorEditQuery;
  readonly expected: readonly string[];
}

/** “motor1 to front-left”, “motor2 turns clockwise”; behind it “there” or “override”, and “of FILE” where it is not the jug's. */
function readGesture(line: string): { readonly file: string; readonly query: MotorEditQuery } {
  const [, motor, kind, word, rest = ""] = /^motor(\d+) (to|turns) (\S+)(.*)$/.exec(line)!;
  const gesture = (
    kind === "to"
      ? { kind: "place", motor: Number(motor), place: word! }
      : { kind: "turn", motor: Number(motor), direction: word! }
  ) as MotorGesture;
  const where = (["there", "override"] as const).find((each) => rest.includes(each)) ?? null;
  const file = pathOf(/ of (\S+)/.exec(rest)?.[1] ?? "jug");
  return { file, query: { gesture, where } };
}

function readCase(block: string): Case {
  const [title = "", ...lines] = block.split("\n");
  const texts: Record<string, string[]> = {};
  let into: string[] = [];
  const expected: string[] = [];
  let made: ReturnType<typeof readGesture> | null = null;
  for (const line of lines) {
    if (line.startsWith("--- ")) texts[pathOf(line.slice(4))] = into = [];
    else if (line.startsWith(">>> ")) {
      made = readGesture(line.slice(4));
      into = expected;
    } else into.push(line);
  }
  const joined = Object.fromEntries(Object.entries(texts).map(([path, all]) => [path, `${all.join("\n")}\n`]));
  return { title, texts: joined, ...made!, expected: expected.filter((line) => line !== "") };
}

const cases = readFileSync(inProject("tests/ide/edits/motor-gestures.txt"), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map(readCase);

const answerTo = ({ texts, file, query }: Pick<Case, "texts" | "file" | "query">) =>
  motorEditOf(shed(texts), file, query);

function applied(texts: Texts, answer: Extract<OsdEdit, { kind: "edits" }>): Texts {
  const changed = answer.files.map(({ file, edits }) => [file, edited(texts[file]!, edits)] as const);
  return { ...texts, ...Object.fromEntries(changed) };
}

/** The lines that went and came, file by file. */
function changedLines(before: Texts, after: Texts): string[] {
  return Object.keys(before).flatMap((path) => {
    const name = /(\w+)\.fettle$/.exec(path)![1];
    const [old, now] = [splitLines(before[path]!).lines, splitLines(after[path]!).lines];
    if (old.length === now.length)
      return old.flatMap((line, i) =>
        line === now[i] ? [] : [`${name} -${line}`.trimEnd(), `${name} +${now[i]}`.trimEnd()],
      );
    const left = [...old];
    const came = now.flatMap((line) => {
      const at = left.indexOf(line);
      if (at >= 0) left.splice(at, 1);
      return at >= 0 ? [] : [`${name} +${line}`.trimEnd()];
    });
    return [...left.map((line) => `${name} -${line}`.trimEnd()), ...came];
  });
}

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { texts, file, query, expected }) => {
  const answer = answerTo({ texts, file, query });
  if (answer.kind === "refused") {
    expect(expected[0]).toMatch(/^refused: /);
    expect(answer.message).toContain(expected[0]!.slice("refused: ".length));
    return;
  }
  if (answer.kind === "choose") {
    const others = answer.sharedWith.length === 0 ? "nobody" : answer.sharedWith.join(", ");
    expect([`asks: ${answer.layer}, shared with ${others}`]).toEqual(expected);
    return;
  }
  const after = applied(texts, answer);
  const changed = changedLines(texts, after);
  expect(changed.length === 0 ? ["nothing"] : changed.filter((line) => line !== "jug +")).toEqual(
    expected.filter((line) => line !== "jug +"),
  );
  for (const { file: path, edits } of answer.files)
    expect(edited(after[path]!, inverse(texts[path]!, edits))).toBe(texts[path]);
});

test("the file has forty gestures and more, of every kind and with every answer", () => {
  expect(cases.length).toBeGreaterThan(40);
  const answers = cases.map((each) => answerTo(each).kind);
  for (const kind of ["edits", "choose", "refused"])
    expect(answers.filter((each) => each === kind).length).toBeGreaterThan(3);
});

const PLACES = ["rear-left", "front-left", "front-right", "rear-right", "left", "under-rear-left"];
const gap = fc.constantFrom(" ", "  ", "   ", "\t", "        ");
const motorLine = fc
  .record({
    indent: fc.constantFrom("  ", "\t", "    "),
    motor: fc.integer({ min: 1, max: 6 }),
    place: fc.option(fc.constantFrom(...PLACES), { nil: null }),
    direction: fc.option(fc.constantFrom("clockwise", "anticlockwise"), { nil: null }),
    output: fc.option(fc.integer({ min: 1, max: 9 }), { nil: null }),
    limit: fc.option(fc.integer({ min: 40, max: 100 }), { nil: null }),
    order: fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
    gaps: fc.array(gap, { minLength: 9, maxLength: 9 }),
    comment: fc.constantFrom("", "# by the strap", "  # place rear-left", "    # ok"),
  })
  .map(({ indent, motor, place, direction, output, limit, order, gaps, comment }) => {
    const fields = [
      place === null ? [] : ["place", place],
      direction === null ? [] : ["direction", direction],
      output === null ? [] : ["output", String(output)],
      limit === null ? [] : ["limit", `${limit} %`],
    ];
    const words = [`motor${motor}`, ...order.flatMap((index) => fields[index]!)];
    if (words.length === 1) words.push("output", "1");
    const text = words.map((word, index) => (index === 0 ? word : gaps[index - 1]! + word)).join("");
    return `${indent}${text}${comment === "" ? "" : ` ${comment}`}`;
  });
const between = fc.constantFrom(
  "",
  "  # a note",
  "  spin props-in",
  "  drop motor2",
  "  kv 1750 rpm/V",
  "  motor5 place kettle",
);
const lines = fc.array(fc.oneof({ weight: 4, arbitrary: motorLine }, { weight: 1, arbitrary: between }), {
  maxLength: 8,
});
const end = fc.constantFrom("\n", "\r\n", "\r");
const scripts: fc.Arbitrary<Texts> = fc
  .tuple(
    lines,
    lines,
    end,
    end,
    fc.constantFrom("", "\uFEFF"),
    fc.constantFrom("", "frame\n  motors 4\n  arm-layout true-x\n", "# the end"),
  )
  .map(([layer, own, eol, layerEol, bom, tail]) => ({
    [pathOf("base")]: ['layer "Base"', "", "motors", ...layer, ""].join(layerEol),
    [pathOf("mug")]: 'craft "Mug"\nuse "base.fettle"\n',
    [pathOf("jug")]:
      bom + ['craft "Jug"', 'use "base.fettle"', "", "motors", ...own, ""].join(eol) + tail.replaceAll("\n", eol),
  }));
const gesture: fc.Arbitrary<MotorGesture> = fc.oneof(
  fc.record({
    kind: fc.constant("place" as const),
    motor: fc.integer({ min: 1, max: 8 }),
    place: fc.constantFrom(...PLACES),
  }),
  fc.record({
    kind: fc.constant("turn" as const),
    motor: fc.integer({ min: 1, max: 8 }),
    direction: fc.constantFrom("clockwise" as const, "anticlockwise" as const),
  }),
);
const where = fc.constantFrom("there" as const, "override" as const);

/** All that is drawn of a craft's motors, by their numbers. */
function drawn(texts: Texts, of = "jug") {
  const workspace = shed(texts);
  const craft = workspace.craft(pathOf(of))!;
  const picture = motorsPicture(craft, workspace);
  return new Map(
    picture?.motors.map(({ number, place, direction, directionFrom, output, limitPercent, isRead }) => [
      number,
      { place, direction: directionFrom === "own" ? direction : null, output, limitPercent, isRead },
    ]),
  );
}

test("a gesture does what it says, all other motors stay, only their lines change, and undo gives the bytes back", () => {
  const seen = { swapped: 0, moved: 0, turned: 0, refused: 0 };
  fc.assert(
    fc.property(scripts, gesture, where, (texts, made, chosen) => {
      const before = drawn(texts);
      const answer = motorEditOf(shed(texts), pathOf("jug"), { gesture: made, where: chosen });
      if (answer.kind !== "edits") {
        expect(answer.kind).toBe("refused");
        seen.refused++;
        return;
      }
      const after = applied(texts, answer);
      for (const { file, edits } of answer.files)
        expect(edited(after[file]!, inverse(texts[file]!, edits))).toBe(texts[file]);
      const now = drawn(after);
      const expected = new Map(before);
      const nothing = { place: null, direction: null, output: null, limitPercent: null, isRead: true };
      const own = before.get(made.motor) ?? nothing;
      if (made.kind === "turn") {
        expected.set(made.motor, { ...own, direction: made.direction });
        seen.turned++;
      } else {
        const other = [...before].find(([number, { place }]) => place === made.place && number !== made.motor);
        if (other && own.place !== made.place) {
          expected.set(other[0], { ...other[1], place: own.place });
          seen.swapped++;
        } else seen.moved++;
        expected.set(made.motor, { ...own, place: made.place });
      }
      for (const [number, motor] of expected) expect(now.get(number) ?? nothing, `motor${number}`).toEqual(motor);
      // What is drawn besides is what the frame must have and no line says.
      for (const [number, motor] of now) if (!expected.has(number)) expect(motor).toEqual(nothing);
      if (chosen === "override") expect(after[pathOf("base")]).toBe(texts[pathOf("base")]);
      if (chosen === "override") expect(drawn(after, "mug")).toEqual(drawn(texts, "mug"));
      const changed = changedLines(texts, after);
      const isOfMotors = (line: string) => /^\w+ [-+]\s*motor\d/.test(line);
      // A new line at most has a section's name above it.
      expect(changed.filter((line) => !isOfMotors(line) && !/^\w+ [-+](\s*motors|# the end)?$/.test(line))).toEqual([]);
      const named = made.kind === "turn" ? 1 : 2;
      expect(changed.filter((line) => isOfMotors(line) && line.includes(" +")).length).toBeLessThanOrEqual(named);
    }),
    { seed: 13, numRuns: 400 },
  );
  expect(seen.swapped).toBeGreaterThan(10);
  expect(seen.moved).toBeGreaterThan(50);
  expect(seen.turned).toBeGreaterThan(50);
  expect(seen.refused).toBeGreaterThan(10);
});

test("every other word of a changed line stays, in its order, with the comment", () => {
  let count = 0;
  fc.assert(
    fc.property(scripts, gesture, (texts, made) => {
      const answer = motorEditOf(shed(texts), pathOf("jug"), { gesture: made, where: "there" });
      if (answer.kind !== "edits") return;
      const after = applied(texts, answer);
      for (const path of Object.keys(texts)) {
        const [old, now] = [splitLines(texts[path]!), splitLines(after[path]!)];
        if (old.lines.length !== now.lines.length) continue;
        expect(now.ends).toEqual(old.ends);
        for (const [i, line] of old.lines.entries()) {
          if (line === now.lines[i]) continue;
          count++;
          const commentOf = (text: string) => /#.*$/.exec(text)?.[0] ?? "";
          expect(commentOf(now.lines[i]!)).toBe(commentOf(line));
          const fields = (text: string) =>
            new Map(
              [...text.replace(/#.*$/, "").matchAll(/\b(place|direction|output|limit)[ \t]+(\S+)/g)].map(
                ([, name, value]) => [name, value],
              ),
            );
          const [was, is] = [fields(line), fields(now.lines[i]!)];
          for (const [name, value] of was)
            if (name !== (made.kind === "turn" ? "direction" : "place")) expect(is.get(name)).toBe(value);
          expect(/^\s*motor\d/.exec(now.lines[i]!)?.[0]).toBe(/^\s*motor\d/.exec(line)?.[0]);
        }
      }
    }),
    { seed: 13, numRuns: 300 },
  );
  expect(count).toBeGreaterThan(100);
});

test("for any script and any gesture the answer is edits, a question or a refusal in a sentence", () => {
  const anyLine = fc.oneof(
    { weight: 5, arbitrary: motorLine },
    {
      weight: 2,
      arbitrary: fc.constantFrom(
        "motors",
        "frame",
        "  motors 4",
        "  drop all",
        "  motor1",
        "  motor1 place",
        "<<<<<<< a",
        "=======",
        ">>>>>>> b",
        'use "base.fettle"',
        'craft "Again"',
        "",
      ),
    },
    { weight: 1, arbitrary: fc.string({ maxLength: 16 }) },
  );
  const anyGesture = fc.oneof(
    gesture,
    fc.record({
      kind: fc.constant("place"),
      motor: fc.constantFrom(0, -1, 9, 1.5, Number.NaN, 1e9),
      place: fc.constantFrom("rear", "kettle", ""),
    }),
    fc.record({
      kind: fc.constant("turn"),
      motor: fc.integer({ min: 0, max: 9 }),
      direction: fc.constantFrom("clockwise", "sideways", ""),
    }),
  ) as fc.Arbitrary<MotorGesture>;
  const seen = new Set<string>();
  fc.assert(
    fc.property(
      fc.array(anyLine, { maxLength: 12 }),
      fc.array(anyLine, { maxLength: 6 }),
      anyGesture,
      fc.constantFrom("there" as const, "override" as const, null),
      end,
      (own, layer, made, chosen, eol) => {
        const texts: Texts = {
          [pathOf("base")]: ['layer "Base"', "motors", ...layer].join(eol),
          [pathOf("jug")]: ['craft "Jug"', 'use "base.fettle"', "motors", ...own].join(eol),
        };
        const answer = motorEditOf(shed(texts), pathOf("jug"), { gesture: made, where: chosen });
        seen.add(answer.kind);
        if (answer.kind === "refused") expect(answer.message).toMatch(/^[A-Zm“].*\.$/);
        if (answer.kind !== "edits") return;
        const after = applied(texts, answer);
        const now = drawn(after).get(made.motor);
        if (made.kind === "place") expect(now?.place).toBe(made.place);
        else expect(now?.direction).toBe(made.direction);
      },
    ),
    { seed: 13, numRuns: 300 },
  );
  expect([...seen].sort()).toEqual(["choose", "edits", "refused"]);
});
