/** What an editor asks of how scripts are built, over the wire. */
import { afterEach, expect, test } from "vitest";
import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  CancellationTokenSource,
  type CodeAction,
  type InlayHint,
  ProgressType,
  type SelectionRange,
  type SemanticTokens,
  type SemanticTokensDelta,
  type TextDocumentEdit,
  type TextEdit,
  type TypeHierarchyItem,
  type WorkspaceSymbol,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
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
  // Of the line, what lies in the range.
  const behind = { start: { line: 6, character: 8 }, end: { line: 7, character: 2 } };
  const rest = await ask<SemanticTokens>("textDocument/semanticTokens/range", { textDocument, range: behind });
  expect(rest.data.slice(0, 3)).toEqual([6, 8, 2]);
  expect(rest.data).toHaveLength(5);
});

test("a client that takes no changes of tokens is sent none, and no id", async () => {
  await started();
  expect(await ask<SemanticTokens>("textDocument/semanticTokens/full", { textDocument })).not.toHaveProperty(
    "resultId",
  );
});

const named = (items: readonly { name: string; detail?: string }[]) =>
  items.map(({ name, detail }) => `${name}: ${detail}`);

test("what hangs on what, from a word on the craft into its layer and its handset", async () => {
  await started();
  const position = { line: 10, character: 17 };
  const [arm] = await ask<CallHierarchyItem[]>("textDocument/prepareCallHierarchy", { textDocument, position });
  expect(arm).toMatchObject({ name: "arm", detail: "when TL is down", uri: "file:///shed/habits.fettle", kind: 24 });
  const incoming = await ask<CallHierarchyIncomingCall[]>("callHierarchy/incomingCalls", { item: arm });
  expect(incoming).toMatchObject([
    {
      from: { name: "recorder", uri: JUG },
      fromRanges: [{ start: { line: 10, character: 16 }, end: { line: 10, character: 19 } }],
    },
  ]);
  const outgoing = await ask<CallHierarchyOutgoingCall[]>("callHierarchy/outgoingCalls", { item: arm });
  expect(named(outgoing.map(({ to }) => to))).toEqual(["TL is down: sends 2000 us on ch5"]);
  const further = await ask<CallHierarchyOutgoingCall[]>("callHierarchy/outgoingCalls", { item: outgoing[0]!.to });
  expect(further).toMatchObject([{ to: { name: "TL", detail: "switch on ch5", uri: "file:///shed/wheel.fettle" } }]);
  const nothing = { textDocument, position: { line: 6, character: 3 } };
  expect(await ask("textDocument/prepareCallHierarchy", nothing)).toEqual([]);
  expect(session.log).toEqual([]);
});

test("files that lean on one another", async () => {
  await started();
  const prepare = (line: number) =>
    ask<TypeHierarchyItem[] | null>("textDocument/prepareTypeHierarchy", {
      textDocument,
      position: { line, character: 2 },
    });
  const [layer] = (await prepare(3))!;
  expect(layer).toMatchObject({ name: "Habits", detail: "layer, habits.fettle", uri: "file:///shed/habits.fettle" });
  const users = await ask<TypeHierarchyItem[]>("typeHierarchy/subtypes", { item: layer });
  expect(named(users)).toEqual(["Jug: craft, jug.fettle"]);
  const used = await ask<TypeHierarchyItem[]>("typeHierarchy/supertypes", { item: users[0] });
  expect(named(used)).toEqual(["Wheel: handset, wheel.fettle", "Habits: layer, habits.fettle"]);
  expect(await prepare(6)).toBeNull();
});

const SYMBOLS = {
  symbol: { resolveSupport: { properties: ["location.range"] }, symbolKind: { valueSet: [5, 7, 24] } },
};

test("names of the workspace, and their places when they are asked for", async () => {
  await started({}, SYMBOLS);
  const [arm] = await ask<WorkspaceSymbol[]>("workspace/symbol", { query: "arm" });
  expect(arm).toMatchObject({
    name: "arm",
    kind: 24,
    containerName: "Habits, modes",
    location: { uri: "file:///shed/habits.fettle" },
  });
  expect(arm!.location).not.toHaveProperty("range");
  const resolved = await ask<WorkspaceSymbol>("workspaceSymbol/resolve", arm!);
  expect(resolved.location).toMatchObject({
    range: { start: { line: 4, character: 2 }, end: { line: 4, character: 5 } },
  });
  const gone = { ...arm!, data: { kind: "mode", name: "level", line: 0 } };
  expect(await ask("workspaceSymbol/resolve", gone)).toEqual(gone);
  session.end();
  // A client that says nothing has their places at once, and kinds that every client knows.
  await started();
  const [whole] = await ask<WorkspaceSymbol[]>("workspace/symbol", { query: "arm" });
  expect(whole).toMatchObject({ kind: 14, location: { range: { start: { line: 4 } } } });
  expect(whole).not.toHaveProperty("data");
});

test("names are sent in parts where the client takes them, and a search that is given up is refused", async () => {
  const many = Object.fromEntries(
    Array.from({ length: 230 }, (_, i) => [`/shed/c${i}.fettle`, `craft "Cup ${i}"\n\npack\n  cells 6\n`]),
  );
  session = await startSession(filesInMemory(many));
  const parts: number[] = [];
  session.client.onProgress(new ProgressType<WorkspaceSymbol[]>(), "names", (part) => {
    parts.push(part.length);
  });
  expect(await ask("workspace/symbol", { query: "cup", partialResultToken: "names" })).toEqual([]);
  expect(parts).toEqual([100, 100, 30]);
  const stop = new CancellationTokenSource();
  const given = session.client.sendRequest("workspace/symbol", { query: "pack" }, stop.token);
  stop.cancel();
  await expect(given).rejects.toMatchObject({ code: -32800 });
});

test("all certain repairs as one action, when an editor saves and when it is asked for", async () => {
  await started({}, { workspaceEdit: { documentChanges: true } });
  const faulty = jug
    .replace("cells 6", "cells: 6S")
    .replace("warn-at 3.5", "warn-at 3,5")
    .replace("recorder", "recoder");
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ text: faulty }],
  });
  const actions = (only?: string[], triggerKind = 1) =>
    ask<CodeAction[]>("textDocument/codeAction", {
      textDocument,
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      context: { diagnostics: [], only, triggerKind },
    });
  for (const kind of ["source.fixAll", "source.fixAll.fettle", "source"]) {
    const [all, ...others] = await actions([kind], 2);
    expect(others).toEqual([]);
    expect(all).toMatchObject({ title: "Make all certain repairs", kind: "source.fixAll.fettle" });
    const [change] = all!.edit!.documentChanges as TextDocumentEdit[];
    expect(change!.textDocument).toEqual({ uri: JUG, version: 2 });
    const document = TextDocument.create(JUG, "fettle", 2, faulty);
    // What is misspelled stays: it is a guess what was meant.
    expect(TextDocument.applyEdits(document, change!.edits as TextEdit[])).toBe(jug.replace("recorder", "recoder"));
  }
  const titles = async (...asked: Parameters<typeof actions>) => (await actions(...asked)).map(({ title }) => title);
  expect(await titles()).toContain("Make all certain repairs");
  expect(await titles(undefined, 2)).not.toContain("Make all certain repairs");
  expect(await titles(["quickfix"])).not.toContain("Make all certain repairs");
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 3 },
    contentChanges: [{ text: jug }],
  });
  expect(await actions(["source.fixAll"])).toEqual([]);
});
