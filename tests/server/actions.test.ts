/** Code actions: of the kinds that are asked for, with edits in the form that the client takes. */
import { afterEach, expect, test } from "vitest";
import { type CodeAction, CodeActionKind } from "vscode-languageserver/node";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

/** A repair on line 6, a clash that can be shown on 9, a reading to calibrate by on 13. */
const jug = `craft "Jug"

use "base.fettle"

pack
  cells 6
  warn-at 3.5

modes
  video-low when ch5 above 1500 us
  video-high when ch5 above 1400 us

bench
  pack-volts-read 16.4 V
  pack-volts-shown 16.2 V
`;
const base = 'layer "Base"\n\npack\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n';
const JUG = "file:///shed/jug.fettle";
const BASE = "file:///shed/base.fettle";
const ALL = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

let session: Session;
afterEach(() => session.end());

async function actions(only?: string[], capabilities = PULLING): Promise<CodeAction[]> {
  session = await startSession(filesInMemory({ "/shed/base.fettle": base }), capabilities, {
    positionsCommand: "its.own",
  });
  await session.open(JUG, jug);
  const context = { diagnostics: [], ...(only && { only }) };
  return session.client.sendRequest("textDocument/codeAction", { textDocument: { uri: JUG }, range: ALL, context });
}

const { Empty, QuickFix, Refactor, RefactorRewrite, RefactorExtract, Source, SourceFixAll } = CodeActionKind;
const REPAIR = "Write 3.5 V/cell";
const SHOW = "Show it on the switches: mode-clash";

function nameOf({ title }: CodeAction): string {
  if (title === REPAIR) return "repair";
  if (title === SHOW) return "show";
  if (title === "Make all certain repairs") return "all repairs";
  return title.startsWith("Set divider-top") ? "calibrate" : title;
}

test.each([
  [undefined, ["repair", "show", "all repairs", "calibrate"]],
  [[Empty], ["repair", "show", "all repairs", "calibrate"]],
  [[QuickFix], ["repair", "show"]],
  [[Refactor], ["calibrate"]],
  [[RefactorRewrite], ["calibrate"]],
  [[RefactorExtract], []],
  [[`${RefactorRewrite}.more`], []],
  [["quick"], []],
  [[Source], ["all repairs"]],
  [[SourceFixAll], ["all repairs"]],
  [[], []],
  [
    [Source, Refactor],
    ["all repairs", "calibrate"],
  ],
  [
    [QuickFix, Refactor],
    ["repair", "show", "calibrate"],
  ],
])("asked for %j there are %j", async (only, expected) => {
  expect((await actions(only)).map(nameOf)).toEqual(expected);
});

test("every action has the kind of what it does", async () => {
  const kinds = new Map((await actions()).map(({ title, kind }) => [title, kind]));
  expect(kinds.get(REPAIR)).toBe(QuickFix);
  expect(kinds.get(SHOW)).toBe(QuickFix);
  expect([...kinds.values()].filter((kind) => kind === RefactorRewrite)).toHaveLength(1);
});

test("edits are for one version of the documents, where the client takes such", async () => {
  const found = await actions(undefined, { ...PULLING, workspace: { workspaceEdit: { documentChanges: true } } });
  const edits = [expect.objectContaining({ newText: expect.any(String) })];
  expect(found.find(({ title }) => title === REPAIR)!.edit).toEqual({
    documentChanges: [{ textDocument: { uri: JUG, version: 1 }, edits }],
  });
  // A file that is not open has no version.
  expect(found.find(({ kind }) => kind === RefactorRewrite)!.edit).toEqual({
    documentChanges: [
      { textDocument: { uri: JUG, version: 1 }, edits: [...edits, ...edits] },
      { textDocument: { uri: BASE, version: null }, edits },
    ],
  });
});

test("a client that says nothing of versions is sent plain changes", async () => {
  const found = await actions();
  expect(Object.keys(found.find(({ title }) => title === REPAIR)!.edit!)).toEqual(["changes"]);
  expect(Object.keys(found.find(({ kind }) => kind === RefactorRewrite)!.edit!.changes!)).toEqual([JUG, BASE]);
});
