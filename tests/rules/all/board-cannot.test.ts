/** What a craft's board cannot be told, as findings on the modes' lines; and what is no finding. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { WHEEL } from "../../../shared/rules/lib/example-files.ts";

const core = makeCore(makeCatalogue());

const KILN = `dialect "Kiln"

codes
  does  words a arm, f level, t turtle
  flue  number 0 to 11 from ch5
  draw  number 0 to 60 from 880 us each 20 us

modes
  "shelf {#:1 to 3} {m:does} by {c:flue} {a:draw}..{b:draw}"  {m} when {c} in {a} to {b}
  cannot finder

outputs
  "tap {#:1 to 1} by {c:flue} {a:draw}..{b:draw}"  lights when {c} in {a} to {b}
`;

function found(modes: string, { kiln = KILN, dialect = '  dialect "kiln.fettle"\n' } = {}): string[] {
  const jug = `craft "Jug"\n\nuse "wheel.fettle"\n\nboard\n  maker "Potter"\n${dialect}\n${modes}`;
  const files = { "jug.fettle": jug, "kiln.fettle": kiln, ...WHEEL };
  return findingsOf(core.at(memoryFiles(files)), "jug.fettle")
    .filter(({ code }) => code === "board-cannot")
    .map(({ range, message, witness }) => {
      const line = jug.split("\n")[range.start.line]!.trim();
      return `${line}: ${message} ${JSON.stringify(witness)}`;
    });
}

const MODES = "modes\n  arm when TL is down\n  level when TR is mid and PB is held\n";

test("a condition of two controls, where a line holds one", () => {
  expect(found(MODES)).toEqual([
    'level when TR is mid and PB is held: Board text of “Kiln” cannot say when level is on: it asks for 2 ranges at once, and a line of the board holds 1. With TR mid, PB held it is on here, and on the board, without a line for it, it is off. {"TR":"mid","PB":"held"}',
  ]);
});

test("modes share the board's lines, in their order", () => {
  expect(found("modes\n  arm when TL is down\n  level when TR is not mid\n  turtle when PB is held\n")).toEqual([
    'turtle when PB is held: Board text of “Kiln” cannot say when turtle is on: it takes one line of the board, and none is left. With PB held it is on here, and on the board, without a line for it, it is off. {"PB":"held"}',
  ]);
});

test("outputs have lines of their own", () => {
  expect(found("modes\n  arm when TL is down\n\noutputs\n  lights when TR is not mid\n")).toEqual([
    'lights when TR is not mid: Board text of “Kiln” cannot say when lights is on: it takes 2 lines of the board, and only one is left. With TR up it is on here, and on the board, without a line for it, it is off. {"TR":"up"}',
  ]);
});

test("it is silent where a mode has no line, where the condition is not known, and without a dialect that can be read", () => {
  expect(found("modes\n  arm when TL is down\n  finder when TR is mid and PB is held\n")).toEqual([]);
  expect(found("modes\n  arm when XX is down\n  lights when TR is mid and PB is held\n")).toEqual([]);
  expect(found("modes\n  arm when TL is down and TL is up\n")).toEqual([]);
  expect(found(MODES, { dialect: "" })).toEqual([]);
  expect(found(MODES, { dialect: '  dialect "gone.fettle"\n' })).toEqual([]);
  expect(found(MODES, { dialect: '  dialect "wheel.fettle"\n' })).toEqual([]);
});

test("it follows the dialect, though the craft is the same", () => {
  const jug = `craft "Jug"\n\nuse "wheel.fettle"\n\nboard\n  dialect "kiln.fettle"\n\n${MODES}`;
  const codes = (kiln: string) =>
    findingsOf(core.at(memoryFiles({ "jug.fettle": jug, "kiln.fettle": kiln, ...WHEEL })), "jug.fettle").filter(
      ({ code }) => code === "board-cannot",
    ).length;
  expect(codes(KILN)).toBe(1);
  expect(codes(KILN.replace("f level, ", ""))).toBe(0);
  expect(codes(KILN)).toBe(1);
});
