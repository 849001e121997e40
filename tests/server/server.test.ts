import { afterEach, expect, test } from "vitest";
import {
  CancellationTokenSource,
  type CompletionItem,
  type Hover,
  type LocationLink,
} from "vscode-languageserver/node";
import { PAGE_REQUEST, type PageView } from "../../shared/protocol/pages.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = `handset "Wheel"

controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
`;
const habits = `layer "Habits"

use "wheel.fettle"

modes
  # arm is the left shoulder
  arm when TL is down

failsafe
  then stop
`;
const jug = `craft "Jug"

use "my%20layers/habits ä.fettle"

pack
  cells 6
  warn-at 3.5 V/cell

modes
  level when TR is mid

osd # allow osd-essentials: one figure will do here
  grid 53 x 20
  pack-volts at left+2, bottom-1
`;
const texts = {
  "/shed/my%20layers/wheel.fettle": wheel,
  "/shed/my%20layers/habits ä.fettle": habits,
  "/shed/jug.fettle": jug,
};
const JUG = "file:///shed/jug.fettle";

/** `LSPErrorCodes.RequestCancelled`. */
const CANCELLED = -32800;

let session: Session;
afterEach(() => session?.end());

test("a craft is understood with the files that it uses, whose names have blanks and signs", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await session.pull(JUG)).toEqual([]);
  const position = { line: 9, character: 3 };
  const hover: Hover = await session.client.sendRequest("textDocument/hover", { textDocument: { uri: JUG }, position });
  expect(hover.contents).toMatchObject({
    kind: "markdown",
    value: expect.stringContaining("**`when TR is mid`** on Jug, [jug.fettle:10](file:///shed/jug.fettle#L10)"),
  });
  const model: PanelModel = await session.client.sendRequest("fettle/panel", { uri: JUG, positions: { TL: "down" } });
  expect(model).toMatchObject({ file: JUG, craft: "Jug", version: 1, empty: null });
  expect(model.switches?.state).toMatchObject({ armed: "yes", positions: { TL: "down", TR: "up" } });
  const arm = model.switches?.state.on.find((mode) => mode.name === "arm");
  expect(arm?.lines).toEqual([{ file: "file:///shed/my%2520layers/habits%20%C3%A4.fettle", line: 6 }]);
  expect(model.goggles?.elements).toMatchObject([{ name: "pack-volts", column: 2, row: 18, text: ["22.2V"] }]);
  expect(session.log).toEqual([]);
});

test("a layer is drawn for the craft that uses it", async () => {
  session = await startSession(filesInMemory(texts));
  const uri = "file:///shed/my%2520layers/habits%20%C3%A4.fettle";
  await session.open(uri, habits);
  const model: PanelModel = await session.client.sendRequest("fettle/panel", { uri });
  expect(model).toMatchObject({ file: uri, craft: "Jug", alsoIn: [] });
});

test("completion offers positions, and describes what it offers when asked", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug.replace("TR is mid", "TR is "));
  const ask = (position: { line: number; character: number }): Promise<{ items: CompletionItem[] }> =>
    session.client.sendRequest("textDocument/completion", { textDocument: { uri: JUG }, position });
  const positions = await ask({ line: 9, character: 19 });
  expect(positions.items.map((item) => item.label)).toEqual(["up", "mid", "down", "not"]);
  const settings = await ask({ line: 5, character: 2 });
  const capacity = settings.items.find((item) => item.label === "capacity")!;
  const resolved: CompletionItem = await session.client.sendRequest("completionItem/resolve", capacity);
  expect(resolved.documentation).toMatchObject({
    kind: "markdown",
    value: expect.stringMatching(/^⚠ Charge attended/),
  });
});

test("a finding has its code, a link to its page, and the lines it is about", async () => {
  session = await startSession(filesInMemory(texts), PULLING, { pageBase: "https://pages.example/fettle" });
  await session.open(JUG, jug.replace("  cells 6\n", "  cells 6\n  cells 4\n"));
  expect(await session.pull(JUG)).toMatchObject([
    {
      code: "duplicate-entry",
      severity: 2,
      source: "fettle",
      range: { start: { line: 6, character: 2 }, end: { line: 6, character: 7 } },
      codeDescription: { href: "https://pages.example/fettle/rule/duplicate-entry.md" },
      relatedInformation: [{ location: { uri: JUG, range: { start: { line: 5 } } } }],
    },
  ]);
});

test("twenty quick edits with pulls that nobody waits for end in the right findings", async () => {
  session = await startSession(filesInMemory(texts));
  const { client } = session;
  await session.open(JUG, jug);
  const typed = "  capacity 99999999 m";
  const pulls: Promise<unknown>[] = [];
  for (let i = 0; i < typed.length; i++) {
    const at = { line: 7, character: i };
    await client.sendNotification("textDocument/didChange", {
      textDocument: { uri: JUG, version: i + 2 },
      contentChanges: [{ range: { start: at, end: at }, text: typed[i] }],
    });
    const given = new CancellationTokenSource();
    const asked = client.sendRequest("textDocument/diagnostic", { textDocument: { uri: JUG } }, given.token);
    if (i % 3 === 0) given.cancel();
    // Only a cancellation may keep it from an answer.
    pulls.push(asked.catch((error) => expect(given.token.isCancellationRequested && error.code).toBe(CANCELLED)));
  }
  expect((await session.pull(JUG)).map((each) => [each.code, each.range.start.line])).toEqual([["wrong-unit", 7]]);
  await Promise.all(pulls);
  const end = { line: 7, character: typed.length };
  await client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 99 },
    contentChanges: [{ range: { start: { line: 7, character: 11 }, end }, text: "1300 mAh" }],
  });
  expect(await session.pull(JUG)).toEqual([]);
  expect(session.log).toEqual([]);
});

test("what is typed is drawn for whoever asks right after, and told of only where nothing was typed", async () => {
  session = await startSession(filesInMemory(texts), PULLING, { draws: true });
  const { client } = session;
  let toldTimes = 0;
  client.onNotification("fettle/changed", () => {
    toldTimes++;
  });
  await session.open(JUG, jug);
  await session.pull(JUG);
  expect(toldTimes).toBe(1);
  const start = { line: 0, character: 7 };
  void client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ range: { start, end: { line: 0, character: 10 } }, text: "Bowl" }],
  });
  expect(await client.sendRequest("fettle/panel", { uri: JUG })).toMatchObject({ version: 2, craft: "Bowl" });
  expect(toldTimes).toBe(1);
  const changes = [{ uri: "file:///shed/layers/other.fettle", type: 2 }];
  await client.sendNotification("workspace/didChangeWatchedFiles", { changes });
  await session.pull(JUG);
  expect(toldTimes).toBe(2);
});

test("unsaved text of a layer counts, and what is closed is read from its file again", async () => {
  session = await startSession(filesInMemory(texts));
  const { client } = session;
  const layer = "file:///shed/my%2520layers/habits%20%C3%A4.fettle";
  await session.open(JUG, jug);
  await session.open(layer, habits.replace("TL is down", "TL is sideways"));
  expect((await session.pull(JUG)).map((each) => each.code)).toContain("unknown-name");
  await client.sendNotification("textDocument/didClose", { textDocument: { uri: layer } });
  expect(await session.pull(JUG)).toEqual([]);
});

test("files are read once, and again after the editor says that they changed", async () => {
  const reads = new Map<string, number>();
  const now: Record<string, string> = { ...texts };
  session = await startSession(filesInMemory(now, reads));
  await session.open(JUG, jug);
  for (let i = 0; i < 3; i++) await session.pull(JUG);
  expect(reads.get("/shed/my%20layers/wheel.fettle")).toBe(1);
  delete now["/shed/my%20layers/wheel.fettle"];
  const changes = [{ uri: "file:///shed/my%2520layers/wheel.fettle", type: 3 }];
  await session.client.sendNotification("workspace/didChangeWatchedFiles", { changes });
  expect((await session.pull(JUG)).map((each) => each.code)).toContain("use-broken");
});

test("a client that cannot pull has its findings pushed, and taken back when a file closes", async () => {
  session = await startSession(filesInMemory(texts), {});
  await session.open(JUG, `${jug}\nnonsense\n  here 3\n`);
  await expect.poll(() => session.pushed.get(JUG)?.map((each) => each.code)).toEqual(["unknown-name"]);
  await session.client.sendNotification("textDocument/didClose", { textDocument: { uri: JUG } });
  await expect.poll(() => session.pushed.get(JUG)).toEqual([]);
});

test("a file outside the workspace is named as such, and a text that is far too large has one finding", async () => {
  session = await startSession(filesInMemory({ ...texts, "/elsewhere/x.fettle": habits }));
  await session.open(JUG, 'craft "Jug"\nuse "../elsewhere/x.fettle"\n');
  expect((await session.pull(JUG))[0]).toMatchObject({
    code: "use-missing",
    message: expect.stringContaining("outside the workspace"),
  });
  const big = "file:///shed/big.fettle";
  await session.open(big, `craft "Big"\n${"# much ado\n".repeat(400_000)}`);
  expect((await session.pull(big)).map((each) => each.message)).toEqual([
    expect.stringContaining("it is 4.2 MB, and a script is read up to 1 MB"),
  ]);
});

test("a clash is offered to be shown, with its positions, to a client that says how it shows them", async () => {
  const clash = jug.replace("  level when", "  video-low when TL is down\n  video-high when TL is down\n  level when");
  const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const asked = { textDocument: { uri: JUG }, range: all, context: { diagnostics: [] } };
  session = await startSession(filesInMemory(texts), PULLING, { positionsCommand: "its.own" });
  await session.open(JUG, clash);
  const actions = await session.client.sendRequest("textDocument/codeAction", asked);
  expect(actions).toContainEqual(
    expect.objectContaining({
      title: "Show it on the switches: mode-clash",
      kind: "quickfix",
      command: expect.objectContaining({
        command: "its.own",
        arguments: [{ uri: JUG, positions: expect.objectContaining({ TL: "down" }) }],
      }),
    }),
  );
  session.end();
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, clash);
  expect(JSON.stringify(await session.client.sendRequest("textDocument/codeAction", asked))).not.toContain("Show it");
});

test("definitions, links, outline, folds, hints, colours and repairs are answered", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug.replace("3.5 V/cell", "3.5"));
  const ask = <T>(method: string, more: object = {}): Promise<T> =>
    session.client.sendRequest(`textDocument/${method}`, { textDocument: { uri: JUG }, ...more });
  const definition = await ask<LocationLink[]>("definition", { position: { line: 9, character: 13 } });
  expect(definition).toMatchObject([
    { targetUri: "file:///shed/my%2520layers/wheel.fettle", targetRange: { start: { line: 4 } } },
  ]);
  expect(await ask("documentLink")).toMatchObject([{ target: "file:///shed/my%2520layers/habits%20%C3%A4.fettle" }]);
  expect(await ask("documentSymbol")).toMatchObject([
    { name: "Jug", children: [{ name: "pack" }, { name: "modes" }, { name: "osd" }] },
  ]);
  expect(await ask("foldingRange")).toContainEqual(expect.objectContaining({ startLine: 4, endLine: 6 }));
  const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  expect(await ask("inlayHint", { range: all })).toMatchObject([
    { label: "\u00a0= 1500 us" },
    { label: "\u00a0= 2, 18" },
  ]);
  const { data } = await ask<{ data: number[] }>("semanticTokens/full");
  expect(data.slice(0, 10)).toEqual([0, 0, 5, 0, 0, 0, 6, 5, 8, 0]);
  const actions = await ask<{ title: string; edit: unknown }[]>("codeAction", {
    range: all,
    context: { diagnostics: [] },
  });
  expect(actions).toContainEqual(expect.objectContaining({ title: "Write 3.5 V/cell" }));
  const page: PageView = await session.client.sendRequest(PAGE_REQUEST, { name: "pack.cells" });
  expect(page.html).toContain("<h2>pack.cells</h2>");
});
