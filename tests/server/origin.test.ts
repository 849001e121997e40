/** Where a value comes from and where lines go, over the wire: requests of our client, and code actions of any. */
import { afterEach, expect, test } from "vitest";
import type { CodeAction } from "vscode-languageserver/node";
import type { LayersForResult, OriginResult, RelocateResult } from "../../shared/protocol/origin.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const JUG = "file:///shed/craft/jug.fettle";
const HABITS = "file:///shed/layers/habits.fettle";
const MUG = "file:///shed/craft/mug.fettle";
const jug = `craft "Jug"

use "../layers/habits.fettle"

pack
  cells    6
  # rings early
  warn-at  3.5 V/cell
`;
const files = {
  "/shed/layers/habits.fettle": 'layer "Habits"\n\npack\n  warn-at  3.6 V/cell\n  land-at  3.3 V/cell\n',
  "/shed/craft/mug.fettle": 'craft "Mug"\nuse "../layers/habits.fettle"\npack\n  cells 4\n',
};
const WARN = { line: 7, character: 4 };
const at = (position: typeof WARN) => ({ start: position, end: position });

let session: Session;
afterEach(() => session.end());

async function opened(options: unknown = { originCommand: "its.own" }, capabilities = PULLING): Promise<void> {
  session = await startSession(filesInMemory(files), capabilities, options);
  await session.open(JUG, jug);
}

const ask = <T>(method: string, params: object): Promise<T> => session.client.sendRequest(method, params);
const actionsAt = async (uri: string, position: typeof WARN, only?: string[]) => {
  const context = { diagnostics: [], ...(only && { only }) };
  return ask<CodeAction[]>("textDocument/codeAction", { textDocument: { uri }, range: at(position), context });
};

test("the chain of a name, with addresses and what can be done", async () => {
  await opened();
  const origin = await ask<OriginResult>("fettle/origin", { uri: JUG, position: WARN });
  expect(origin).toMatchObject({
    kind: "origin",
    what: "pack.warn-at",
    craft: { name: "Jug", uri: JUG },
    steps: [
      { at: { file: HABITS, line: 3 }, script: "Habits", state: "replaced by Jug, line 8", counts: false },
      { at: { file: JUG, line: 7 }, script: "Jug", note: "rings early", state: "counts", counts: true },
    ],
    actions: [{ kind: "move" }, { kind: "extract" }],
  });
  const header = { line: 0, character: 0 };
  expect(await ask("fettle/origin", { uri: JUG, position: header })).toMatchObject({ kind: "refused" });
});

test("which other craft a layer reaches is told before anything is moved", async () => {
  await opened();
  const { what, refused, layers } = await ask<LayersForResult>("fettle/layersFor", { uri: JUG, range: at(WARN) });
  expect([what, refused]).toEqual(["warn-at", null]);
  expect(layers).toEqual([
    { uri: HABITS, name: "Habits", path: "../layers/habits.fettle", effect: "also changes Mug", refused: null },
  ]);
  const cells = await ask<LayersForResult>("fettle/layersFor", { uri: JUG, range: at({ line: 5, character: 2 }) });
  expect(cells.layers[0]?.effect).toBe("1 other craft uses it, and none of them changes");
});

test("edits of a move carry the versions of what is open, and a new layer is made in the same step", async () => {
  await opened();
  const relocate = (change: object, uri = JUG) => ask<RelocateResult>("fettle/relocate", { uri, change });
  expect(await relocate({ kind: "move", range: at(WARN), into: HABITS })).toMatchObject({
    files: [
      { file: JUG, version: 1 },
      { file: HABITS, version: null, edits: expect.arrayContaining([expect.objectContaining({ text: "5" })]) },
    ],
    creates: [],
  });
  expect(await relocate({ kind: "extract", range: at(WARN), name: "Thrifty" })).toMatchObject({
    files: [{ file: JUG, version: 1 }],
    creates: [
      {
        file: "file:///shed/layers/thrifty.fettle",
        text: 'layer "Thrifty"\n\npack\n  # rings early\n  warn-at  3.5 V/cell\n',
      },
    ],
  });
  expect(await relocate({ kind: "inline", line: 2 })).toMatchObject({
    kind: "edits",
    notes: ["One line of “Habits” did not come along, since it does not count on this craft."],
  });
  const override = { kind: "override", position: { line: 4, character: 3 } };
  expect(await ask("fettle/relocate", { uri: HABITS, craft: MUG, change: override })).toMatchObject({
    files: [{ file: MUG, version: null }],
    select: { file: MUG },
  });
  expect(await relocate({ kind: "inline", line: 0 })).toMatchObject({ kind: "refused" });
});

