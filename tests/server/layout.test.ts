/** Layout over the wire: of documents, ranges and a typed line, refusals, and sections in their order. */
import { afterEach, expect, test } from "vitest";
import type { CodeAction, Range, TextEdit } from "vscode-languageserver/node";
import { edited } from "../ide/format/meaning.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const JUG = "file:///shed/jug.fettle";
const textDocument = { uri: JUG };
const options = { tabSize: 8, insertSpaces: false };
const untidy = 'craft "Jug"\nmodes\n arm when TL is down\npack\n\tcells 6\n\tcapacity 1100mAh\n';
const tidy = 'craft "Jug"\n\nmodes\n  arm  when TL is down\n\npack\n  cells     6\n  capacity  1100 mAh\n';

let session: Session;
afterEach(() => session?.end());

async function opened(text: string, capabilities = PULLING): Promise<void> {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": text }), capabilities);
  await session.open(JUG, text);
}

function after(text: string, edits: readonly TextEdit[]): string {
  return edited(
    text,
    edits.map(({ range, newText }) => ({ range, text: newText })),
  );
}

test("a document is laid out, whatever the editor's tabs; laid out again there is nothing to do", async () => {
  await opened(untidy);
  const edits: TextEdit[] = await session.client.sendRequest("textDocument/formatting", { textDocument, options });
  expect(after(untidy, edits)).toBe(tidy);
  session.end();
  await opened(tidy);
  expect(await session.client.sendRequest("textDocument/formatting", { textDocument, options })).toEqual([]);
});

test("a range is laid out as the whole would be, several at once, and all else stays", async () => {
  await opened(untidy);
  const range: Range = { start: { line: 4, character: 3 }, end: { line: 5, character: 0 } };
  const edits: TextEdit[] = await session.client.sendRequest("textDocument/rangeFormatting", {
    textDocument,
    range,
    options,
  });
  expect(after(untidy, edits)).toBe(untidy.replace("\tcells 6", "  cells     6"));
  const ranges = [range, { start: { line: 2, character: 0 }, end: { line: 2, character: 1 } }, range];
  const both: TextEdit[] = await session.client.sendRequest("textDocument/rangesFormatting", {
    textDocument,
    ranges,
    options,
  });
  expect(after(untidy, both)).toBe(untidy.replace("\tcells 6", "  cells     6").replace(" arm when", "  arm  when"));
});

test("a line end that is typed lays out the line that was left", async () => {
  const typed = 'craft "Jug"\n\npack\n  cells     6\n  capacity 1100mAh\n  \n';
  await opened(typed);
  const position = { line: 5, character: 2 };
  const edits: TextEdit[] = await session.client.sendRequest("textDocument/onTypeFormatting", {
    textDocument,
    position,
    ch: "\n",
    options,
  });
  expect(after(typed, edits)).toBe(typed.replace("capacity 1100mAh", "capacity  1100 mAh"));
});

test("what must not be rewritten is refused in words", async () => {
  await opened('craft "Jug" edition 2\n\n\n\npack\n');
  await expect(session.client.sendRequest("textDocument/formatting", { textDocument, options })).rejects.toThrow(
    "“Jug” is not laid out: it is written in a newer edition of the language",
  );
  const position = { line: 3, character: 0 };
  expect(
    await session.client.sendRequest("textDocument/onTypeFormatting", { textDocument, position, ch: "\n", options }),
  ).toEqual([]);
});

test("sections are put in order when that is asked for by name, and never offered among all actions", async () => {
  await opened(tidy);
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const asked = async (only?: string[]) => {
    const context = { diagnostics: [], ...(only && { only }) };
    const actions: CodeAction[] = await session.client.sendRequest("textDocument/codeAction", {
      textDocument,
      range,
      context,
    });
    return actions.filter(({ kind }) => kind?.startsWith("source.organize"));
  };
  expect(await asked()).toEqual([]);
  expect(await asked(["refactor"])).toEqual([]);
  expect(await asked(["source"])).toHaveLength(1);
  const [action] = await asked(["source.organize"]);
  expect(action).toMatchObject({ title: "Put the sections in the order of the reference", kind: "source.organize" });
  const edits = Object.values(action!.edit!.changes ?? {}).flat();
  expect(after(tidy, edits)).toBe(
    'craft "Jug"\n\npack\n  cells     6\n  capacity  1100 mAh\n\nmodes\n  arm  when TL is down\n',
  );
});
