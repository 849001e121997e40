/** Scripts made from the grammar, then spoiled: read, spelled, laid out, typed, mended and merged. */
import { isDeepStrictEqual } from "node:util";
import { expect, test } from "vitest";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { scriptReader } from "../../../shared/model/read-script.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import type { TextEdit } from "../../../shared/syntax/span.ts";
import type { Tree } from "../../../shared/syntax/tree.ts";
import { brokenLaw } from "../../ide/format/laws.ts";
import { edited } from "../../ide/format/meaning.ts";
import type { Random } from "../random.ts";
import { tryCases } from "./cases.ts";
import { catalogue, scriptText } from "./grammar.ts";
import { brokenScript, brokenTree, difference, isRangeIn } from "./script-laws.ts";
import { spoiled } from "./spoil.ts";

const made = (random: Random) => spoiled(random, scriptText(random), scriptText(random, 2));
const reader = scriptReader(catalogue);

test("every text comes back, every place lies in it, and every value is read again as it is spelled", async () => {
  const tried = await tryCases(350, {
    make: made,
    fault: (text) => {
      const script = reader.read("/jug.fettle", text, true);
      return brokenTree(text, script.tree) ?? brokenScript(script, text, catalogue);
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("a text that is typed piece by piece is read as at once", async () => {
  const tried = await tryCases(25, {
    make: (random) => {
      const texts = [made(random)];
      for (let i = random.between(1, 5); i > 0; i--) texts.push(spoiled(random, texts.at(-1)!, texts[0]!));
      return texts;
    },
    fault: (texts) => {
      for (const text of texts) {
        const kept = reader.read("/jug.fettle", text, true);
        const found = difference(kept, scriptReader(catalogue).read("/jug.fettle", text, true));
        if (found !== null) return `${JSON.stringify(text)}: ${found}`;
      }
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("a text that is laid out means what it did, and is laid out again as it is", async () => {
  const tried = await tryCases(20, { make: made, fault: brokenLaw });
  expect(tried).toBeGreaterThan(0);
});

const core = makeCore(catalogue);
const HANDSET =
  'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  KN dial ch9 1000 us to 2000 us\n';

function found(text: string, layer: string): Finding[] {
  const files = { "/jug.fettle": text, "/base.fettle": layer, "/wheel.fettle": HANDSET };
  return findingsOf(core.at(memoryFiles(files)), "/jug.fettle");
}

/** Of a line with one of these nothing is understood; each line has one at a time, and mended it may have the next. */
const MISREAD = new Set(["syntax", "unknown-name", "wrong-type", "wrong-unit", "missing-unit"]);

/** The lines of a text of which nothing is understood, each with why. */
function misread(findings: readonly Finding[]): ReadonlyMap<number, string> {
  return new Map(findings.filter(({ code }) => MISREAD.has(code)).map(({ code, range }) => [range.start.line, code]));
}

interface Mending {
  readonly text: string;
  readonly tree: Tree;
  readonly before: readonly Finding[];
  readonly after: (mended: string) => readonly Finding[];
}

/** What is wrong with a fix; null where it removes its finding and breaks nothing. */
function brokenFix(
  { text, tree, before, after }: Mending,
  finding: Finding,
  edits: readonly TextEdit[],
): string | null {
  const mended = edited(text, edits);
  const [edit, more] = edits;
  const { line, character } = edit!.range.end;
  const isOneLine = !more && edit!.range.start.line === line && !/[\r\n]/.test(edit!.text);
  // Of a line that is not understood one fault is told, and once it is mended there may be others.
  const wasMisread = misread(before).has(line) || tree.issues.some(({ span }) => span.line === line);
  if (!wasMisread && parse(mended).issues.length > tree.issues.length) return `breaks a statement:\n${mended}`;
  const left = after(mended);
  if (isOneLine && misread(left).get(line) === "syntax" && !wasMisread) return `breaks its line:\n${mended}`;
  // A word into which it is written is no longer that word.
  if (isOneLine && !/^[\s,)]?$/.test(tree.lines[line]!.text.charAt(character))) return null;
  const isSame = (other: Finding) =>
    other.code === finding.code &&
    other.message === finding.message &&
    (!isOneLine || isDeepStrictEqual(other.range.start, finding.range.start));
  return left.filter(isSame).length >= before.filter(isSame).length ? `leaves it:\n${mended}` : null;
}

test("each finding lies in its text, and each fix of it removes it and breaks no line", async () => {
  const tried = await tryCases(5, {
    make: (random) => ({ text: made(random), layer: spoiled(random, scriptText(random, 2), "") }),
    shown: ({ text, layer }) => `${JSON.stringify(text)}\n${text}\n=== base\n${layer}`,
    fault: ({ text, layer }) => {
      const before = found(text, layer);
      const tree = parse(text);
      for (const finding of before) {
        if (!isRangeIn(finding.range, tree)) return `${finding.code} at ${JSON.stringify(finding.range)}`;
        for (const { title, edits } of finding.fixes) {
          if (edits.some(({ file }) => file !== "/jug.fettle")) continue;
          if (edits.some(({ range }) => !isRangeIn(range, tree))) return `${title} is made outside of the text`;
          const broken = brokenFix({ text, tree, before, after: (mended) => found(mended, layer) }, finding, edits);
          if (broken) return `“${title}” for ${finding.code}: ${finding.message} ${broken}`;
        }
      }
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("a text merged with itself, or with one that did not change, is the other", async () => {
  const names = { ours: "ours", base: "base", theirs: "theirs" };
  const tried = await tryCases(10, {
    make: (random) => {
      const base = made(random);
      return { base, ours: spoiled(random, base, ""), theirs: spoiled(random, base, scriptText(random, 1)) };
    },
    fault: ({ base, ours, theirs }) => {
      if (mergeTexts(base, ours, ours, names).text !== ours) return "both alike";
      if (mergeTexts(base, base, theirs, names).text !== theirs) return "only theirs";
      if (mergeTexts(base, ours, base, names).text !== ours) return "only ours";
      const { text, conflicts, clashes } = mergeTexts(base, ours, theirs, names);
      if (conflicts !== clashes.length) return `${conflicts} conflicts, and ${clashes.length} are told`;
      const lines = parse(text).lines.length;
      if (clashes.some(({ line }) => line < 0 || line >= lines))
        return `a clash outside of the text: ${JSON.stringify(clashes)}`;
      // What is not understood is merged by lines, of which git too finds others with the sides exchanged.
      if ([base, ours, theirs].some((each) => parse(each).issues.length > 0)) return null;
      const other = mergeTexts(base, theirs, ours, names).conflicts;
      return other === conflicts ? null : `${conflicts} conflicts and, the other way round, ${other}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});