test("a client with the command is offered all of it without the work", async () => {
  await opened();
  const kinds = async (uri: string, line: number, only?: string[]) =>
    (await actionsAt(uri, { line, character: 3 }, only)).map(({ title, kind }) => `${kind}: ${title}`);
  expect(await kinds(JUG, 7)).toEqual(["refactor.extract: Extract a new layer…", "refactor.move: Move to a layer…"]);
  expect(await kinds(JUG, 7, ["refactor.extract"])).toEqual(["refactor.extract: Extract a new layer…"]);
  expect(await kinds(JUG, 2)).toEqual(["refactor.inline: Inline the layer “Habits”"]);
  expect(await kinds(JUG, 0)).toEqual([]);
  expect(await kinds(HABITS, 4, ["refactor"])).toEqual([
    "refactor.rewrite: Override land-at on “Jug”",
    "refactor.rewrite: Override land-at on “Mug”",
  ]);
  const glance = { diagnostics: [], triggerKind: 2 };
  const params = { textDocument: { uri: JUG }, range: at(WARN), context: glance };
  expect(await ask<CodeAction[]>("textDocument/codeAction", params)).toEqual([]);
  const [extract] = await actionsAt(JUG, WARN);
  expect(extract?.command).toMatchObject({
    command: "its.own",
    arguments: [{ uri: JUG, craft: JUG, action: "extract", range: at(WARN) }],
  });
});

test("any other client gets the edits themselves, a new file among them where it can make one", async () => {
  const workspace = { workspaceEdit: { documentChanges: true, resourceOperations: ["create" as const] } };
  await opened({}, { ...PULLING, workspace });
  const [extract, move] = await actionsAt(JUG, WARN);
  expect([extract?.title, move?.title]).toEqual([
    "Extract a new layer, “Shared”",
    "Move to the layer “Habits” (also changes Mug)",
  ]);
  const changes = extract!.edit!.documentChanges!;
  const fresh = "file:///shed/layers/shared.fettle";
  expect(changes[0]).toEqual({ kind: "create", uri: fresh });
  expect(changes.slice(1).map((each) => "textDocument" in each && each.textDocument.uri)).toEqual([JUG, fresh]);
  const [inline] = await actionsAt(JUG, { line: 2, character: 0 });
  expect(inline?.edit).toBeDefined();
  session.end();
  await opened({});
  expect((await actionsAt(JUG, WARN)).map(({ kind }) => kind)).toEqual(["refactor.move"]);
});

test("a hover leads to the files that said it, and to another value on this craft alone", async () => {
  await opened();
  const hover = async (uri: string, line: number) =>
    ask<{ contents: { value: string } }>("textDocument/hover", {
      textDocument: { uri },
      position: { line, character: 4 },
    });
  expect((await hover(JUG, 7)).contents.value).toContain("`3.6 V/cell` → [Jug](");
  const alone = 'craft "Mug"\n';
  await session.open(MUG, alone);
  const text = (await hover(HABITS, 4)).contents.value;
  expect(text).toContain("[Override on Jug](command:its.own?");
  const argument = /command:its\.own\?([^)]*)\)/.exec(text)![1]!;
  expect(JSON.parse(decodeURIComponent(argument))).toEqual([
    { uri: HABITS, craft: JUG, action: "override", range: at({ line: 4, character: 0 }) },
  ]);
});
