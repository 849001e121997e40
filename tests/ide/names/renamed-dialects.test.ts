/** Codes, parts and slots of dialects made at random under other names: a board's text means what it meant, and the old name gives the old bytes back. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { occurrencesIn } from "../../../shared/ide/names/occurrences.ts";
import { renameAt } from "../../../shared/ide/names/rename.ts";
import { staysInFile } from "../../../shared/ide/names/thing.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";
import { HANDSET, type MadeBoard, madeBoards } from "../../dialect/made-dialects.ts";
import { catalogue } from "../compare/made-lines.ts";
import { afterRename, placeAfter, type Texts } from "./after-rename.ts";

const DIALECT = "/kiln.fettle";
const core = makeCore(catalogue);
const workspaceOf = (texts: Texts) => core.at(memoryFiles(texts));

/** What a board's text comes to by the dialect, and each finding of the dialect by its line. */
function meaningOf(texts: Texts, { board }: MadeBoard): unknown {
  const workspace = workspaceOf(texts);
  const dialect = dialectOf(workspace, DIALECT)!;
  const handset = workspace.script("/wheel.fettle");
  const { script, lines } = readBoard(dialect, board, { workspace, handset, craft: null, uses: ["wheel.fettle"] });
  const read = lines.map(({ line, state, by, says }) => [line, state, by, says]);
  return [script, read, dialect.issues.map(({ code, span }) => [code, span.line])];
}

test("another name for what a dialect names, and the one of something else, which is refused or means the same", () => {
  let done = 0;
  fc.assert(
    fc.property(madeBoards(false), fc.nat(), fc.nat(), (made, which, other) => {
      const texts = { [DIALECT]: made.dialect, "/wheel.fettle": HANDSET };
      const names = occurrencesIn(workspaceOf(texts), DIALECT).filter(
        ({ thing }) => staysInFile(thing) && thing.name !== "#",
      );
      const name = names[which % Math.max(1, names.length)];
      if (!name) return;
      const start = { line: name.line, character: name.start };
      const alike = names.filter(({ thing }) => thing.kind === name.thing.kind);
      for (const now of ["zq", alike[other % alike.length]!.thing.name]) {
        const there = finish(renameAt(workspaceOf(texts), DIALECT, start, now));
        if (there.kind === "refused") {
          expect(now).not.toBe("zq");
          continue;
        }
        const after = afterRename(texts, there);
        expect(meaningOf(after, made)).toEqual(meaningOf(texts, made));
        const back = finish(
          renameAt(workspaceOf(after), DIALECT, placeAfter(there.edits, DIALECT, start), name.thing.name),
        );
        expect(back.kind === "renamed" ? afterRename(after, back) : back).toEqual(texts);
        done++;
      }
    }),
    { seed: 13, numRuns: Number(process.env.RUNS ?? 60) },
  );
  expect(done).toBeGreaterThan(60);
});
