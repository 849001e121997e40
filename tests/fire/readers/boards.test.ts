/** Dialects and their boards' texts, made and of the demo, then spoiled: read, written, read again and learned from. */
import { isDeepStrictEqual } from "node:util";
import { expect, test } from "vitest";
import { boardLines } from "../../../shared/dialect/board-lines.ts";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { learnFrom } from "../../../shared/dialect/learn/learn-from.ts";
import { lineReadings, readBoard } from "../../../shared/dialect/read/read-board.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { formatted } from "../../../shared/ide/format/format.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { edited } from "../../ide/format/meaning.ts";
import type { Random } from "../random.ts";
import { boardOf, HANDSET, type MadeBoard } from "./boards.ts";
import { tryCases } from "./cases.ts";
import { catalogue } from "./grammar.ts";
import { brokenScript, brokenTree, isInWords, isRangeIn, isSpanIn } from "./script-laws.ts";
import { spoiled } from "./spoil.ts";

const core = makeCore(catalogue);
const shown = (made: MadeBoard) =>
  `=== dialect\n${made.dialect}\n=== craft\n${made.craft}\n=== board\n${made.board}\n${JSON.stringify(made)}`;

/** The dialect or the board's text of a board, or both, spoiled. */
function spoiledBoard(random: Random): MadeBoard {
  const [made, other] = [boardOf(random), boardOf(random)];
  const which = random.below(4);
  return {
    dialect: which > 0 ? made.dialect : spoiled(random, made.dialect, other.dialect),
    craft: which === 3 ? spoiled(random, made.craft, other.craft) : made.craft,
    board: random.onceIn(4) ? made.board : spoiled(random, made.board, random.oneOf([other.board, made.dialect])),
  };
}

function workspaceOf({ dialect, craft }: MadeBoard) {
  return core.at(memoryFiles({ "/kiln.fettle": dialect, "/wheel.fettle": HANDSET, "/jug.fettle": craft }));
}

