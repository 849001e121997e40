/** Scripts written in every way that the language allows, and gestures on what they show. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { layoutOf } from "../../../shared/osd/layout.ts";
import type { OsdGesture } from "../../../shared/protocol/osd-edit.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import { answerTo, cellOf, edited, inverse, JUG, shed, type Texts } from "./scripts-edited.ts";

const WIDE = "/shed/wide.fettle";
const NAMES = ["amps", "pack-volts", "flight-time", "alerts", "sight", "mode", "craft", "link-quality", "horizon-line"];

const blanks = fc.constantFrom("", " ", "  ");
const gap = fc.constantFrom(" ", "  ", "\t", "      ");
const comment = fc.constantFrom("", "# seen", "  # a “note” at left+3, top", "\t#amps at 1, 1");
const axis = (anchors: readonly string[]) =>
  fc.oneof(
    fc.nat({ max: 20 }).map(String),
    fc.constantFrom(...anchors),
    fc
      .tuple(fc.constantFrom(...anchors), blanks, fc.constantFrom("+", "-"), blanks, fc.nat({ max: 20 }))
      .map((parts) => parts.join("")),
  );
const place = fc
  .tuple(axis(["left", "centre", "right"]), blanks, blanks, axis(["top", "middle", "bottom"]))
  .map(([column, before, after, row]) => `${column}${before},${after}${row}`);
const between = fc.constantFrom("", "  # a note", "# allow osd-overlap: seen", "  # mode at 1, 1", "  ");

/** A section `osd` in some order, with comments and blank lines in it. */
const section = (names: readonly string[], grid: string) =>
  fc
    .tuple(
      fc.array(fc.tuple(fc.constantFrom(...names), gap, gap, place, comment, fc.option(between, { nil: null })), {
        minLength: 1,
        maxLength: 12,
      }),
      gap,
    )
    .map(([entries, indent]) => [
      "osd",
      ...(grid === "" ? [] : [`  grid ${grid}`]),
      ...entries.flatMap(([name, a, b, cell, said, above]) => [
        ...(above === null ? [] : [above]),
        `${indent}${name}${a}at${b}${cell}${said}`,
      ]),
    ]);

const end = fc.constantFrom("\n", "\r\n", "\r");
const tail = fc.constantFrom("", "video\n  signal analogue\n", "  \n", "\n# the end");
const texts: fc.Arbitrary<Texts> = fc
  .tuple(
    section(NAMES, "30 x 16"),
    fc.option(section(NAMES.slice(3), ""), { nil: [] }),
    fc.constantFrom("", "\uFEFF"),
    end,
    end,
    tail,
  )
  .map(([layer, own, bom, eol, layerEol, behind]) => ({
    [WIDE]: ['layer "Wide"', "", ...layer, ""].join(layerEol),
    [JUG]: bom + ['craft "Jug"', 'use "wide.fettle"', "", ...own].join(eol) + (eol + behind).replaceAll("\n", eol),
  }));

/** Texts, and an element that they show, to be put somewhere on the grid. */
const scene = fc.tuple(texts, fc.nat(), fc.nat({ max: 29 }), fc.nat({ max: 15 }), fc.constantFrom("there", "override"));

function shownIn(files: Texts): string[] {
  const workspace = shed(files);
  return layoutOf(workspace.craft(JUG)!, workspace.catalogue, "osd")!.elements.map(({ name }) => name);
}

function answered(files: Texts, gesture: OsdGesture, where: "there" | "override") {
  const answer = answerTo(files, gesture, { where });
  if (answer.kind !== "edits") throw new Error(JSON.stringify(answer));
  const changed = answer.files.map(({ file, edits }) => ({ file, edits, text: edited(files[file]!, edits) }));
  return { changed, result: { ...files, ...Object.fromEntries(changed.map(({ file, text }) => [file, text])) } };
}

const anchorsIn = (line: string) => line.match(/\b(left|centre|right|top|middle|bottom)\b/g)?.join(" ") ?? "";
const RUNS = { numRuns: 120, seed: 2026 };

