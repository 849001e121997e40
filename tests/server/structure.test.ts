/** What an editor asks of how scripts are built, over the wire. */
import { afterEach, expect, test } from "vitest";
import type { InlayHint, SelectionRange, SemanticTokens, SemanticTokensDelta } from "vscode-languageserver/node";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = `handset "Wheel"

controls
  TL switch ch5 up 1000 us down 2000 us
`;
const habits = `layer "Habits"

modes
  # always
  arm when TL is down
`;
const jug = `craft "Jug"

use "wheel.fettle"
use "habits.fettle"

pack
  cells 6
  warn-at 3.5 V/cell

modes
  recorder when arm
`;
const texts = { "/shed/wheel.fettle": wheel, "/shed/habits.fettle": habits, "/shed/jug.fettle": jug };
const JUG = "file:///shed/jug.fettle";
const textDocument = { uri: JUG };
const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

let session: Session;
afterEach(() => session?.end());

async function started(textDocumentAbilities: object = {}, workspace: object = {}): Promise<void> {
  const capabilities = { textDocument: { ...PULLING.textDocument, ...textDocumentAbilities }, workspace };
  session = await startSession(filesInMemory(texts), capabilities);
  await session.open(JUG, jug);
}

const ask = <T>(method: string, params: object): Promise<T> => session.client.sendRequest(method, params);

test("selections of several positions in one answer", async () => {
  await started();
  const positions = [
    { line: 6, character: 9 },
    { line: 99, character: 0 },
  ];
  const [first, last] = await ask<SelectionRange[]>("textDocument/selectionRange", { textDocument, positions });
  expect(first).toMatchObject({
    range: { start: { line: 6, character: 8 }, end: { line: 6, character: 9 } },
    parent: { range: { start: { line: 6, character: 2 }, end: { line: 6, character: 9 } } },
  });
  expect(last).toEqual({ range: { start: { line: 0, character: 0 }, end: { line: 11, character: 0 } } });
  expect(session.log).toEqual([]);
});

test("what a hint means is told when it is asked for, and at once to a client that cannot ask", async () => {
  await started({ inlayHint: { resolveSupport: { properties: ["tooltip"] } } });
  const [hint] = await ask<InlayHint[]>("textDocument/inlayHint", { textDocument, range: all });
  expect(hint).toMatchObject({ label: "\u00a0= 21 V", position: { line: 7, character: 20 } });
  expect(hint).not.toHaveProperty("tooltip");
  const resolved = await ask<InlayHint>("inlayHint/resolve", hint!);
  expect(resolved.tooltip).toContain("21 V");
  expect(resolved).toMatchObject(hint!);
  // Meanwhile the line has become another one: the hint stays as it was.
  const gone = { ...hint!, label: "= 99 V" };
  expect(await ask("inlayHint/resolve", gone)).toEqual(gone);
  session.end();
  await started();
  const [whole] = await ask<InlayHint[]>("textDocument/inlayHint", { textDocument, range: all });
  expect(whole?.tooltip).toBe(resolved.tooltip);
  expect(whole).not.toHaveProperty("data");
});

test("tokens: whole, what changed, those in sight", async () => {
  await started({ semanticTokens: { requests: { full: { delta: true }, range: true } } });
  const whole = await ask<SemanticTokens>("textDocument/semanticTokens/full", { textDocument });
  expect(whole.resultId).toBeDefined();
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ range: { start: { line: 6, character: 8 }, end: { line: 6, character: 9 } }, text: "14" }],
  });
  const delta = await ask<SemanticTokensDelta>("textDocument/semanticTokens/full/delta", {
    textDocument,
    previousResultId: whole.resultId,
  });
  expect(delta.edits).toMatchObject([{ deleteCount: 5, data: { length: 5 } }]);
  const [{ start, deleteCount, data } = { start: 0, deleteCount: 0, data: [] }] = delta.edits;
  const now = await ask<SemanticTokens>("textDocument/semanticTokens/full", { textDocument });
  expect(whole.data.toSpliced(start, deleteCount, ...data!)).toEqual(now.data);
  // An answer that was never given, or is another document's: all of it.
  const unknown = await ask<SemanticTokens>("textDocument/semanticTokens/full/delta", {
    textDocument,
    previousResultId: whole.resultId,
  });
  expect(unknown.data).toEqual(now.data);
  const range = { start: { line: 6, character: 0 }, end: { line: 6, character: 10 } };
  const some = await ask<SemanticTokens>("textDocument/semanticTokens/range", { textDocument, range });
  expect(some.data).toHaveLength(10);
  expect(some.data.slice(0, 2)).toEqual([6, 2]);
});

test("a client that takes no changes of tokens is sent none, and no id", async () => {
  await started();
  expect(await ask<SemanticTokens>("textDocument/semanticTokens/full", { textDocument })).not.toHaveProperty(
    "resultId",
  );
});
