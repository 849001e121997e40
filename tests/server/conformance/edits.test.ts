/** After edits at random every answer of a server that has seen them all equals that of one that begins with the texts as they are. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterEach, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { projectFiles } from "../../tidy/sources.ts";
import { filesInMemory } from "../session.ts";
import { CLIENTS } from "./clients.ts";
import { type Document, TABLE } from "./table.ts";
import { begin, inProcess, openWire, type Wire } from "./wire.ts";

const paths = projectFiles().filter((path) => /^examples\/(?:craft|layers|handsets)\/.*\.fettle$/.test(path));
const files = Object.fromEntries(paths.map((path) => [`/shed/${path}`, readFileSync(inProject(path), "utf8")]));
const EDITED = ["craft/tankard", "layers/habits", "handsets/wheel"].map((name) => `/shed/examples/${name}.fettle`);
const client = CLIENTS["all abilities"];

const wires: Wire[] = [];
afterEach(() => {
  for (const wire of wires.splice(0)) wire.end();
});

/** A server with these texts on the disk, and some of them open with what the editor has. */
async function serverWith(
  open: Readonly<Record<string, { readonly version: number; readonly text: string }>>,
): Promise<Wire> {
  const wire = openWire(inProcess(filesInMemory({ ...files })), client);
  wires.push(wire);
  await begin(wire, client);
  for (const [path, { version, text }] of Object.entries(open))
    wire.notify("textDocument/didOpen", {
      textDocument: { uri: `file://${path}`, languageId: "fettle", version, text },
    });
  return wire;
}

/** Everything that depends on what the server told before, and not on the texts alone. */
const OF_THE_SESSION = new Set(["resultId"]);
const comparable = (result: unknown) =>
  JSON.stringify(result, (key, value) => (OF_THE_SESSION.has(key) ? undefined : value));

/** Answers of every kind on a document, by what was asked. */
async function answers(wire: Wire, document: Document): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  for (const [method, { asks }] of Object.entries(TABLE)) {
    if (method === "textDocument/semanticTokens/full/delta") continue;
    const all = asks?.(document) ?? [];
    // Some of each: the first, the last, and what lies between them here and there.
    const some = all.filter((_, i) => i === 0 || i === all.length - 1 || i % 11 === 0);
    for (const params of some) {
      const { result, error } = await wire.request(method, params);
      found.set(`${method} ${JSON.stringify(params)}`, comparable(result ?? error));
    }
  }
  return found;
}

const WORDS = [
  "\n",
  "  ",
  "cells 4",
  "drop all\n",
  "when TL is down",
  "# a note",
  '"',
  "pack\n",
  "30 deg",
  "\u00e4\ud83d\ude00",
  'use "x"\n',
  "12",
];
const edit = fc.record({
  file: fc.constantFrom(...EDITED),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  removed: fc.nat(40),
  text: fc.oneof(fc.constantFrom(...WORDS), fc.constant("")),
});

/** The place of an offset in a text, as the protocol has it. */
function placeOf(text: string, offset: number): { line: number; character: number } {
  const before = text.slice(0, offset).split("\n");
  return { line: before.length - 1, character: before.at(-1)!.length };
}

test("edits of a craft, of its layer and of its handset", async () => {
  const runs = fc.array(edit, { minLength: 1, maxLength: 12 });
  await fc.assert(
    fc.asyncProperty(runs, async (edits) => {
      const texts = Object.fromEntries(EDITED.map((path) => [path, { version: 1, text: files[path]! }]));
      const wire = await serverWith(texts);
      for (const { file, at, removed, text: written } of edits) {
        const { version, text } = texts[file]!;
        const start = Math.floor(at * text.length);
        const end = Math.min(text.length, start + removed);
        texts[file] = { version: version + 1, text: text.slice(0, start) + written + text.slice(end) };
        wire.notify("textDocument/didChange", {
          textDocument: { uri: `file://${file}`, version: version + 1 },
          contentChanges: [{ range: { start: placeOf(text, start), end: placeOf(text, end) }, text: written }],
        });
        // Answered between two edits, so that what is remembered is of an earlier text.
        await wire.request("textDocument/diagnostic", { textDocument: { uri: `file://${EDITED[0]}` } });
      }
      const fresh = await serverWith(texts);
      for (const path of EDITED) {
        const document = { uri: `file://${path}`, text: texts[path]!.text };
        expect(await answers(wire, document)).toEqual(await answers(fresh, document));
      }
      expect([...wire.faults, ...wire.errors, ...fresh.faults, ...fresh.errors]).toEqual([]);
      for (const each of wires.splice(0)) each.end();
    }),
    { numRuns: 6, seed: 14 },
  );
});