test("a move puts the element at the expected cell, changes one line and nothing else", () => {
  const rewritten = { onTheirLine: 0, moreLines: 0 };
  fc.assert(
    fc.property(scene, ([files, pick, column, row, where]) => {
      const names = shownIn(files);
      const element = names[pick % names.length]!;
      const others = new Map(names.map((name) => [name, cellOf(files, name)]));
      const { changed, result } = answered(files, { kind: "move", element, column, row }, where);
      expect(cellOf(result, element)).toEqual([column, row]);
      for (const name of names) if (name !== element) expect(cellOf(result, name)).toEqual(others.get(name));
      for (const { file, text } of changed) {
        const before = splitLines(files[file]!);
        const now = splitLines(text);
        const inLine = now.lines.flatMap((line, i) => (line === before.lines[i] ? [] : [i]));
        if (now.lines.length !== before.lines.length) {
          rewritten.moreLines++;
          continue;
        }
        rewritten.onTheirLine++;
        expect(now.ends).toEqual(before.ends);
        expect(inLine).toHaveLength(1);
        const [was, is] = [before.lines[inLine[0]!]!, now.lines[inLine[0]!]!];
        expect(anchorsIn(is)).toBe(anchorsIn(was));
        // All but the two axes: blanks between the words, the comma with those around it, the comment.
        const frame = (line: string) =>
          /^(.*?at[ \t]+)[^,#]*?([ \t]*,[ \t]*)[^#\t]*?((?:[ \t]*#.*)?)$/.exec(line)?.slice(1);
        expect(frame(was)).toHaveLength(3);
        expect(frame(is)).toEqual(frame(was));
      }
    }),
    RUNS,
  );
  for (const count of Object.values(rewritten)) expect(count).toBeGreaterThan(10);
});

test("an override writes one line into the craft, with the anchors of the layer's", () => {
  fc.assert(
    fc.property(scene, ([files, pick, column, row]) => {
      const workspace = shed(files);
      const foreign = [...workspace.craft(JUG)!.osd.values()].filter(
        ({ source, value }) => source.file === WIDE && value?.kind === "cell",
      );
      fc.pre(foreign.length > 0);
      const { name, text } = foreign[pick % foreign.length]!;
      const { changed, result } = answered(files, { kind: "move", element: name, column, row }, "override");
      expect(result[WIDE]).toBe(files[WIDE]);
      expect(cellOf(result, name)).toEqual([column, row]);
      // Nothing is written where the element stood there before.
      expect(changed.map(({ file }) => file)).toEqual(String(cellOf(files, name)) === `${column},${row}` ? [] : [JUG]);
      for (const { text: now } of changed) {
        const left = splitLines(now).lines.filter((line) => line.trim() !== "");
        for (const line of splitLines(files[JUG]!).lines.filter((each) => each.trim() !== "")) {
          expect(left).toContain(line);
          left.splice(left.indexOf(line), 1);
        }
        const entry = left.find((line) => line !== "osd")!;
        expect(left.filter((line) => line !== "osd")).toEqual([entry]);
        expect(anchorsIn(entry)).toBe(anchorsIn(text));
      }
    }),
    RUNS,
  );
});

const gesture = fc.oneof(
  fc.record({
    kind: fc.constant("move" as const),
    element: fc.constantFrom(...NAMES),
    column: fc.nat({ max: 29 }),
    row: fc.nat({ max: 15 }),
  }),
  fc.record({
    kind: fc.constant("add" as const),
    element: fc.constantFrom(...NAMES, "lap"),
    column: fc.nat({ max: 29 }),
    row: fc.nat({ max: 15 }),
  }),
  fc.record({ kind: fc.constant("remove" as const), element: fc.constantFrom(...NAMES) }),
  fc.record({
    kind: fc.constant("fit" as const),
    columns: fc.integer({ min: 20, max: 64 }),
    rows: fc.integer({ min: 10, max: 32 }),
  }),
);

test("the inverse of every edit restores the bytes, and the edit has the expected effect", () => {
  const done = new Map<string, number>();
  fc.assert(
    fc.property(texts, gesture, fc.constantFrom("there" as const, "override" as const), (files, made, where) => {
      const answer = answerTo(files, made, { where });
      if (answer.kind === "refused") return;
      done.set(made.kind, (done.get(made.kind) ?? 0) + 1);
      const { changed, result } = answered(files, made, where);
      for (const { file, edits, text } of changed) expect(edited(text, inverse(files[file]!, edits))).toBe(files[file]);
      if (made.kind === "remove") expect(shownIn(result)).not.toContain(made.element);
      if (made.kind === "add" || made.kind === "move")
        expect(cellOf(result, made.element)).toEqual([made.column, made.row]);
      if (made.kind === "fit") {
        const workspace = shed(result);
        expect(layoutOf(workspace.craft(JUG)!, workspace.catalogue, "osd")!.grid).toEqual({
          columns: made.columns,
          rows: made.rows,
        });
        expect(shownIn(result).sort()).toEqual(shownIn(files).sort());
      }
    }),
    RUNS,
  );
  expect([...done.keys()].sort()).toEqual(["add", "fit", "move", "remove"]);
  for (const count of done.values()) expect(count).toBeGreaterThan(5);
});

test("a removed element takes no other with it", () => {
  fc.assert(
    fc.property(scene, ([files, pick, , , where]) => {
      const names = shownIn(files);
      const element = names[pick % names.length]!;
      const { result } = answered(files, { kind: "remove", element }, where);
      expect(shownIn(result).sort()).toEqual(names.filter((name) => name !== element).sort());
      for (const name of names) if (name !== element) expect(cellOf(result, name)).toEqual(cellOf(files, name));
    }),
    RUNS,
  );
});

const anyLine = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      ...[
        "  amps at left+3, top",
        "  mode at 1, 1 # a",
        "\tsight\tat\tcentre,middle",
        "  amps at 9999, 9999",
        "  lap at 3, right",
      ],
      ...["osd", "osd-second", "  # x", "  # allow osd-overlap", "", "  drop amps", "  drop mode sight"],
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      ...[
        "  drop all",
        "  grid pal",
        "  grid 0",
        "video",
        'verbatim "x"',
        "  | kept",
        'use "wide.fettle"',
        "  amps at left+",
      ],
      ...["<<<<<<< a", "=======", ">>>>>>> b", 'craft "Again"', 'craft "Jug" edition 9'],
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 20 }) },
);
const anyCell = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: -5, max: 40 }) },
  { weight: 1, arbitrary: fc.constantFrom(1e9, -1e9, 0.5, Number.NaN, Infinity, 9999, -9999) },
);
const anyName = fc.constantFrom("amps", "mode", "sight", "lap", "grid", "kettle");
const anyGesture: fc.Arbitrary<OsdGesture> = fc.oneof(
  fc.record({ kind: fc.constantFrom("move", "add"), element: anyName, column: anyCell, row: anyCell }),
  fc.record({ kind: fc.constant("remove"), element: anyName }),
  fc.record({ kind: fc.constant("fit"), columns: anyCell, rows: anyCell }),
);

