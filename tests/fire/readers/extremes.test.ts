/**
 * Extreme texts through the server's and the command line's entry points: each question is answered within a bound, no
 * stack overflows, and what is too much is said at once.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../../cli/held.ts";
import { filesInMemory, type Session, startSession } from "../../server/session.ts";
import { EXTREMES } from "./extreme-texts.ts";

/** Of the processor's time, for one answer. */
const MOST_MS = 2000;
/** All certain repairs are tried out on the text before they are offered, in slices between which others are answered. */
const MOST_REPAIRS_MS = 6000;
/** A command reads everything anew, and all that it may say. */
const MOST_COMMAND_MS = 5000;
const TRIES = 3;

/** What takes too much of the processor's time, however often it is tried; null where it is in time. */
async function late(mostMs: number, name: string, work: () => Promise<unknown>): Promise<string | null> {
  let leastMs = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TRIES && leastMs > mostMs; i++) {
    const before = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(before);
    leastMs = Math.min(leastMs, (user + system) / 1000);
  }
  return leastMs > mostMs ? `${name}: ${leastMs.toFixed(0)} ms` : null;
}

const uri = "file:///shed/jug.fettle";
const document = { textDocument: { uri } };
const LAST = 1 << 30;

/** What an editor asks of a file as a whole, and at a place of it. */
function questionsAt(line: number, character: number): readonly (readonly [method: string, more: object])[] {
  const position = { line, character };
  const range = { start: { line: Math.max(0, line - 50), character: 0 }, end: { line, character } };
  return [
    ["textDocument/hover", { position }],
    ["textDocument/completion", { position }],
    ["textDocument/signatureHelp", { position }],
    ["textDocument/definition", { position }],
    ["textDocument/references", { position, context: { includeDeclaration: true } }],
    ["textDocument/prepareRename", { position }],
    ["textDocument/selectionRange", { positions: [position] }],
    ["textDocument/codeAction", { range, context: { diagnostics: [] } }],
    ["textDocument/inlayHint", { range }],
    ["textDocument/semanticTokens/range", { range }],
  ];
}

const WHOLE: readonly (readonly [method: string, more: object])[] = [
  ["textDocument/diagnostic", {}],
  ["textDocument/documentSymbol", {}],
  ["textDocument/foldingRange", {}],
  ["textDocument/documentLink", {}],
  ["textDocument/documentColor", {}],
  ["textDocument/codeLens", {}],
  ["textDocument/semanticTokens/full", {}],
  ["textDocument/formatting", { options: { tabSize: 2, insertSpaces: true } }],
];

/** The middle of a text, within a line that has something, and what lies behind it. */
function placesIn(text: string): readonly (readonly [number, number])[] {
  const all = text.split(/\r\n|\r|\n/);
  const middle = Math.floor(all.length / 2);
  return [
    [middle, Math.floor(all[middle]!.length / 2)],
    [LAST, LAST],
  ];
}

describe("the server", () => {
  let session: Session | undefined;
  afterEach(() => session?.end());

  test.each(Object.entries(EXTREMES))("%s", async (_, { files, refused }) => {
    const paths = Object.entries(files).map(([path, text]) => [`/shed/${path}`, text]);
    session = await startSession(filesInMemory(Object.fromEntries(paths)));
    const { client, log } = session;
    const text = files["jug.fettle"]!;
    await session.open(uri, text);
    const ask = ([method, more]: readonly [string, object]) =>
      late(method === "textDocument/codeAction" ? MOST_REPAIRS_MS : MOST_MS, method, () =>
        client.sendRequest(method, { ...document, ...more }).catch(withoutFault),
      );
    const found: (string | null)[] = [];
    for (const question of WHOLE) found.push(await ask(question));
    for (const [line, character] of placesIn(text))
      for (const question of questionsAt(line, character)) found.push(await ask(question));
    // A key at its end, and what is found then.
    const { length } = text.split(/\r\n|\r|\n/);
    const range = { start: { line: length, character: 0 }, end: { line: length, character: 0 } };
    await client.sendNotification("textDocument/didChange", {
      textDocument: { uri, version: 2 },
      contentChanges: [{ range, text: "#" }],
    });
    found.push(await ask(["textDocument/diagnostic", {}]));
    expect(found.filter((each) => each !== null)).toEqual([]);
    expect(log.filter((line) => /RangeError|TypeError|call stack/.test(line))).toEqual([]);
    const items = await session.pull(uri);
    const tooMuch = items.filter(({ message }) => / is read up to /.test(String(message)));
    if (!refused) expect(tooMuch).toEqual([]);
    else
      expect(items.map(({ message }) => message)).toEqual([expect.stringMatching(new RegExp(refused.source.slice(1)))]);
  });
});

/** An answer that is refused in words is one; a fault of the program is none. */
function withoutFault(error: { readonly code?: number; readonly message: string }): null {
  if (error.code === -32603) throw new Error(error.message);
  return null;
}

describe("the command line", () => {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "fettle-extreme-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each(Object.entries(EXTREMES))("%s", async (name, extreme) => {
    const place = join(folder, name.replace(/\W/g, "-"));
    write(place, extreme.files);
    const found: (string | null)[] = [];
    const isCraft = extreme.files["jug.fettle"]!.startsWith("craft");
    for (const command of ["check", "format --check", ...(isCraft ? ["show"] : [])]) {
      const [word, ...flags] = command.split(" ");
      found.push(
        await late(MOST_COMMAND_MS, command, async () => {
          const io = held(place, "");
          const status = await run([word!, ...flags, "jug.fettle"], io);
          expect(io.errorText()).not.toMatch(/should not have happened/);
          if (extreme.refused) {
            expect(status).toBeGreaterThan(0);
            expect(io.errorText() + io.outText()).toMatch(new RegExp(extreme.refused.source.slice(1)));
          }
        }),
      );
    }
    expect(found.filter((each) => each !== null)).toEqual([]);
  });
});

function write(place: string, files: Readonly<Record<string, string>>): void {
  mkdirSync(join(place, ".git"), { recursive: true });
  for (const [path, text] of Object.entries({ ".git/HEAD": "ref: refs/heads/main\n", ...files }))
    writeFileSync(join(place, path), text);
}
