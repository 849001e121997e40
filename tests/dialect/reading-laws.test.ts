/** What holds of reading for every dialect and every text, over dialects made at random. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Dialect } from "../../shared/dialect/dialect.ts";
import { dialectOf } from "../../shared/dialect/dialects.ts";
import { readBoard } from "../../shared/dialect/read/read-board.ts";
import type { Reading } from "../../shared/dialect/read/reading.ts";
import { differencesOf } from "../../shared/ide/compare/compare.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import { catalogue } from "../ide/compare/made-lines.ts";
import { HANDSET, type MadeBoard, madeBoards } from "./made-dialects.ts";

const core = makeCore(catalogue);
/** A wider run by hand: RUNS=10000. */
const numRuns = Number(process.env.RUNS ?? 250);
const runs = { seed: Number(process.env.SEED ?? 13), numRuns };

function workspaceOf({ dialect, craft }: MadeBoard, more: Record<string, string> = {}): Workspace {
  return core.at(memoryFiles({ "/kiln.fettle": dialect, "/wheel.fettle": HANDSET, "/jug.fettle": craft, ...more }));
}

function read(workspace: Workspace, board: string): { dialect: Dialect; reading: Reading } {
  const dialect = dialectOf(workspace, "/kiln.fettle")!;
  const handset = workspace.script("/wheel.fettle");
  return { dialect, reading: readBoard(dialect, board, { workspace, handset, craft: null, uses: ["wheel.fettle"] }) };
}

test("made dialects have no fault, and neither have the craft that go with them", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const workspace = workspaceOf(made);
      const { issues } = dialectOf(workspace, "/kiln.fettle")!;
      expect(
        issues.filter(({ code }) => code === "syntax" || code === "unknown-name" || code === "slot-unmatched"),
      ).toEqual([]);
      expect(workspace.script("/jug.fettle")!.issues.filter(({ code }) => code !== "unusual-value")).toEqual([]);
    }),
    runs,
  );
});

test("every line has one state, and no byte of what is not understood is lost", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const { reading } = read(workspaceOf(made), made.board);
      const lines = made.board.split("\n");
      if (lines.at(-1) === "") lines.pop();
      expect(reading.lines.map(({ line }) => line)).toEqual(lines.map((_, i) => i));
      const kept = (reading.script.match(/^ {2}\|.*$/gm) ?? []).map((line) => line.slice(3));
      const lost = lines.filter((text, i) => {
        const { state } = reading.lines[i]!;
        return (state === "kept" || state === "odd" || text.startsWith(";")) && !kept.includes(text);
      });
      expect(lost).toEqual([]);
      expect(reading.read.issues.filter(({ code }) => code !== "unusual-value")).toEqual([]);
      for (const { state, says, by } of reading.lines) {
        if (state === "kept" || state === "idle") expect([says, by]).toEqual([[], []]);
        else expect(by).not.toEqual([]);
      }
    }),
    runs,
  );
});

test("what a board's text says is what its writer meant", () => {
  fc.assert(
    fc.property(madeBoards(true), (made) => {
      const { reading } = read(workspaceOf(made), made.board);
      const workspace = workspaceOf(made, { "/read.fettle": reading.script });
      const [mine, theirs] = [workspace.craft("/jug.fettle")!, workspace.craft("/read.fettle")!];
      const found = differencesOf(mine, theirs, catalogue).filter(({ what }) => !what.startsWith("verbatim."));
      expect(found.map(({ what, before, after }) => `${what}: ${before} → ${after}`)).toEqual([]);
    }),
    runs,
  );
});
