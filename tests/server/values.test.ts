import { afterEach, expect, test } from "vitest";
import type { CodeAction, ColorInformation, ColorPresentation, SignatureHelp } from "vscode-languageserver/node";
import { filesInMemory, type Session, startSession } from "./session.ts";

const base = 'layer "Base"\n\npack\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n';
const jug = `craft "Jug"

use "base.fettle"

rates
  roll slope 100 deg/s end 700 deg/s

lights
  colour orange

bench
  pack-volts-read 16.4 V
  pack-volts-shown 16.2 V
`;
const JUG = "file:///shed/jug.fettle";
const lineOf = (words: string) => jug.split("\n").findIndex((line) => line.includes(words));
const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

let session: Session;
afterEach(() => session?.end());

async function opened(texts: Record<string, string> = {}): Promise<Session> {
  session = await startSession(filesInMemory({ "/shed/base.fettle": base, "/shed/jug.fettle": jug, ...texts }));
  await session.open(JUG, jug);
  return session;
}

const ask = <T>(method: string, params: object): Promise<T> =>
  session.client.sendRequest(method, { textDocument: { uri: JUG }, ...params });

test("the field at the cursor, with what it takes", async () => {
  await opened();
  const position = { line: lineOf("roll"), character: "  roll slope 100 deg/s ".length };
  const help = await ask<SignatureHelp>("textDocument/signatureHelp", { position });
  const signature = help.signatures[0]!;
  expect(signature.label).toBe("roll slope NUMBER deg/s  end NUMBER deg/s  [bend NUMBER]");
  const part = signature.parameters![help.activeParameter!]!;
  expect(signature.label.slice(...(part.label as [number, number]))).toBe("[bend NUMBER]");
  expect(part.documentation).toMatchObject({ kind: "markdown" });
  expect(await ask("textDocument/signatureHelp", { position: { line: 0, character: 3 } })).toBeNull();
});

test("a colour is found, and written back under its name or as a hex", async () => {
  await opened();
  const [found] = await ask<ColorInformation[]>("textDocument/documentColor", {});
  expect(found).toMatchObject({ color: { red: 1, green: 165 / 255, blue: 0, alpha: 1 } });
  const other = { color: { red: 0, green: 0.5, blue: 0.5, alpha: 0.3 }, range: found!.range };
  const ways = await ask<ColorPresentation[]>("textDocument/colorPresentation", other);
  expect(ways.map(({ label, textEdit }) => [label, textEdit?.newText])).toEqual([
    ["teal", "teal"],
    ['"#008080"', '"#008080"'],
  ]);
});

test("readings offer a refactoring, where that kind is asked for, with the file it belongs in", async () => {
  await opened();
  const range = {
    start: { line: lineOf("volts-read"), character: 4 },
    end: { line: lineOf("volts-read"), character: 4 },
  };
  const actions = (only?: string[], at = range) =>
    ask<CodeAction[]>("textDocument/codeAction", { range: at, context: { diagnostics: [], only } });
  const [action, ...others] = await actions();
  expect(others.map(({ kind }) => kind)).toEqual(["refactor.move"]);
  expect(action).toMatchObject({
    kind: "refactor.rewrite",
    edit: {
      changes: {
        "file:///shed/base.fettle": [{ newText: "10.14 kohm" }],
        [JUG]: [{ newText: "# " }, { newText: "# " }],
      },
    },
  });
  expect(await actions(["refactor"])).toHaveLength(2);
  expect(await actions(["quickfix"])).toEqual([]);
  expect(await actions(undefined, { start: all.start, end: all.start })).toEqual([]);
  expect(session.log).toEqual([]);
});

test("that another craft uses the layer is known, though it was never opened", async () => {
  await opened({ "/shed/mug.fettle": 'craft "Mug"\nuse "base.fettle"\n' });
  const at = { line: lineOf("volts-read"), character: 4 };
  const [action] = await ask<CodeAction[]>("textDocument/codeAction", {
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  expect(Object.keys(action?.edit?.changes ?? {})).toEqual([JUG]);
});
