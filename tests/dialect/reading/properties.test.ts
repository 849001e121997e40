/** What holds for any board's text and for any dialect. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { lineReadings, readBoard } from "../../../shared/dialect/read/read-board.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { catalogue, dialectOf, KILN } from "./long-texts.ts";

const workspace = makeCore(catalogue).at(memoryFiles({}));
const context = { workspace, handset: null, craft: null };

const EXACT = `
text
  blanks exact
  comment "#"
  opening "begin"
  closing "end"
  heading "[{s}]"
codes
  said  text within '"' escape '\\'
  many  list said by ","
pack
  "cells={n:1 to 14}"       cells {n}
  "cells={n} of {k=lipo}"   cells {n}
pack "{s}"
  under "[{s}]"
  "cap {c}"  capacity {c} mAh
osd
  under ""
  "p={t:said}"  pilot-name {t}
  "{e}@{c}" "{e}/{r}"  {e} at {c}, {r}
`;

const dialects = [dialectOf(KILN), dialectOf(EXACT), dialectOf("")];

/** Lines as of a board, whole, cut, doubled or of any letters. */
const sound = fc.constantFrom(
  "falls at 175, ends 165",
  "holds 1100",
  "holds 99999",
  "shelf 0 a by 0 1..20",
  "shelf 1 - by 0 0..0",
  "shelf 0 f by 3 1..20",
  "tile 3 40c2",
  "tile 9 0000",
  "tile 3 00c2",
  "warns of low-pack",
  "spin R 20 40",
  "crate Big",
  "crate small",
  "firing 2",
  "bought 2026-01-01",
  "plug XT 30",
  "; note",
  "begin",
  "end",
  "# c",
  "[a]",
  "[b]",
  "cells=4",
  "cells=99",
  "cells=4 of lipo",
  "cells=4 of x",
  "cap 900",
  'p="a\\"b"',
  "amps@3",
  "amps/4",
  "",
  "  ",
);
const line = fc.oneof(
  { weight: 6, arbitrary: sound },
  { weight: 2, arbitrary: sound.chain((text) => fc.nat(text.length).map((at) => text.slice(0, at))) },
  {
    weight: 2,
    arbitrary: fc.tuple(sound, fc.constantFrom(" ", "\t", "  x", "{", '"', "\\")).map(([a, b]) => `${b}${a}${b}`),
  },
  { weight: 1, arbitrary: fc.string({ unit: "grapheme" }).map((text) => text.replace(/[\r\n\0]/g, "")) },
);
const text = fc
  .tuple(fc.array(fc.tuple(line, fc.constantFrom("\n", "\r\n", "\r")), { maxLength: 30 }), line)
  .map(([lines, last]) => lines.map(([each, end]) => each + end).join("") + last);

test("each line has one state, and each byte of it stands in an entry, is kept, or says nothing", () => {
  fc.assert(
    fc.property(fc.constantFrom(...dialects), text, (dialect, board) => {
      const reading = readBoard(dialect, board, context);
      const lines = board.split(/\r\n|\n|\r/);
      if (lines.at(-1) === "") lines.pop();
      expect(reading.lines.map((each) => each.line)).toEqual(lines.map((_, i) => i));
      const scriptLines = reading.script.split("\n");
      const held = new Map<number, string[]>();
      scriptLines.forEach((each, i) => {
        for (const from of reading.linesOf(i)) held.set(from, [...(held.get(from) ?? []), each]);
      });
      const kept = reading.read.kept.map((each) => each.text);
      for (const { line: at, state, says, why } of reading.lines) {
        const own = held.get(at) ?? [];
        const isVerbatim = own.includes(`  |${lines[at]}`);
        if (state === "odd" || state === "kept" || (state === "read" && why !== null)) expect(isVerbatim).toBe(true);
        if (state === "odd") expect(why).not.toBeNull();
        if (state === "read") expect(own.filter((each) => !each.startsWith("  |")).length).toBe(says.length);
        if (state !== "read") expect(says).toEqual([]);
      }
      // The kept lines are lines of the text in its order, each at most once.
      let from = 0;
      for (const each of kept) {
        const at = lines.indexOf(each, from);
        expect(at).toBeGreaterThanOrEqual(from);
        from = at + 1;
      }
    }),
    { seed: 13, numRuns: 2000 },
  );
});

test("the script has no finding of its own, and says what the lines say", () => {
  fc.assert(
    fc.property(fc.constantFrom(...dialects), text, (dialect, board) => {
      const { read, lines } = readBoard(dialect, board, context);
      expect(read.issues).toEqual([]);
      const said = read.entries.map((entry) => {
        const keyword = entry.kind === "mode" ? "when " : entry.kind === "element" ? "at " : "";
        return `${entry.section} ${entry.name} ${keyword}${entry.text}`;
      });
      expect(new Set(lines.flatMap(({ says }) => says))).toEqual(new Set(said));
    }),
    { seed: 13, numRuns: 1000 },
  );
});

test("what is remembered of lines changes nothing of what is read", () => {
  const remembering = dialects.map((_, i) => dialectOf([KILN, EXACT, ""][i]!));
  fc.assert(
    fc.property(fc.nat(dialects.length - 1), text, (i, board) => {
      const plain = lineReadings(dialectOf([KILN, EXACT, ""][i]!), board, catalogue);
      const again = lineReadings(remembering[i]!, board, catalogue);
      expect(again.map((each) => ({ ...each }))).toEqual(plain.map((each) => ({ ...each })));
    }),
    { seed: 13, numRuns: 300 },
  );
});
