import { expect, test } from "vitest";
import { definitionsAt } from "../../../shared/ide/editor/definition.ts";
import { fixesAt } from "../../../shared/ide/editor/fixes.ts";
import { foldsOf } from "../../../shared/ide/editor/folding.ts";
import { hintsOf } from "../../../shared/ide/editor/hints.ts";
import { linksOf } from "../../../shared/ide/editor/links.ts";
import { symbolsOf } from "../../../shared/ide/editor/symbols.ts";
import { tokensOf } from "../../../shared/ide/editor/tokens.ts";
import { listNames } from "../../../shared/ide/reference/names.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";
import { atCursor } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;
const habits = 'layer "Habits"\nmodes\n  arm when TL is down\nrates\n  roll slope 100 deg/s end 600 deg/s\n';
const all = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

/** `file:line`, from 1, of every place that the word at the cursor leads to. */
function leadsTo(text: string): string[] {
  const { workspace, file, position } = atCursor(text, { "habits.fettle": habits });
  return definitionsAt(workspace, file, position).map(
    (each) => `${each.file.slice("/shed/".length)}:${each.range.start.line + 1}`,
  );
}

test("a word leads to the line that says what it is", () => {
  expect(leadsTo(craft("modes\n  level when T|R is mid\n"))).toEqual(["wheel.fettle:9"]);
  expect(leadsTo(craft("modes\n  level when TR is mi|d\n"))).toEqual(["wheel.fettle:9"]);
  expect(leadsTo(craft("modes\n  recorder when ar|m\n"))).toEqual(["habits.fettle:3"]);
  expect(leadsTo('craft "Jug"\nuse "habits.fet|tle"\n')).toEqual(["habits.fettle:1"]);
  expect(leadsTo(craft("rates\n  ro|ll end 700 deg/s\n"))).toEqual(["habits.fettle:5", "jug.fettle:6"]);
  expect(leadsTo(craft("pack\n  ce|lls 4\n  cells 6\n"))).toEqual(["jug.fettle:7"]);
  expect(leadsTo(craft("nonsense\n  he|re 4\n"))).toEqual([]);
});

test("hints: pulses beside positions, the pack's volts, cells", () => {
  const text = craft(
    "pack\n  cells 6\n  warn-at 3.5 V/cell\nmodes\n  level when TR is mid and not TL is up\nosd\n  grid 53 x 20\n  amps at right, bottom\n  clock at 3, 4\n",
  );
  const { workspace, file } = atCursor(text, { "habits.fettle": habits });
  const lines = text.split("\n");
  const shown = hintsOf(workspace, file, all).map(
    ({ at, label }) => `${lines[at.line]!.slice(0, at.character).trim()} [${label}]`,
  );
  expect(shown).toEqual([
    "warn-at 3.5 V/cell [= 21 V]",
    "level when TR is mid and not TL is up [1500, 1000 us]",
    "amps at right, bottom [= 47, 19]",
  ]);
});

test("the outline, what folds, what links", () => {
  const { workspace, file } = atCursor(craft('# two\n# notes\npack "old"\n  cells 4\n  cells 6\n\nosd\n  grid pal\n'));
  const script = workspace.script(file)!;
  const [jug] = symbolsOf(script);
  expect(jug?.name).toBe("Jug");
  expect(
    jug?.children.map(({ name, children }) => [name, children.map((each) => `${each.name} ${each.detail}`)]),
  ).toEqual([
    ["pack old", ["cells 4", "cells 6"]],
    ["osd", ["grid pal"]],
  ]);
  expect(foldsOf(script)).toEqual([
    { startLine: 1, endLine: 2, kind: "imports" },
    { startLine: 4, endLine: 5, kind: "comment" },
    { startLine: 6, endLine: 8, kind: "region" },
    { startLine: 10, endLine: 11, kind: "region" },
  ]);
  expect(linksOf(workspace, file)).toMatchObject([{ file: "/shed/wheel.fettle", tooltip: "handset “Wheel”" }]);
});

test("words are coloured by what they mean, none over another", () => {
  const text = craft('modes\n  arm when TL is down # so\n  drop level\nverbatim "kiln"\n  | as it is\n');
  const { workspace, file } = atCursor(`|${text}`);
  const lines = text.split("\n");
  const tokens = tokensOf(workspace.script(file)!);
  expect(tokens.map(({ kind, line, start, end }) => `${kind} ${lines[line]!.slice(start, end)}`)).toEqual([
    "header craft",
    'string "Jug"',
    "keyword use",
    'string "wheel.fettle"',
    "keyword use",
    'string "habits.fettle"',
    "section modes",
    "mode arm",
    "keyword when",
    "control TL",
    "keyword is",
    "position down",
    "comment # so",
    "keyword drop",
    "setting level",
    "section verbatim",
    'string "kiln"',
    "kept | as it is",
  ]);
  tokens.forEach((token, i) => {
    const before = tokens[i - 1];
    if (before?.line === token.line) expect(token.start).toBeGreaterThanOrEqual(before.end);
  });
});

test("a repair is offered where its finding stands, and nowhere else", () => {
  const { workspace, file } = atCursor('craft "Jug"\npack\n  warn-at 3.5\n  cells 4\n');
  const at = (line: number) => ({ start: { line, character: 11 }, end: { line, character: 11 } });
  expect(fixesAt(workspace, file, at(2))).toMatchObject([
    { title: "Write 3.5 V/cell", only: true, edits: [{ file, text: "3.5 V/cell" }] },
  ]);
  expect(fixesAt(workspace, file, at(3))).toEqual([]);
});

test("every name has a page; a page is found by plain words; a rule's page has its examples", () => {
  const { workspace } = atCursor("");
  const { catalogue } = workspace;
  const names = listNames(catalogue);
  expect(new Set(names.map(({ name, kind }) => `${kind} ${name}`)).size).toBe(names.length);
  for (const { name } of names) expect(referencePage(catalogue, name), name).toContain(`# ${name}`);
  expect(referencePage(catalogue, "cells")).toContain("# pack.cells");
  expect(referencePage(catalogue, "kill switch")).toContain("# arm\n\n*mode*");
  expect(referencePage(catalogue, "mode-clash")).toContain("## It fires here\n\n`");
  expect(referencePage(catalogue, "recorder")).toMatch(/\*section\*[\s\S]*---[\s\S]*\*mode\*/);
  expect(referencePage(catalogue, "zzzzzz")).toBeNull();
});
