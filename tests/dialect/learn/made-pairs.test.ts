/** What is learned from made pairs, held against a further text of the same board, which was not learned from. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { learnFrom } from "../../../shared/dialect/learn/learn-from.ts";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { wantedOf } from "../../../shared/dialect/write/wanted.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { catalogue, diceOf } from "../../ide/compare/made-lines.ts";
import { ALL_BLOCKS, type MadeLine } from "../made-blocks.ts";
import { HANDSET } from "../made-dialects.ts";

const core = makeCore(catalogue);
/** A wider run by hand: RUNS=2000. */
const numRuns = Number(process.env.RUNS ?? 200);

function craftText(entries: readonly MadeLine[]): string {
  return `craft "Jug"\n\nuse "wheel.fettle"\n${entries.map(({ section, text }) => `\n${section}\n  ${text}\n`).join("")}`;
}

const anyOrder = (rest: string) => rest.split(", ").sort().join(", ");

/** A text in which a board may need an escape. */
const hasMark = (rest: string) => rest.startsWith('"') && /[\\'^"]/.test(rest.slice(1, -1));

/** Some texts of one board with their scripts; the last is not learned from. */
function madeTexts(seed: number, count: number) {
  const dice = diceOf(seed);
  const kinds = dice.some([...ALL_BLOCKS.keys()], 1 + dice.below(6));
  const blocks = kinds.map((kind) => ALL_BLOCKS[kind]!(diceOf(seed + kind), `${"kswteh"[kind % 6]}ol${kind}`));
  return Array.from({ length: count + 1 }, () => {
    const said = blocks.map((block) => block.say(dice));
    const noise = dice.chance(0.5) ? [`soot ${dice.below(90)}`] : [];
    const lines = [...said.flatMap(({ board }) => board), ...noise];
    return {
      script: craftText(said.flatMap(({ entries }) => entries)),
      text: ["kiln of spring", ...dice.some(lines, lines.length), ""].join("\n"),
    };
  });
}

function tried(seed: number, count: number) {
  const texts = madeTexts(seed, count);
  const files = Object.fromEntries(texts.map(({ script }, i) => [`/${i}.fettle`, script]));
  const workspace = core.at(memoryFiles({ ...files, "/wheel.fettle": HANDSET }));
  const craft = (i: number) => workspace.craft(`/${i}.fettle`)!;
  const pairs = texts.slice(0, count).map(({ text }, i) => ({ craft: craft(i), text, name: String(i) }));
  const learned = learnFrom(pairs, workspace);
  const dialect = readDialect("/learned.fettle", parse(learned.dialect), catalogue);
  const unseen = wantedOf(craft(count), workspace).wants;
  const rests = new Map(unseen.map(({ what, rest }) => [what, rest]));
  const reading = readBoard(dialect, texts[count]!.text, { workspace, handset: null, craft: craft(count) });
  const says = reading.lines.filter(({ state }) => state === "read").flatMap((line) => line.says);
  const right = new Set<string>();
  const wrong: string[] = [];
  const unseenMarks: string[] = [];
  for (const each of new Set(says)) {
    const what = [...rests.keys()].find((name) => each.startsWith(`${name} `));
    if (what !== undefined && anyOrder(each.slice(what.length + 1)) === anyOrder(rests.get(what)!)) right.add(what);
    // How a board writes a mark inside its text is not told by texts without one; no code can say “without marks”.
    else if (what !== undefined && hasMark(rests.get(what)!)) unseenMarks.push(each);
    else wrong.push(each);
  }
  // What three texts say with three values, none of it a condition or a curve of the board's own.
  const seen = pairs.map(
    (pair) => new Map(wantedOf(pair.craft, workspace).wants.map(({ what, rest }) => [what, rest])),
  );
  const decided = unseen.filter(({ what, content, item }) => {
    const values = seen.flatMap((each) => each.get(what) ?? []);
    return content.kind !== "condition" && item === null && values.length === count && new Set(values).size === count;
  });
  return {
    wrong,
    unseenMarks,
    right,
    decided: decided.map(({ what }) => what),
    issues: dialect.issues,
    dialect: learned.dialect,
  };
}

test("what is learned from two to four texts reads a further one as its script says", { timeout: 600_000 }, () => {
  let [found, all, marks] = [0, 0, 0];
  const missed = new Map<string, number>();
  const bad: string[] = [];
  fc.assert(
    fc.property(fc.nat(2 ** 30), fc.integer({ min: 2, max: 4 }), (seed, count) => {
      const { wrong, unseenMarks, right, decided, issues, dialect } = tried(seed, count);
      if (process.env.RUNS) {
        for (const each of wrong) bad.push(`${seed}/${count}: ${each}`);
      } else expect(wrong, dialect).toEqual([]);
      expect(
        issues.filter(({ code }) => code === "syntax" || code === "unknown-name"),
        dialect,
      ).toEqual([]);
      marks += unseenMarks.length;
      if (count < 3) return;
      for (const what of decided) {
        all++;
        if (right.has(what)) found++;
        else missed.set(what, (missed.get(what) ?? 0) + 1);
      }
    }),
    { seed: 13, numRuns },
  );
  if (process.env.RUNS)
    console.log(found, all, [...missed].sort((a, b) => b[1] - a[1]).slice(0, 25), bad.length, bad.slice(0, 25), marks);
  expect(all).toBeGreaterThan(numRuns);
  expect(found / all).toBeGreaterThan(0.85);
});

test("no texts are too strange to learn from", () => {
  const line = fc.oneof(fc.string(), fc.stringMatching(/^[a-c0-9 "'.{}=\\-]{0,12}$/));
  fc.assert(
    fc.property(fc.array(fc.array(line, { maxLength: 8 }), { minLength: 1, maxLength: 3 }), (texts) => {
      const files = Object.fromEntries(
        texts.map((_, i) => [`/${i}.fettle`, craftText([{ section: "pack", text: `capacity ${400 + 10 * i} mAh` }])]),
      );
      const workspace = core.at(memoryFiles({ ...files, "/wheel.fettle": HANDSET }));
      const pairs = texts.map((lines, i) => ({
        craft: workspace.craft(`/${i}.fettle`)!,
        text: [`yarn ${40 + i}`, ...lines].join("\n"),
        name: String(i),
      }));
      expect(typeof learnFrom(pairs, workspace).dialect).toBe("string");
    }),
    { seed: 13, numRuns: 200 },
  );
});
