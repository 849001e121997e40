/** `use` lines when files are renamed, moved or deleted, as an editor asks about them before it does so. */
import { afterEach, describe, expect, test } from "vitest";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const texts = () => ({
  "/shed/craft/jug.fettle": 'craft "Jug"\n\nuse "../base.fettle"\n\npack\n  cells 4\n',
  "/shed/craft/mug.fettle": 'craft "Mug"\nuse "../base.fettle"\n',
  "/shed/base.fettle": 'layer "Base"\n',
});
const uri = (name: string) => `file:///shed/${name}.fettle`;
const line = (number: number, from: number, to: number) => ({
  start: { line: number, character: from },
  end: { line: number, character: to },
});
const renamed = { files: [{ oldUri: uri("base"), newUri: uri("my base") }] };
const deleted = { files: [{ uri: uri("base") }] };

const EDITS = { ...PULLING, workspace: { workspaceEdit: { documentChanges: true } } };
const ASKS = {
  ...PULLING,
  workspace: { workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} } },
};

let session: Session;
afterEach(() => session?.end());
const ask = (method: string, params: unknown) => session.client.sendRequest<unknown>(`workspace/${method}`, params);

describe("an editor that is told by the protocol", () => {
  test("changes documents as they are, and files that are not open, before they are moved", async () => {
    session = await startSession(filesInMemory(texts()), EDITS);
    await session.open(uri("craft/mug"), '# mine\ncraft "Mug"\nuse "../base.fettle"\n');
    expect(await ask("willRenameFiles", renamed)).toEqual({
      documentChanges: [
        {
          textDocument: { uri: uri("craft/jug"), version: null },
          edits: [{ range: line(2, 4, 20), newText: '"../my base.fettle"' }],
        },
        {
          textDocument: { uri: uri("craft/mug"), version: 1 },
          edits: [{ range: line(2, 4, 20), newText: '"../my base.fettle"' }],
        },
      ],
    });
  });

  test("that can ask is told to, with how much there is", async () => {
    session = await startSession(filesInMemory(texts()), ASKS);
    const edit = await ask("willRenameFiles", renamed);
    expect(edit).toMatchObject({
      changeAnnotations: {
        "use-lines": { label: "Lead to the new place", description: "2 changes in 2 scripts", needsConfirmation: true },
      },
    });
    expect(JSON.stringify(edit).split('"annotationId":"use-lines"')).toHaveLength(3);
    expect(await ask("willDeleteFiles", deleted)).toMatchObject({
      changeAnnotations: { "use-lines": { label: "Remove what names a deleted file" } },
      documentChanges: [
        { edits: [{ range: { start: { line: 2, character: 0 }, end: { line: 4, character: 0 } }, newText: "" }] },
        { edits: [{ range: { start: { line: 1, character: 0 }, end: { line: 2, character: 0 } }, newText: "" }] },
      ],
    });
  });

  test.each([
    ["always", EDITS, true, true],
    ["ask", EDITS, true, false],
    ["never", ASKS, false, false],
    ["always", ASKS, true, true],
  ])("set to %s", async (useLines, capabilities, moves, removes) => {
    session = await startSession(filesInMemory(texts()), capabilities, { settings: { useLines } });
    const rename = await ask("willRenameFiles", renamed);
    expect(rename !== null).toBe(moves);
    expect((await ask("willDeleteFiles", deleted)) !== null).toBe(removes);
    expect(JSON.stringify(rename)).not.toContain("needsConfirmation");
  });

  test("is told of the lines that cannot follow", async () => {
    const shed = {
      ...texts(),
      "/shed/craft/mug.fettle":
        'craft "Mug"\n<<<<<<< ours\nuse "../base.fettle"\n=======\nuse "../old.fettle"\n>>>>>>> theirs\n',
    };
    session = await startSession(filesInMemory(shed), EDITS, { settings: { useLines: "always" } });
    const messages: { readonly type: number; readonly message: string }[] = [];
    session.client.onNotification("window/showMessage", (each) => void messages.push(each));
    expect(await ask("willRenameFiles", renamed)).toMatchObject({
      documentChanges: [{ textDocument: { uri: uri("craft/jug") } }],
    });
    expect(await ask("willDeleteFiles", deleted)).toMatchObject({ documentChanges: [{}] });
    const message =
      "Line 3 of “Mug” stands in an unresolved merge: keep the side that is right and remove the markers first.";
    expect(messages).toEqual([
      { type: 2, message },
      { type: 2, message },
    ]);
  });

  test("has nothing to do where no line names what is moved", async () => {
    session = await startSession(filesInMemory(texts()), EDITS);
    expect(
      await ask("willRenameFiles", { files: [{ oldUri: uri("craft/jug"), newUri: uri("craft/pitcher") }] }),
    ).toBeNull();
    expect(await ask("willDeleteFiles", { files: [{ uri: uri("craft/jug") }] })).toBeNull();
    expect(await ask("willRenameFiles", { files: [] })).toBeNull();
  });
});

