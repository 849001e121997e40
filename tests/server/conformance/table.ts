/**
 * Every request that the server announces: what it is asked of a document, and what must come of it on a small shed.
 * A new capability needs an entry here; `capabilities.test.ts` says which is missing.
 */
import { expect } from "vitest";
import type { ClientName } from "./clients.ts";
import { marked } from "./wire.ts";

export interface Document {
  readonly uri: string;
  readonly text: string;
}

/** What the server is asked of any document: the requests of a sweep. */
export type Asks = (document: Document) => readonly object[];

// biome-ignore lint/suspicious/noExplicitAny: what an answer holds is for its schema to say.
export type Answer = any;

export interface Entry {
  /** What is asked of the shed below. */
  readonly params: object;
  /** Holds its answer to what is expected of a client of this kind. */
  expect(result: Answer, client: ClientName): void;
  /** What is asked of every document of a sweep; where there is nothing, the results of another method lead here. */
  readonly asks?: Asks;
  /** What is asked about each of the first of these results. */
  readonly leadsTo?: readonly Follow[];
  /** Takes results in parts. */
  readonly streams?: true;
}

export interface Follow {
  readonly method: string;
  paramsOf(result: Answer, document: Document): readonly object[];
}

export const SHED = "file:///shed";
const jug = `${SHED}/jug.fettle`;
const base = `${SHED}/base.fettle`;

const { text: jugText, position } = marked(`craft "Jug"

use "base.fettle"
use "wheel.fettle"

pack
  cells       6
  ca|pacity    1100 mAh

modes
  arm    when TL is down
  level  when arm and TR is down

osd
  grid        53 x 20
  pack-volts  at left+3, bottom-2

colours
  a  #ff0000

controls
  PB  button  ch9  off 1000 us  held 2000 us  rests off
`);

/** The files of the shed; the craft is open. */
export const TEXTS: Readonly<Record<string, string>> = {
  "/shed/jug.fettle": jugText,
  "/shed/base.fettle": 'layer "Base"\n\nsafety\n  arm-tilt-limit  30 deg\n\npack\n  warn-at  3.5 V/cell\n',
  "/shed/wheel.fettle":
    'handset "Wheel"\n\ncontrols\n  TL  switch on ch 5, up down\n  TR  switch on ch 6, up down\n\nsticks\n  order  roll pitch throttle yaw\n',
};

const at = (line: number, character: number) => ({ line, character });
const inJug = { textDocument: { uri: jug } };
/** A place in the craft by the word that begins there. */
export function place(word: string, after = 0): { line: number; character: number } {
  const before = jugText.slice(0, jugText.indexOf(word)).split("\n");
  return at(before.length - 1, before.at(-1)!.length + after);
}

/** Of the whole document. */
const whole: Asks = ({ uri }) => [{ textDocument: { uri } }];

/** The places of a document that are worth asking about: some in every part of a line, and some outside of the text. */
export function places({ text }: Document): { line: number; character: number }[] {
  const lines = text.split("\n");
  const step = Math.max(1, Math.floor(lines.length / 9));
  const inside = lines.flatMap((line, i) =>
    i % step === 0
      ? [0, line.search(/\S/) + 1, Math.floor(line.length / 2), line.length].map((character) =>
          at(i, Math.max(0, character)),
        )
      : [],
  );
  return [...inside, at(0, 10_000), at(lines.length + 5, 3), at(2147483647, 2147483647)];
}

const everywhere: Asks = (document) =>
  places(document).map((position) => ({ textDocument: { uri: document.uri }, position }));

const stretches: Asks = (document) => {
  const some = places(document);
  const ranges = [
    { start: at(0, 0), end: at(document.text.split("\n").length, 0) },
    ...some.map((place) => ({ start: place, end: place })),
    ...some.slice(1).map((end, i) => ({ start: some[i]!, end })),
  ];
  return ranges.map((range) => ({ textDocument: { uri: document.uri }, range }));
};