test("every dialect comes back, each fault of it lies in its text, and each fix can be made", async () => {
  const tried = await tryCases(10, {
    make: (random) => spoiled(random, boardOf(random).dialect, boardOf(random).dialect),
    fault: (text) => {
      const tree = parse(text);
      const { issues } = readDialect("/kiln.fettle", tree, catalogue);
      for (const { message, span, fixes = [], related = [] } of issues) {
        if (!isInWords(message, text)) return `a message: ${message}`;
        for (const at of [span, ...related.map((each) => each.span)])
          if (!isSpanIn(at, tree)) return `an issue at ${JSON.stringify(at)}: ${message}`;
        for (const { title, edits } of fixes) {
          if (edits.some(({ range }) => !isRangeIn(range, tree))) return `a fix outside of the text: ${title}`;
          const mended = readDialect("/kiln.fettle", parse(edited(text, edits)), catalogue).issues;
          const isSame = (other: (typeof issues)[number]) =>
            other.message === message && other.code === issues[0]!.code;
          if (mended.filter(isSame).length > issues.filter(isSame).length)
            return `“${title}” makes more of: ${message}`;
        }
      }
      return brokenTree(text, tree);
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("a dialect that is laid out reads a board's text as it did", async () => {
  const tried = await tryCases(1, {
    make: spoiledBoard,
    shown,
    fault: ({ dialect, board }) => {
      const laid = formatted(parse(dialect), catalogue);
      if (formatted(parse(laid), catalogue) !== laid) return "laid out again it is another text";
      const read = (text: string) => {
        const found: Dialect = readDialect("/kiln.fettle", parse(text), catalogue);
        return lineReadings(found, board, catalogue).map(({ state, says }) => ({ state, says }));
      };
      return isDeepStrictEqual(read(dialect), read(laid))
        ? null
        : `another reading: ${JSON.stringify([read(dialect), read(laid)])}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("no line of a board's text is lost, and the script that it becomes is sound and comes back", async () => {
  const tried = await tryCases(8, {
    make: spoiledBoard,
    shown,
    fault: (made) => {
      const workspace = workspaceOf(made);
      const dialect = dialectOf(workspace, "/kiln.fettle");
      if (!dialect) return null;
      const handset = workspace.script("/wheel.fettle");
      const reading = readBoard(dialect, made.board, { workspace, handset, craft: null, uses: ["wheel.fettle"] });
      const lines = boardLines(made.board);
      if (
        !isDeepStrictEqual(
          reading.lines.map(({ line }) => line),
          [...lines.keys()],
        )
      )
        return "not every line has one state";
      const kept = new Set(reading.read.kept.map(({ text }) => text));
      for (const { line, state } of reading.lines)
        if ((state === "kept" || state === "odd") && !kept.has(lines[line]!))
          return `line ${line} is lost: ${JSON.stringify(lines[line])}`;
      for (let i = 0; i < reading.read.tree.lines.length; i++)
        if (reading.linesOf(i).some((line) => line < 0 || line >= lines.length)) return `line ${i} comes from none`;
      // A script is no text then, and that is said.
      if (made.board.includes("\0"))
        return reading.notes.some((each) => each.includes("zero bytes")) ? null : "zero bytes are not told of";
      const faulty = reading.read.issues.find(({ code }) => code === "syntax" || code === "unknown-name");
      if (faulty) return `the script has a fault: ${faulty.message}\n${reading.script}`;
      return brokenTree(reading.script, reading.read.tree) ?? brokenScript(reading.read, reading.script, catalogue);
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("what was read is written back onto its own text, and once written is written again as it is", async () => {
  const tried = await tryCases(2, {
    make: spoiledBoard,
    shown,
    fault: (made) => {
      const workspace = workspaceOf(made);
      const dialect = dialectOf(workspace, "/kiln.fettle");
      const own = workspace.craft("/jug.fettle");
      if (!dialect) return null;
      if (own) writeBoard(dialect, own, workspace, made.board);
      const handset = workspace.script("/wheel.fettle");
      const read = (board: string) =>
        readBoard(dialect, board, { workspace, handset, craft: null, uses: ["wheel.fettle"] });
      const write = (script: string, base: string | null) => {
        const files = { "/kiln.fettle": made.dialect, "/wheel.fettle": HANDSET, "/jug.fettle": script };
        const there = core.at(memoryFiles(files));
        return writeBoard(dialect, there.craft("/jug.fettle")!, there, base).text;
      };
      const script = read(made.board).script;
      const once = write(script, made.board);
      const twice = write(script, once);
      return once === twice ? null : `written again it is another text:\n${once}\n===\n${twice}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("whatever pairs are learned from, what is learned is a dialect without a fault of syntax", async () => {
  const tried = await tryCases(1, {
    make: (random) => {
      const first = boardOf(random);
      return random.some(random.between(1, 3), () => ({
        ...first,
        craft: random.onceIn(2) ? first.craft : spoiled(random, first.craft, first.board),
        board: spoiled(random, first.board, first.board),
      }));
    },
    shown: (made) => made.map(shown).join("\n\n"),
    fault: (made) => {
      const files = Object.fromEntries(made.map(({ craft }, i) => [`/${i}.fettle`, craft]));
      const workspace = core.at(memoryFiles({ ...files, "/wheel.fettle": HANDSET }));
      const pairs = made.flatMap(({ board }, i) => {
        const craft = workspace.craft(`/${i}.fettle`);
        return craft ? [{ craft, text: board, name: String(i) }] : [];
      });
      const { dialect } = learnFrom(pairs, workspace);
      const found = findingsOf(core.at(memoryFiles({ "/learned.fettle": dialect })), "/learned.fettle");
      const faulty = found.find(({ code }) => code === "syntax" || code === "unknown-name");
      return faulty ? `${faulty.message}\n${dialect}` : null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});