test("a board's text is followed as well, whatever its name ends with", async () => {
  const shed = {
    "/shed/craft/jug.fettle": 'craft "Jug"\n\nboard\n  # as saved in May\n  text  "../boards/jug.cfg"\n',
    "/shed/boards/jug.cfg": "hello\n",
  };
  session = await startSession(filesInMemory(shed), EDITS, { settings: { useLines: "always" } });
  const moved = { files: [{ oldUri: "file:///shed/boards/jug.cfg", newUri: "file:///shed/boards/old jug.cfg" }] };
  expect(await ask("willRenameFiles", moved)).toMatchObject({
    documentChanges: [{ edits: [{ range: line(4, 8, 27), newText: '"../boards/old jug.cfg"' }] }],
  });
  expect(await ask("willDeleteFiles", { files: [{ uri: "file:///shed/boards" }] })).toMatchObject({
    documentChanges: [{ edits: [{ range: { start: { line: 3, character: 0 }, end: { line: 5, character: 0 } } }] }],
  });
});

describe("our own client", () => {
  const useLines = (params: unknown) => session.client.sendRequest<unknown>("fettle/useLines", params);

  test("has the edits by the addresses after the move, with what they replace", async () => {
    session = await startSession(filesInMemory(texts()));
    expect(
      await useLines({ kind: "move", files: [{ oldUri: "file:///shed/craft", newUri: "file:///shed/all/of%20us" }] }),
    ).toEqual({
      files: ["jug", "mug"].map((name, i) => ({
        file: `file:///shed/all/of%20us/${name}.fettle`,
        edits: [{ range: line(2 - i, 4, 20), was: '"../base.fettle"', text: '"../../base.fettle"' }],
      })),
      lines: 2,
      uses: 2,
      craft: [],
      left: [],
    });
  });

  test("is told which craft use what is deleted", async () => {
    session = await startSession(filesInMemory(texts()));
    expect(await useLines({ kind: "delete", ...deleted })).toMatchObject({ lines: 2, craft: ["Jug", "Mug"] });
  });
});

test("what was deleted or moved in the editor counts at once, without a word from those that watch files", async () => {
  const shed: Record<string, string> = texts();
  session = await startSession(filesInMemory(shed));
  await session.open(uri("craft/jug"), shed["/shed/craft/jug.fettle"]!);
  expect(await session.pull(uri("craft/jug"))).toEqual([]);
  delete shed["/shed/base.fettle"];
  await session.client.sendNotification("workspace/didDeleteFiles", deleted);
  expect((await session.pull(uri("craft/jug"))).map(({ code }) => code)).toEqual(["use-missing"]);
  shed["/shed/base.fettle"] = texts()["/shed/base.fettle"];
  await session.client.sendNotification("workspace/didRenameFiles", {
    files: [{ oldUri: uri("old"), newUri: uri("base") }],
  });
  expect(await session.pull(uri("craft/jug"))).toEqual([]);
});

test("a file that is no script keeps its lines where it is moved, also one that somebody has read as a script", async () => {
  const paste = "file:///shed/paste.txt";
  session = await startSession(filesInMemory({ ...texts(), "/shed/paste.txt": 'craft "Jug"\nuse "base.fettle"\n' }));
  await session.client.sendRequest("textDocument/documentSymbol", { textDocument: { uri: paste } });
  const moved = { files: [{ oldUri: paste, newUri: "file:///shed/craft/paste.txt" }] };
  expect(await ask("willRenameFiles", moved)).toBeNull();
});
