/** What holds of all certain repairs: slips in sound craft are undone, and nothing is made worse. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { textWith } from "../../../shared/ide/context/trial.ts";
import { certainFixesOf } from "../../../shared/ide/structure/fix-all.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { finish } from "../../../shared/text/steps.ts";

const texts: Record<string, string> = {};
for (const folder of ["examples", "tests/fixtures"]) {
  const root = join(import.meta.dirname, "../../..", folder);
  for (const name of readdirSync(root, { recursive: true, encoding: "utf8" }))
    if (name.endsWith(".fettle")) texts[`/${folder}/${name}`] = readFileSync(join(root, name), "utf8");
}
const core = makeCore(makeCatalogue());
const workspaceWith = (file: string, text: string) => core.at(memoryFiles({ ...texts, [file]: text }));

function repaired(file: string, text: string): string {
  const workspace = workspaceWith(file, text);
  return textWith(workspace.script(file)!, finish(certainFixesOf(workspace, file)));
}

/** What is wrong with lines by themselves, as codes in order. */
const toldOf = (file: string, text: string) =>
  workspaceWith(file, text)
    .script(file)!
    .issues.map(({ code }) => code)
    .sort();

// The lines of a dialect are the board's own words, which have no form to be put right.
const all = Object.keys(texts).filter((file) => !/\/faulty\//.test(file) && !/^dialect/m.test(texts[file]!));
const sound = all.filter(
  (file) => toldOf(file, texts[file]!).length === 0 && repaired(file, texts[file]!) === texts[file],
);

/** Slips of a line, each with how often it is there to be made; null where it is not. */
const SLIPS: readonly ((line: string) => string | null)[] = [
  (line) => replaced(line, /^(\s+)([a-z])(?=[a-z0-9-]* )/, (_, indent, letter) => indent + letter.toUpperCase()),
  (line) => replaced(line, /^(\s+[a-z][a-z0-9]*)-(?=[a-z0-9]+ )/, "$1_"),
  (line) => replaced(line, /^(\s+[a-zA-Z][a-zA-Z0-9-]*)( +)(?=[^ #])/, "$1:$2"),
  (line) => replaced(line, /^(\s+[a-z][a-z0-9-]*)( +)(?=[^ #])/, "$1 =$2"),
  (line) => replaced(line, /^([^"#']*)# /, "$1// "),
  (line) => replaced(line, /^(craft|layer|handset|use) "([^"\\]*)"/, "$1 “$2”"),
  (line) => replaced(line, /^(\s+[a-z-]+ +when .*) and /, "$1 && "),
  (line) => replaced(line, /^(\s+[a-z-]+ +when .*) or /, "$1 || "),
  (line) => replaced(line, /^(\s+[a-z-]+ +when [^#]*[A-Z][A-Z0-9]* )is (?!not)/, "$1== "),
  (line) => replaced(line, /^(\s+[a-z-]+ +)(-?\d+)\.(\d\d?) /, "$1$2,$3 "),
  (line) => replaced(line, /^(\s+[a-z-]+ +)(\d+) *$/, '$1"$2"'),
];

function replaced(line: string, pattern: RegExp, by: string | ((...found: string[]) => string)): string {
  return line.replace(pattern, by as string);
}

const slip = fc.record({ line: fc.nat(200), kind: fc.nat(SLIPS.length - 1) });

/** A text with slips in some of its lines, one in each. */
function withSlips(text: string, slips: readonly { line: number; kind: number }[]): string {
  const lines = text.split("\n");
  const slipped = new Set<number>();
  for (const { line, kind } of slips) {
    const at = line % lines.length;
    if (slipped.has(at) || inVerbatim(lines, at)) continue;
    const made = SLIPS[kind]!(lines[at]!);
    if (made === null || made === lines[at]) continue;
    lines[at] = made;
    slipped.add(at);
  }
  return lines.join("\n");
}

const inVerbatim = (lines: readonly string[], at: number) =>
  lines
    .slice(0, at)
    .findLast((line) => /^[a-z]/.test(line))
    ?.startsWith("verbatim") ?? false;

test("there are enough sound craft", () => {
  expect(sound.length).toBeGreaterThan(60);
});

/** With one blank for several: those round a sign that is removed do not tell how many there were. */
const spaced = (text: string) => text.replace(/ {2,}/g, " ");

test("slips in a sound script are undone, to the word", () => {
  let count = 0;
  fc.assert(
    fc.property(fc.constantFrom(...sound), fc.array(slip, { minLength: 1, maxLength: 8 }), (file, slips) => {
      const text = withSlips(texts[file]!, slips);
      if (text === texts[file]) return;
      count++;
      expect(spaced(repaired(file, text))).toBe(spaced(texts[file]!));
    }),
    { seed: Number(process.env.SEED ?? 13), numRuns: Number(process.env.RUNS ?? 120) },
  );
  expect(count).toBeGreaterThan(60);
});

test("of any text once is enough, and no line has more wrong with it than before", () => {
  const cut = fc.tuple(fc.nat(3000), fc.nat(40), fc.nat(3000));
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.keys(texts)),
      fc.array(cut, { maxLength: 4 }),
      fc.array(slip, { maxLength: 4 }),
      (file, cuts, slips) => {
        const mutilated = cuts.reduce((made, [from, length, to]) => {
          const rest = made.slice(0, from) + made.slice(from + length);
          return rest.slice(0, to) + made.slice(from, from + length) + rest.slice(to);
        }, texts[file]!);
        const text = withSlips(mutilated, slips);
        const once = repaired(file, text);
        expect(repaired(file, once)).toBe(once);
        const before = toldOf(file, text);
        for (const code of toldOf(file, once)) {
          const at = before.indexOf(code);
          expect(at, `${code} is new`).toBeGreaterThanOrEqual(0);
          before.splice(at, 1);
        }
      },
    ),
    { seed: Number(process.env.SEED ?? 13), numRuns: Number(process.env.RUNS ?? 60) },
  );
});

test("no certain repair is left of faulty craft, unless it would make another line wrong", () => {
  const left: string[] = [];
  for (const file of Object.keys(texts).filter((each) => /\/faulty\//.test(each))) {
    const once = repaired(file, texts[file]!);
    for (const { code, fixes } of findingsOf(workspaceWith(file, once), file))
      if (fixes.some(({ certain, edits }) => certain && edits.every((edit) => edit.file === file)))
        left.push(`${file} ${code}`);
  }
  expect(left).toEqual([]);
});
