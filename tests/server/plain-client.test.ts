/** Clients that can do less than most: what they get has no marks that they would show as they are. */
import { readFileSync } from "node:fs";
import { afterEach, describe, expect, test } from "vitest";
import type { CompletionItem, Hover, SignatureHelp } from "vscode-languageserver-types";
import { inProject } from "../../.dev/say.mjs";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const FILES = ["craft/tankard", "craft/wobbly-jug", "handsets/wheel", "boards/loom"].map(
  (name) => `/shed/${name}.fettle`,
);
const texts = Object.fromEntries(
  FILES.map((path) => [path, readFileSync(inProject(`examples${path.slice(5)}`), "utf8")]),
);

/** Shows plain text alone, has no tab stops and no columns. */
const PLAIN: typeof PULLING = {
  ...PULLING,
  textDocument: {
    ...PULLING.textDocument,
    hover: { contentFormat: ["plaintext"] },
    completion: { completionItem: { snippetSupport: false, documentationFormat: ["plaintext"] } },
    signatureHelp: { signatureInformation: { documentationFormat: ["plaintext"] } },
  },
};
/** What a client of today can do. */
const FULL: typeof PULLING = {
  ...PULLING,
  textDocument: {
    ...PULLING.textDocument,
    hover: { contentFormat: ["markdown", "plaintext"] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ["markdown"] } },
    signatureHelp: { signatureInformation: { parameterInformation: { labelOffsetSupport: true } } },
  },
};

/** Marks of Markdown, but for those that a pilot's own text or a value may hold. */
const MARKS = /\*\*|\]\((?:file|https?|command|fettle):|^##+ |\\[`*_[\]<>|~]|```/m;
const STOPS = /\$\d|\$\{/;

let session: Session;
afterEach(() => session.end());

async function begin(capabilities: typeof PULLING, options?: unknown): Promise<void> {
  session = await startSession(filesInMemory(texts), capabilities, options);
  for (const path of FILES) await session.open(`file://${path}`, texts[path]!);
}

const ask = <T>(method: string, path: string, line: number, character: number) =>
  session.client.sendRequest<T>(`textDocument/${method}`, {
    textDocument: { uri: `file://${path}` },
    position: { line, character },
  });

/** The line of the first craft that begins so. */
const lineOf = (beginning: string) => texts[FILES[0]!]!.split("\n").findIndex((line) => line.startsWith(beginning));

/** The first column of each word of a text. */
const words = (text: string) =>
  text
    .split("\n")
    .flatMap((line, at) => [...line.matchAll(/[A-Za-z0-9"{]+/g)].map(({ index }) => [at, index] as const));

describe("a client of plain text", () => {
  test("is shown hovers without marks, at every word of the demo", async () => {
    await begin(PLAIN);
    const marked: string[] = [];
    let shown = 0;
    for (const path of FILES)
      for (const [line, character] of words(texts[path]!)) {
        const hover = await ask<Hover | null>("hover", path, line, character);
        if (!hover) continue;
        shown++;
        expect(hover.contents).toMatchObject({ kind: "plaintext" });
        const { value } = hover.contents as { value: string };
        if (MARKS.test(value)) marked.push(`${path}:${line + 1}:${character + 1} ${MARKS.exec(value)![0]}`);
      }
    expect(shown).toBeGreaterThan(500);
    expect(marked).toEqual([]);
  });

  test("gets no tab stops, no command of another editor and no marks, at every word of the demo", async () => {
    await begin(PLAIN);
    let offered = 0;
    for (const path of FILES)
      for (const [line, character] of words(texts[path]!)) {
        const { items } = await ask<{ items: CompletionItem[] }>("completion", path, line, character);
        offered += items.length;
        expect(items.filter((item) => item.insertTextFormat !== 1 || item.command)).toEqual([]);
        expect(items.map((item) => item.textEdit!.newText).filter((text) => STOPS.test(text))).toEqual([]);
      }
    expect(offered).toBeGreaterThan(1000);
    const { items } = await ask<{ items: CompletionItem[] }>("completion", FILES[0]!, lineOf("  capacity"), 2);
    for (const item of items) {
      const { documentation } = await session.client.sendRequest<CompletionItem>("completionItem/resolve", item);
      if (documentation)
        expect(documentation).toMatchObject({ kind: "plaintext", value: expect.not.stringMatching(MARKS) });
    }
  });

  test("is sent no message that the protocol does not have", async () => {
    await begin(PLAIN);
    const unknown: string[] = [];
    session.client.onUnhandledNotification(({ method }) => unknown.push(method));
    await session.open("file:///shed/new.fettle", 'craft "New"\n');
    await session.pull("file:///shed/new.fettle");
    expect(unknown).toEqual([]);
    session.end();
    await begin(PLAIN, { draws: true });
    session.client.onUnhandledNotification(({ method }) => unknown.push(method));
    await session.open("file:///shed/new.fettle", 'craft "New"\n');
    await session.pull("file:///shed/new.fettle");
    expect(new Set(unknown)).toEqual(new Set(["fettle/changed"]));
  });

  test("is told the parts of a value by their text", async () => {
    await begin(PLAIN);
    const help = await ask<SignatureHelp>("signatureHelp", FILES[0]!, lineOf("  roll            slope"), 30);
    const [signature] = help.signatures;
    expect(signature!.parameters!.map(({ label }) => label)).toEqual([
      "slope NUMBER deg/s",
      "end NUMBER deg/s",
      "[bend NUMBER]",
    ]);
    expect(signature!.label).toContain("slope NUMBER deg/s");
    expect(signature!.parameters![2]!.documentation).toMatchObject({
      kind: "plaintext",
      value: expect.stringContaining("Default: 3"),
    });
  });
});

test("a client that can do more gets it: Markdown, tab stops, columns, and its own command to ask again", async () => {
  await begin(FULL, { suggestCommand: "its.own" });
  expect((await ask<Hover>("hover", FILES[0]!, lineOf("  capacity"), 4)).contents).toMatchObject({ kind: "markdown" });
  await session.open("file:///shed/new.fettle", 'craft "New"\n\npack\n  c\n');
  const names = await ask<{ items: CompletionItem[] }>("completion", "/shed/new.fettle", 3, 3);
  expect(names.items.some((item) => item.insertTextFormat === 2 && STOPS.test(item.textEdit!.newText))).toBe(true);
  const after = await ask<{ items: CompletionItem[] }>("completion", FILES[0]!, lineOf("  rates-second"), 21);
  expect(after.items.filter(({ command }) => command).map(({ command }) => command!.command)).toContain("its.own");
});
