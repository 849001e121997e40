/** What holds of writing for every dialect, craft and base, over dialects made at random. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { dialectOf } from "../../shared/dialect/dialects.ts";
import { readBoard } from "../../shared/dialect/read/read-board.ts";
import type { Reading } from "../../shared/dialect/read/reading.ts";
import { writeBoard } from "../../shared/dialect/write/write-board.ts";
import type { Written } from "../../shared/dialect/write/written.ts";
import { differencesOf } from "../../shared/ide/compare/compare.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import { catalogue } from "../ide/compare/made-lines.ts";
import { HANDSET, type MadeBoard, madeBoards } from "./made-dialects.ts";

const core = makeCore(catalogue);
/** A wider run by hand: RUNS=10000. */
const runs = { seed: Number(process.env.SEED ?? 13), numRuns: Number(process.env.RUNS ?? 300) };

interface Bench {
  readonly made: MadeBoard;
  read(board: string): Reading;
  /** A script beside the dialect, written onto a base. */
  write(script: string, base: string | null): Written;
  workspaceOf(scripts: Record<string, string>): Workspace;
}

function benchOf(made: MadeBoard): Bench {
  const files = { "/kiln.fettle": made.dialect, "/wheel.fettle": HANDSET };
  const workspaceOf = (scripts: Record<string, string>) => core.at(memoryFiles({ ...files, ...scripts }));
  return {
    made,
    workspaceOf,
    read: (board) => {
      const workspace = workspaceOf({});
      const handset = workspace.script("/wheel.fettle");
      const context = { workspace, handset, craft: null, uses: ["wheel.fettle"] };
      return readBoard(dialectOf(workspace, "/kiln.fettle")!, board, context);
    },
    write: (script, base) => {
      const workspace = workspaceOf({ "/jug.fettle": script });
      return writeBoard(dialectOf(workspace, "/kiln.fettle")!, workspace.craft("/jug.fettle")!, workspace, base);
    },
  };
}

/** What differs between two scripts in meaning, but for board text: SECTION.NAME each. */
function differing(bench: Bench, mine: string, theirs: string): string[] {
  const workspace = bench.workspaceOf({ "/mine.fettle": mine, "/theirs.fettle": theirs });
  return differencesOf(workspace.craft("/mine.fettle")!, workspace.craft("/theirs.fettle")!, catalogue)
    .filter(({ what }) => !what.startsWith("verbatim."))
    .map(({ what, before, after }) => `${what}: ${before} → ${after}`);
}

/** What the report tells of, as SECTION.NAME. */
function told({ rounded, cannot, unsaid, curves, filled, onlyBase }: Written): Set<string> {
  const whats = [...rounded, ...cannot, ...curves, ...filled].map(({ what }) => what);
  return new Set([...whats, ...unsaid, ...onlyBase].map((what) => what.replace(/ (?=[^ ]*$)/, ".")));
}

const isTold = (difference: string, written: Written): boolean => {
  const [what = ""] = difference.split(": ");
  return [...told(written)].some((each) => what === each || what.startsWith(`${each}.`) || each.startsWith(`${what} `));
};

const ends = ["rake the coals", "close the damper"];
const withoutEnds = (text: string): string =>
  text
    .split("\n")
    .filter((line) => !ends.includes(line))
    .join("\n")
    .replace(/\n+$/, "");

test("what was read is written back onto its own text as it stood", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const bench = benchOf(made);
      const { text, changes } = bench.write(bench.read(made.board).script, made.board);
      expect(withoutEnds(text)).toBe(withoutEnds(made.board));
      expect(withoutEnds(changes)).toBe("");
    }),
    runs,
  );
});

test("a craft that is written and read is the same, and nothing of it is rounded or left out", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const bench = benchOf(made);
      const written = bench.write(made.craft, null);
      // Made craft say only what their board can hold exactly, all of it.
      const { rounded, unsaid, cannot, byHand, onlyBase } = written;
      expect([rounded, unsaid, cannot, byHand, onlyBase]).toEqual([[], [], [], [], []]);
      expect(differing(bench, made.craft, bench.read(written.text).script)).toEqual([]);
    }),
    runs,
  );
});

test("a craft that is written, read and written again gives the same text", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const bench = benchOf(made);
      const once = bench.write(made.craft, null);
      if (once.curves.length > 0) return;
      expect(bench.write(bench.read(once.text).script, null).text).toBe(once.text);
    }),
    runs,
  );
});

test("a craft written onto another's text is read as that craft, but for what the report tells of", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const bench = benchOf(made);
      const written = bench.write(made.craft, made.board);
      expect([written.rounded, written.unsaid, written.cannot]).toEqual([[], [], []]);
      const found = differing(bench, made.craft, bench.read(written.text).script);
      expect(found.filter((each) => !isTold(each, written))).toEqual([]);
    }),
    runs,
  );
});

test("changes sent to a board that holds the base give it what the whole text says", () => {
  fc.assert(
    fc.property(madeBoards(false), (made) => {
      const bench = benchOf(made);
      const { text, changes, byHand } = bench.write(made.craft, made.board);
      if (byHand.length > 0) return;
      // A board takes what is said later; what stands above all headings it takes before it is told of one.
      const [first = ""] = changes.split("\n").filter((line) => !ends.includes(line));
      if (made.headings.length > 0 && !made.headings.includes(first)) return;
      const sent = `${made.board}\n${changes}`;
      expect(differing(bench, bench.read(text).script, bench.read(sent).script)).toEqual([]);
    }),
    runs,
  );
});
