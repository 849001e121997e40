/** Accepted findings in an editor: a layer is judged by the craft of its workspace, whether they are open or not. */
import { afterEach, expect, test } from "vitest";
import type { CodeAction } from "vscode-languageserver/node";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n';
const base =
  'layer "Base"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is up # allow arm-at-rest: the permit is a plug\n';
const armed = 'craft "Jug"\n\nuse "base.fettle"\n';
const restated = 'craft "Mug"\n\nuse "base.fettle"\n\nmodes\n  arm when TL is down\n';
const BASE = "file:///shed/base.fettle";

let session: Session;
afterEach(() => session.end());

/** The codes about accepted findings that the layer has, among these craft. */
async function codes(crafts: Record<string, string>): Promise<unknown[]> {
  session = await startSession(filesInMemory({ "/shed/wheel.fettle": wheel, "/shed/base.fettle": base, ...crafts }));
  await session.open(BASE, base);
  return (await session.pull(BASE)).map(({ code }) => code).filter((code) => String(code).startsWith("allow-"));
}

test("what no craft of the workspace needs is unused, and one that is not open counts", async () => {
  expect(await codes({ "/shed/mug.fettle": restated })).toEqual(["allow-unused"]);
  session.end();
  expect(
    await codes({ "/shed/mug.fettle": restated, "/shed/deep/jug.fettle": armed.replace("base", "../base") }),
  ).toEqual([]);
  session.end();
  expect(await codes({})).toEqual([]);
});

test("nothing is claimed where not all of the workspace was listed, or the layer lies outside of it", async () => {
  const files = filesInMemory({
    "/shed/wheel.fettle": wheel,
    "/shed/base.fettle": base,
    "/shed/mug.fettle": restated,
    "/far/wheel.fettle": wheel,
  });
  const cut = { ...files, list: async () => ({ paths: ["/shed/mug.fettle", "/shed/base.fettle"], cut: true }) };
  session = await startSession(cut);
  await session.open(BASE, base);
  expect((await session.pull(BASE)).map(({ code }) => code)).toEqual([]);
  session.end();
  session = await startSession(files);
  await session.open("file:///far/base.fettle", base);
  expect((await session.pull("file:///far/base.fettle")).map(({ code }) => code)).not.toContain("allow-unused");
});

const JUG = "file:///shed/jug.fettle";
const HABITS = "file:///shed/habits.fettle";

/** The actions on a value beyond its limits, for a client that can do this. */
async function acceptances(workspaceEdit: object | null, options?: unknown): Promise<CodeAction[]> {
  const files = { "/shed/habits.fettle": 'layer "Habits"\n', "/shed/mug.fettle": 'craft "Mug"\nuse "habits.fettle"\n' };
  const capabilities = workspaceEdit === null ? PULLING : { ...PULLING, workspace: { workspaceEdit } };
  session = await startSession(filesInMemory(files), capabilities, options);
  await session.open(JUG, 'craft "Jug"\nuse "habits.fettle"\npack\n  cells 99\n');
  const at = { line: 3, character: 9 };
  return session.client.sendRequest("textDocument/codeAction", {
    textDocument: { uri: JUG },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
}

const at = (line: number, character: number) => ({ line, character });
const HERE = { start: at(3, 0), end: at(3, 0) };
const IN_FILE = [
  ["Accept this here, because… (out-of-range)", "quickfix"],
  ["Accept it in all of pack, because… (out-of-range)", "quickfix"],
  ["Accept it in this whole craft, because… (out-of-range)", "quickfix"],
];

test("a finding can be accepted where it stands and in layers, by plain edits where the client can do no more", async () => {
  const actions = await acceptances(null);
  expect(actions.map(({ title, kind }) => [title, kind])).toEqual([
    ...IN_FILE,
    ["Accept it in the layer “Habits”, on the 2 craft that use it, because… (out-of-range)", "quickfix"],
  ]);
  expect(actions[0]!.edit!.changes![JUG]).toEqual([{ range: HERE, newText: "  # allow out-of-range: \n" }]);
  expect(actions[3]!.edit!.changes![HABITS]).toEqual([
    { range: { start: at(0, 0), end: at(0, 0) }, newText: "# allow out-of-range: \n" },
  ]);
});

test("with the cursor at the reason where edits can say so, and with a layer to be begun where files can be made", async () => {
  const actions = await acceptances({
    documentChanges: true,
    snippetEditSupport: true,
    resourceOperations: ["create"],
  });
  expect(actions[0]!.edit!.documentChanges).toEqual([
    {
      textDocument: { uri: JUG, version: 1 },
      edits: [{ range: HERE, snippet: { kind: "snippet", value: "  # allow out-of-range: $0\n" } }],
    },
  ]);
  expect(actions.map(({ title }) => title).at(-1)).toBe(
    "Accept it in a new layer, habits-2.fettle, because… (out-of-range)",
  );
  expect(actions.at(-1)!.edit!.documentChanges).toEqual([
    { kind: "create", uri: "file:///shed/habits-2.fettle" },
    {
      textDocument: { uri: "file:///shed/habits-2.fettle", version: null },
      edits: [
        {
          range: { start: at(0, 0), end: at(0, 0) },
          snippet: { kind: "snippet", value: '# allow out-of-range: $0\nlayer "Habits 2"\n' },
        },
      ],
    },
    {
      textDocument: { uri: JUG, version: 1 },
      edits: [{ range: { start: at(1, 19), end: at(1, 19) }, newText: '\nuse "habits-2.fettle"' }],
    },
  ]);
});

test("by the client's own command where it has one, which asks for the layer", async () => {
  const actions = await acceptances(
    { documentChanges: true, snippetEditSupport: true, resourceOperations: ["create"] },
    { acceptCommand: "its.own" },
  );
  expect(actions.map(({ title, kind }) => [title, kind])).toEqual([
    ...IN_FILE,
    ["Accept it in a layer, because… (out-of-range)", "quickfix"],
  ]);
  expect(actions[0]!.edit!.documentChanges).toEqual([
    { textDocument: { uri: JUG, version: 1 }, edits: [{ range: HERE, newText: "  # allow out-of-range: \n" }] },
  ]);
  expect(actions[0]!.command).toEqual({
    title: "Write the reason",
    command: "its.own",
    arguments: [{ kind: "written", reasonAt: { uri: JUG, position: at(3, 24) } }],
  });
  expect(actions[3]!.edit).toBeUndefined();
  const [argument] = actions[3]!.command!.arguments as [{ choices: { label: string; description: string }[] }];
  expect(argument.choices.map(({ label, description }) => `${label}: ${description}`)).toEqual([
    "Habits (habits.fettle): on the 2 craft that use it",
    "a new layer, habits-2.fettle: on this craft, and on every other that uses it",
  ]);
});