test("for any script and any gesture, the answer is edits that do it, a question or a refusal", () => {
  const files = fc.tuple(fc.array(anyLine, { maxLength: 12 }), fc.array(anyLine, { maxLength: 12 }), end).map(
    ([layer, own, eol]): Texts => ({
      [WIDE]: ['layer "Wide"', "osd", "  grid 40 x 18", "  mode at right-3, top", ...layer].join(eol),
      [JUG]: ['craft "Jug"', 'use "wide.fettle"', "osd", ...own].join(eol),
    }),
  );
  const where = fc.constantFrom("there" as const, "override" as const, null);
  const page = fc.constantFrom("osd" as const, "osd-second" as const);
  const answers = new Map<string, number>();
  fc.assert(
    fc.property(files, anyGesture, where, page, (before, made, chosen, shown) => {
      const answer = answerTo(before, made, { where: chosen, page: shown });
      const kind = answer.kind === "edits" ? `edits: ${made.kind}` : answer.kind;
      answers.set(kind, (answers.get(kind) ?? 0) + 1);
      if (answer.kind === "refused") expect(answer.message).toMatch(/^[“A-Za-z].*\.$/);
      if (answer.kind !== "edits") return;
      const now: Record<string, string> = { ...before };
      for (const { file, edits } of answer.files) {
        now[file] = edited(before[file]!, edits);
        expect(edited(now[file]!, inverse(before[file]!, edits))).toBe(before[file]);
      }
      if (made.kind === "remove") expect(cellOf(now, made.element, shown)).toBeNull();
      else if (made.kind === "move" || made.kind === "add")
        expect(cellOf(now, made.element, shown)).toEqual([made.column, made.row]);
    }),
    { numRuns: 300, seed: 2026 },
  );
  const kinds = ["choose", "edits: add", "edits: fit", "edits: move", "edits: remove", "refused"];
  expect([...answers.keys()].sort()).toEqual(kinds);
});