/** How an editor shows tabs, of which a layout takes no account. */
const LAYOUT = { tabSize: 8, insertSpaces: false };
const rangeOf = (params: object) => (params as { readonly range: object }).range;

const first = (count: number, of: unknown): object[] => (Array.isArray(of) ? of.slice(0, count) : []);

/** A mode of the craft as an item of a hierarchy. */
function partOfJug(name: string): object {
  const range = { start: at(0, 0), end: at(0, 1) };
  return { name, kind: 24, uri: jug, range, selectionRange: range, data: { craft: jug, part: { kind: "mode", name } } };
}

/** By method. */
export const TABLE: Readonly<Record<string, Entry>> = {
  "textDocument/diagnostic": {
    params: inJug,
    expect: (result) => expect(result).toMatchObject({ kind: "full", items: expect.any(Array) }),
    asks: whole,
  },
  "workspace/diagnostic": {
    params: { previousResultIds: [] },
    expect: ({ items }) => expect(items.map(({ uri }: Document) => uri).sort()).toEqual([base, `${SHED}/wheel.fettle`]),
    streams: true,
  },
  "textDocument/hover": {
    params: { ...inJug, position },
    expect: (result) => {
      expect(result.contents.value).toContain("capacity");
      expect(result.range.start.line).toBe(position.line);
    },
    asks: everywhere,
  },
  "textDocument/completion": {
    params: { ...inJug, position: place("cells") },
    expect: ({ items }) => expect(items.map(({ label }: { label: string }) => label)).toContain("land-at"),
    asks: everywhere,
    leadsTo: [{ method: "completionItem/resolve", paramsOf: (result) => first(2, result?.items) }],
  },
  "completionItem/resolve": {
    params: { label: "cells" },
    expect: (result) => expect(result).toMatchObject({ label: "cells" }),
  },
  "textDocument/signatureHelp": {
    params: { ...inJug, position: place("at left", 5) },
    expect: (result) => expect(result.signatures.length).toBeGreaterThan(0),
    asks: everywhere,
  },
  "textDocument/definition": {
    params: { ...inJug, position: place("TL is", 1) },
    expect: ([found]) => expect(found.targetUri ?? found.uri).toBe(`${SHED}/wheel.fettle`),
    asks: everywhere,
  },
  "textDocument/references": {
    params: { ...inJug, position: place("TL is", 1), context: { includeDeclaration: true } },
    expect: (result) => expect(result.map(({ uri }: Document) => uri)).toContain(`${SHED}/wheel.fettle`),
    asks: (document) =>
      everywhere(document).flatMap((params) =>
        [true, false].map((includeDeclaration) => ({ ...params, context: { includeDeclaration } })),
      ),
  },
  "textDocument/documentHighlight": {
    params: { ...inJug, position: place("TL is", 1) },
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: everywhere,
  },
  "textDocument/prepareRename": {
    params: { ...inJug, position: place("TL is", 1) },
    expect: (result) => expect(result.placeholder).toBe("TL"),
    asks: everywhere,
  },
  "textDocument/rename": {
    params: { ...inJug, position: place("TL is", 1), newName: "LA" },
    expect: (result) => {
      const uris = result.changes
        ? Object.keys(result.changes)
        : result.documentChanges.map(({ textDocument }: { textDocument: Document }) => textDocument.uri);
      expect(uris).toEqual([jug, `${SHED}/wheel.fettle`]);
    },
    asks: (document) =>
      everywhere(document).flatMap((params) =>
        ["LA", "low", "shed/other.fettle"].map((newName) => ({ ...params, newName })),
      ),
  },
  "textDocument/linkedEditingRange": {
    params: { ...inJug, position: place("off 1000", 1) },
    expect: (result) => expect(result).toMatchObject({ ranges: [{}, {}], wordPattern: expect.any(String) }),
    asks: everywhere,
  },
  "textDocument/documentSymbol": {
    params: inJug,
    expect: (result) => expect(result[0].name).toContain("Jug"),
    asks: whole,
  },
  "textDocument/foldingRange": {
    params: inJug,
    expect: (result) => expect(result.length).toBeGreaterThan(2),
    asks: whole,
  },
  "textDocument/documentLink": {
    params: inJug,
    expect: (result) => expect(result[0]).toMatchObject({ target: base }),
    asks: whole,
  },
  "textDocument/formatting": {
    params: { ...inJug, options: LAYOUT },
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: ({ uri }) => [{ textDocument: { uri }, options: LAYOUT }],
  },
  "textDocument/rangeFormatting": {
    params: { ...inJug, range: { start: place("cells"), end: place("6\n") }, options: LAYOUT },
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: (document) => stretches(document).map((params) => ({ ...params, options: LAYOUT })),
  },
  "textDocument/rangesFormatting": {
    params: { ...inJug, ranges: [{ start: at(0, 0), end: at(9, 0) }], options: LAYOUT },
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: (document) => [
      { textDocument: { uri: document.uri }, ranges: stretches(document).map(rangeOf), options: LAYOUT },
    ],
  },
  "textDocument/onTypeFormatting": {
    params: { ...inJug, position: at(3, 0), ch: "\n", options: LAYOUT },
    expect: (result) => expect(result).toEqual(expect.any(Array)),
    asks: (document) => everywhere(document).map((params) => ({ ...params, ch: "\n", options: LAYOUT })),
  },
  "textDocument/codeAction": {
    params: { ...inJug, range: { start: place("capacity"), end: place("1100") }, context: { diagnostics: [] } },
    expect: (result) => expect(result).toEqual(expect.any(Array)),
    asks: (document) => stretches(document).map((params) => ({ ...params, context: { diagnostics: [] } })),
  },
  "textDocument/codeLens": {
    params: inJug,
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: whole,
  },
  "textDocument/inlayHint": {
    params: { ...inJug, range: { start: at(0, 0), end: at(30, 0) } },
    expect: (result) => expect(result.length).toBeGreaterThan(0),
    asks: stretches,
    leadsTo: [{ method: "inlayHint/resolve", paramsOf: (result) => first(2, result) }],
  },
  "inlayHint/resolve": {
    params: { position: place("1100"), label: "x", data: { uri: jug } },
    expect: (result) => expect(result).toMatchObject({ label: "x" }),
  },
  "textDocument/selectionRange": {
    params: { ...inJug, positions: [position, at(0, 0)] },
    expect: (result) => {
      expect(result).toHaveLength(2);
      expect(result[0].parent.range).toBeDefined();
    },
    asks: (document) => [{ textDocument: { uri: document.uri }, positions: places(document) }],
  },
  "workspace/symbol": {
    params: { query: "warn-at" },
    expect: ([found]) => expect(found).toMatchObject({ name: "warn-at", location: { uri: base } }),
    asks: ({ text }) =>
      ["", text.slice(0, 9), ...(text.match(/[\w-]+/g) ?? []).slice(3, 6)].map((query) => ({ query })),
    leadsTo: [{ method: "workspaceSymbol/resolve", paramsOf: (result) => first(2, result) }],
    streams: true,
  },
  "workspaceSymbol/resolve": {
    params: { name: "cells", kind: 7, location: { uri: jug }, data: { name: "cells", kind: "setting", line: 1 } },
    expect: ({ location }) => expect(location.range.start).toEqual(place("cells")),
  },
  "textDocument/prepareCallHierarchy": {
    params: { ...inJug, position: place("level", 1) },
    expect: (result) => expect(result).toMatchObject([{ name: "level", uri: jug }]),
    asks: everywhere,
    leadsTo: [
      { method: "callHierarchy/incomingCalls", paramsOf: (result) => first(2, result).map((item) => ({ item })) },
      { method: "callHierarchy/outgoingCalls", paramsOf: (result) => first(2, result).map((item) => ({ item })) },
    ],
  },
  "callHierarchy/incomingCalls": {
    params: { item: partOfJug("arm") },
    expect: (result) => expect(result).toMatchObject([{ from: { name: "level" } }]),
  },
  "callHierarchy/outgoingCalls": {
    params: { item: partOfJug("level") },
    expect: (result) => expect(result[0]).toMatchObject({ to: { name: "arm" } }),
  },
  "textDocument/prepareTypeHierarchy": {
    params: { ...inJug, position: at(0, 8) },
    expect: (result) => expect(result).toMatchObject([{ name: "Jug", uri: jug }]),
    asks: everywhere,
    leadsTo: [
      { method: "typeHierarchy/supertypes", paramsOf: (result) => first(1, result).map((item) => ({ item })) },
      { method: "typeHierarchy/subtypes", paramsOf: (result) => first(1, result).map((item) => ({ item })) },
    ],
  },
  "typeHierarchy/supertypes": {
    params: { item: { ...partOfJug("Jug"), kind: 5 } },
    expect: (result) => expect(result.map(({ name }: { name: string }) => name)).toEqual(["Base", "Wheel"]),
  },
  "typeHierarchy/subtypes": {
    params: { item: { ...partOfJug("Base"), kind: 11, uri: base } },
    expect: (result) => expect(result).toMatchObject([{ name: "Jug", uri: jug }]),
  },
  "textDocument/semanticTokens/range": {
    params: { ...inJug, range: { start: at(5, 0), end: at(7, 0) } },
    expect: ({ data }) => {
      expect(data.length).toBeGreaterThan(5);
      expect(data.length % 5).toBe(0);
    },
    asks: stretches,
  },
  "textDocument/semanticTokens/full/delta": {
    params: { ...inJug, previousResultId: "of another time" },
    expect: ({ data }) => expect(data.length % 5).toBe(0),
    asks: ({ uri }) => [{ textDocument: { uri }, previousResultId: "0" }],
  },
  "textDocument/semanticTokens/full": {
    params: inJug,
    expect: ({ data }) => {
      expect(data.length).toBeGreaterThan(20);
      expect(data.length % 5).toBe(0);
    },
    asks: whole,
    leadsTo: [
      {
        method: "textDocument/semanticTokens/full/delta",
        paramsOf: ({ resultId }, { uri }) => (resultId ? [{ textDocument: { uri }, previousResultId: resultId }] : []),
      },
    ],
  },
  "textDocument/documentColor": {
    params: inJug,
    expect: (result) => expect(result).toEqual(expect.any(Array)),
    asks: whole,
  },
  "textDocument/colorPresentation": {
    params: {
      ...inJug,
      color: { red: 1, green: 0, blue: 0.5, alpha: 1 },
      range: { start: place("#ff0000"), end: place("#ff0000", 7) },
    },
    expect: (result) => expect(result[0].textEdit.newText).toBe(result[0].label),
    asks: (document) =>
      stretches(document)
        .slice(0, 4)
        .map((params) => ({ ...params, color: { red: 0, green: 0.25, blue: 1, alpha: 0 } })),
  },
  "workspace/willRenameFiles": {
    params: { files: [{ oldUri: base, newUri: `${SHED}/layers/base.fettle` }] },
    expect: (result) => expect(JSON.stringify(result)).toContain("layers/base.fettle"),
    asks: ({ uri }) => [{ files: [{ oldUri: uri, newUri: `${uri}-moved.fettle` }] }],
  },
  "workspace/willDeleteFiles": {
    params: { files: [{ uri: base }] },
    expect: (result, client) => {
      // Where nobody can be asked, no line is removed.
      if (client === "no abilities" || client === "nothing but the names of its abilities")
        return expect(result).toBeNull();
      expect(result.documentChanges).toMatchObject([{ textDocument: { uri: jug }, edits: [{ newText: "" }] }]);
    },
    asks: ({ uri }) => [{ files: [{ uri }] }],
  },
};
