/** Outlines, which are kept in part as they were written: each is the same as if all of it were written anew. */
import { PassThrough } from "node:stream";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeOutlines } from "../../server/src/lsp/outline.ts";
import { toSymbol } from "../../server/src/lsp/to-lsp.ts";
import { valuesIn, written } from "../../server/src/lsp/written.ts";
import { connectionOver } from "../../server/src/node/streams.ts";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { symbolsOf } from "../../shared/ide/editor/symbols.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

const craft = `craft "Jug"

pack
  cells  6

pack "Old"
  capacity  1000 mAh

modes
  arm  when TL is down
`;
const dialect = `dialect "Kiln"

pack
  "cells {n}"  cells {n}
`;

const pieces = [
  "",
  "1",
  '"',
  "#",
  "\n",
  "\n\n",
  "  cells 4\n",
  'pack "Öld \u202e"\n',
  "under x\n",
  'layer "Jug"\n',
  "é",
  "𝒥",
];
const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  without: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(60)),
  put: fc.constantFrom(...pieces),
});

test("after any edits of a script, its outline is that of a first reading", () => {
  const core = makeCore(makeCatalogue());
  fc.assert(
    fc.property(fc.constantFrom(craft, dialect), fc.array(edit, { maxLength: 12 }), (start, edits) => {
      const outlineOf = makeOutlines();
      let text = start;
      for (const { at, without, put } of [{ at: 0, without: 0, put: "" }, ...edits]) {
        const from = Math.floor(at * text.length);
        text = text.slice(0, from) + put + text.slice(from + without);
        const script = core.at(memoryFiles({ "/jug.fettle": text })).script("/jug.fettle")!;
        const told = JSON.parse(JSON.stringify(outlineOf(script, core.catalogue)));
        expect(told).toEqual(JSON.parse(JSON.stringify(symbolsOf(script, core.catalogue).map(toSymbol))));
      }
    }),
    { numRuns: 100, seed: 2026 },
  );
});

test("an answer that is written already is a part of its message as it is, and a value where messages are values", async () => {
  const [input, output] = [new PassThrough(), new PassThrough()];
  const connection = connectionOver(input, output);
  connection.onRequest("jug/asked", () => written<number[]>('[1, 2, "ü"]'));
  connection.listen();
  const body = JSON.stringify({ jsonrpc: "2.0", id: "a", method: "jug/asked" });
  input.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
  const [bytes] = (await output.take(1).toArray()) as Buffer[];
  connection.dispose();
  expect(String(bytes)).toBe('Content-Length: 48\r\n\r\n{"jsonrpc":"2.0","id":"a","result":[1, 2, "ü"]}');
  expect(valuesIn({ id: 1, result: written<number[]>("[1]") })).toEqual({ id: 1, result: [1] });
  expect(valuesIn({ id: 1, result: null })).toEqual({ id: 1, result: null });
});
