/** What has a name, as an editor asks about it: where it stands, in the workspace and in its document. */
import { afterEach, expect, test } from "vitest";
import type { DocumentHighlight, Location, WorkspaceEdit } from "vscode-languageserver";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const texts = {
  "/shed/jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\nmodes\n  level when TL is up\n',
  "/shed/habits.fettle": 'layer "Habits"\nmodes\n  arm when TL is down\n',
  "/shed/wheel.fettle": 'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us rests up\n',
};
const uri = (name: string) => `file:///shed/${name}.fettle`;

let session: Session;
afterEach(() => session?.end());

async function ask<T>(method: string, name: string, line: number, character: number, more = {}): Promise<T> {
  return session.client.sendRequest<T>(`textDocument/${method}`, {
    textDocument: { uri: uri(name) },
    position: { line, character },
    ...more,
  });
}

const told = (places: readonly Location[]) =>
  places.map(
    ({ uri: where, range }) =>
      `${where.slice("file:///shed/".length)} ${range.start.line}:${range.start.character}-${range.end.character}`,
  );

test("the references of a control stand in files that are not open", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("habits"), texts["/shed/habits.fettle"]);
  const all = await ask<Location[]>("references", "habits", 2, 12, { context: { includeDeclaration: true } });
  expect(told(all)).toEqual(["habits.fettle 2:11-13", "jug.fettle 4:13-15", "wheel.fettle 2:2-4"]);
  const others = await ask<Location[]>("references", "habits", 2, 12, { context: { includeDeclaration: false } });
  expect(told(others)).toEqual(["habits.fettle 2:11-13", "jug.fettle 4:13-15"]);
});

test("references are those of the text as it is typed", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("habits"), "# mine\n".concat(texts["/shed/habits.fettle"]));
  const all = await ask<Location[]>("references", "jug", 4, 14, { context: { includeDeclaration: true } });
  expect(told(all)).toEqual(["habits.fettle 3:11-13", "jug.fettle 4:13-15", "wheel.fettle 2:2-4"]);
});

test("what is said is told from what is used", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  const marks = await ask<DocumentHighlight[]>("documentHighlight", "wheel", 2, 16);
  expect(marks.map(({ range, kind }) => [range.start.character, kind])).toEqual([
    [16, 3],
    [46, 2],
  ]);
});

test("where nothing has a name there is nothing", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  expect(await ask("references", "wheel", 2, 21, { context: { includeDeclaration: true } })).toEqual([]);
  expect(await ask("documentHighlight", "wheel", 2, 21)).toEqual([]);
});

const EDITS = {
  ...PULLING,
  textDocument: { ...PULLING.textDocument, rename: { prepareSupport: true } },
  workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ["rename" as const] } },
};

test("another name for a control goes to open and closed files, for the versions that they have", async () => {
  session = await startSession(filesInMemory(texts), EDITS);
  await session.open(uri("habits"), "# mine\n".concat(texts["/shed/habits.fettle"]));
  const edit = await ask<WorkspaceEdit>("rename", "habits", 3, 12, { newName: "LA" });
  const changed = (name: string, version: number | null, line: number, from: number, to: number) => ({
    textDocument: { uri: uri(name), version },
    edits: [{ range: { start: { line, character: from }, end: { line, character: to } }, newText: "LA" }],
  });
  expect(edit).toEqual({
    documentChanges: [
      changed("habits", 1, 3, 11, 13),
      changed("jug", null, 4, 13, 15),
      changed("wheel", null, 2, 2, 4),
    ],
  });
});

test("a client that knows no versions gets the edits alone", async () => {
  session = await startSession(filesInMemory(texts));
  const edit = await ask<WorkspaceEdit>("rename", "habits", 2, 12, { newName: "LA" });
  expect(Object.keys(edit.changes!)).toEqual([uri("habits"), uri("jug"), uri("wheel")]);
});

test("before another name is asked for, it is said what the name is, or why it stays", async () => {
  session = await startSession(filesInMemory(texts), EDITS);
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  expect(await ask("prepareRename", "wheel", 2, 16)).toEqual({
    range: { start: { line: 2, character: 16 }, end: { line: 2, character: 18 } },
    placeholder: "up",
  });
  await expect(ask("prepareRename", "wheel", 2, 14)).rejects.toThrow("channels have numbers and no names");
  await expect(ask("prepareRename", "wheel", 2, 5)).rejects.toThrow("Nothing here has a name that could be changed.");
  await expect(ask("rename", "wheel", 2, 16, { newName: "rests" })).rejects.toMatchObject({
    code: -32803,
    message: "No position can be called “rests”: the language uses the word.",
  });
});

test("another path in a use line moves the file, and all that name it follow", async () => {
  session = await startSession(filesInMemory(texts), EDITS);
  await session.open(uri("jug"), texts["/shed/jug.fettle"]);
  const edit = await ask<WorkspaceEdit>("rename", "jug", 2, 8, { newName: "layers/shed habits.fettle" });
  expect(edit.documentChanges).toEqual([
    {
      textDocument: { uri: uri("jug"), version: 1 },
      edits: [
        {
          range: { start: { line: 2, character: 4 }, end: { line: 2, character: 19 } },
          newText: '"layers/shed habits.fettle"',
        },
      ],
    },
    {
      kind: "rename",
      oldUri: uri("habits"),
      newUri: "file:///shed/layers/shed%20habits.fettle",
      options: { overwrite: false },
    },
  ]);
  await expect(ask("rename", "jug", 2, 8, { newName: "wheel.fettle" })).rejects.toThrow("already");
});

test("a client that moves no files is told where to do it", async () => {
  session = await startSession(filesInMemory(texts));
  await expect(ask("rename", "jug", 2, 8, { newName: "mine.fettle" })).rejects.toThrow(
    "This editor does not rename files so",
  );
});

test("a position and where its control rests are typed together", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  expect(await ask("linkedEditingRange", "wheel", 2, 16)).toEqual({
    ranges: [16, 46].map((character) => ({
      start: { line: 2, character },
      end: { line: 2, character: character + 2 },
    })),
    wordPattern: "[a-z][a-z0-9-]*",
  });
  expect(await ask("linkedEditingRange", "wheel", 2, 27)).toBeNull();
});
