/** Texts of boards with the state of each line, and the script that they become. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { HANDSET, parseCases, type ReadingCase } from "./cases.ts";

const core = makeCore(makeCatalogue());
const folder = "tests/dialect/reading";

function readingOf({ dialect, board, handset }: ReadingCase) {
  const workspace = core.at(memoryFiles({ "/d.fettle": dialect, "/wheel.fettle": HANDSET }));
  const read = dialectOf(workspace, "/d.fettle")!;
  return {
    dialect: read,
    reading: readBoard(read, board, {
      workspace,
      handset: handset ? workspace.script("/wheel.fettle") : null,
      craft: null,
    }),
  };
}

for (const file of readdirSync(folder).filter((name) => name.endsWith(".txt"))) {
  describe(file, () => {
    for (const each of parseCases(readFileSync(`${folder}/${file}`, "utf8"))) {
      test(each.title, () => {
        const { dialect, reading } = readingOf(each);
        expect(dialect.issues.filter(({ code }) => code === "syntax" || code === "unknown-name")).toEqual([]);
        const shown = reading.lines.map(({ state, says }, i) => ({ text: each.lines[i]?.text, state, says }));
        expect(shown).toEqual(each.lines.map(({ text, state, says }) => ({ text, state, says })));
        for (const [i, { why }] of each.lines.entries()) expect(reading.lines[i]!.why ?? "").toContain(why);
        // A line that is read without more has no reason.
        for (const [i, { why, state }] of each.lines.entries())
          if (state === "read" && why === "") expect(reading.lines[i]!.why).toBeNull();
        expect(reading.script).toBe(each.script);
        expect(reading.read.issues).toEqual([]);
        const notes = reading.notes.join("\n");
        for (const note of each.notes) expect(notes).toContain(note);
        if (each.curves)
          expect(reading.curves.map(({ what, deviationDegS }) => `${what} ${deviationDegS}`)).toEqual(each.curves);
      });
    }
  });
}

test("that a text with zero bytes becomes no script that can be read is told", () => {
  const texts = ["pot 4\nzz\u0000 17\n", "pot 4\nzz 17\n"].map((board) => {
    const workspace = core.at(memoryFiles({ "/d.fettle": 'dialect "Kiln"\npack\n  "pot {c}"  cells {c}\n' }));
    return readBoard(dialectOf(workspace, "/d.fettle")!, board, { workspace, handset: null, craft: null });
  });
  expect(texts.map(({ notes }) => notes.some((each) => each.startsWith("The text holds zero bytes")))).toEqual([
    true,
    false,
  ]);
});
