/** What an editor asks while a script is read and written, timed: of every place of a text, or of a whole fleet. */
import type { ProtocolConnection, ServerCapabilities } from "vscode-languageserver/node";
import { timed } from "./served.ts";

export interface Timing {
  readonly name: string;
  /** What the middle of 95 in a hundred may take, in ms; null where nothing was promised. */
  readonly targetMs: number | null;
  /** Milliseconds of each ask, the shortest first; none where the server does not offer it. */
  readonly spent: readonly number[];
  /** How much the answer held. */
  readonly told: string;
}

interface Asked {
  readonly client: ProtocolConnection;
  readonly offers: ServerCapabilities;
}

interface Place {
  readonly line: number;
  readonly character: number;
}

/** At most so many places of a text, from its first to its last, at even distances. */
export function placesOf(text: string, most: number): Place[] {
  const all = text
    .split("\n")
    .flatMap((line, at) => Array.from({ length: line.length + 1 }, (_, character) => ({ line: at, character })));
  const step = Math.max(1, all.length / most);
  return Array.from({ length: Math.min(most, all.length) }, (_, i) => all[Math.floor(i * step)]!);
}

/** The place of the first of these words in a text. */
export function placeOf(text: string, words: string): Place {
  const before = text.slice(0, text.indexOf(words)).split("\n");
  return { line: before.length - 1, character: before.at(-1)!.length };
}

/** Completion and hover at places of texts that are open, by their addresses. */
export async function askEverywhere(
  { client }: Asked,
  texts: ReadonlyMap<string, string>,
  mostPlaces: number,
): Promise<Timing[]> {
  const asked = [...texts].flatMap(([uri, text]) =>
    placesOf(text, Math.ceil(mostPlaces / texts.size)).map((position) => ({ textDocument: { uri }, position })),
  );
  const rows: Timing[] = [];
  for (const method of ["completion", "hover"]) {
    let answered = 0;
    const spent = await timed(asked.length, async (i) => {
      const answer: { items?: unknown[] } | null = await client.sendRequest(`textDocument/${method}`, asked[i]);
      if (answer && answer.items?.length !== 0) answered++;
    });
    rows.push({ name: method, targetMs: 5, spent, told: `${answered} of ${asked.length} places have something` });
  }
  return rows;
}

/** One question, asked some times. */
export interface Question {
  readonly name: string;
  readonly offer: keyof ServerCapabilities;
  readonly method: string;
  readonly params: unknown;
  readonly targetMs?: number;
  readonly times?: number;
  /** Asked of the first thing that the answer names, in the same time. */
  readonly follow?: string;
}

/** Each question where the server offers to answer it; what the first ask took, which may have to read files, is told apart. */
export async function askEach({ client, offers }: Asked, questions: readonly Question[]): Promise<Timing[]> {
  const rows: Timing[] = [];
  for (const { name, offer, method, params, targetMs = null, times = 20, follow } of questions) {
    if (!offers[offer]) {
      rows.push({ name, targetMs, spent: [], told: "not offered" });
      continue;
    }
    let told = "";
    const ask = async () => {
      const answer: unknown = await client.sendRequest(method, params);
      const item = follow && (answer as unknown[] | null)?.[0];
      told = sizeOf(item ? await client.sendRequest(follow, { item }) : answer);
    };
    const [firstMs = 0] = await timed(1, ask);
    const spent = await timed(times, ask);
    rows.push({ name, targetMs, spent, told: `${told}; the first in ${firstMs.toFixed(1)} ms` });
  }
  return rows;
}

/** How much an answer holds, in words. */
function sizeOf(answer: unknown): string {
  if (answer === null || answer === undefined) return "nothing";
  if (Array.isArray(answer)) return `${answer.length} told`;
  const { documentChanges, changes, data, items } = answer as Record<string, unknown>;
  const files = Array.isArray(documentChanges) ? documentChanges : changes ? Object.values(changes) : null;
  if (files) return `edits in ${files.length} files`;
  if (Array.isArray(data)) return `${data.length / 5} tokens`;
  return Array.isArray(items) ? `${items.length} told` : "told";
}

/** What is asked of one open text. */
export function questionsOfText(uri: string, text: string): Question[] {
  const textDocument = { uri };
  const lines = text.split("\n").length;
  const whole = { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } };
  const middle = { line: Math.floor(lines / 2), character: 3 };
  const screen = { start: { line: middle.line - 30, character: 0 }, end: { line: middle.line + 30, character: 0 } };
  const options = { tabSize: 2, insertSpaces: true };
  return [
    {
      name: "symbols",
      offer: "documentSymbolProvider",
      method: "textDocument/documentSymbol",
      params: { textDocument },
      targetMs: 20,
    },
    {
      name: "format",
      offer: "documentFormattingProvider",
      method: "textDocument/formatting",
      params: { textDocument, options },
    },
    {
      name: "format of a screen",
      offer: "documentRangeFormattingProvider",
      method: "textDocument/rangeFormatting",
      params: { textDocument, range: screen, options },
    },
    {
      name: "format while typing",
      offer: "documentOnTypeFormattingProvider",
      method: "textDocument/onTypeFormatting",
      params: { textDocument, position: { line: middle.line + 1, character: 0 }, ch: "\n", options },
    },
    {
      name: "tokens",
      offer: "semanticTokensProvider",
      method: "textDocument/semanticTokens/full",
      params: { textDocument },
    },
    {
      name: "tokens of a screen",
      offer: "semanticTokensProvider",
      method: "textDocument/semanticTokens/range",
      params: { textDocument, range: screen },
    },
    {
      name: "inlay hints of a screen",
      offer: "inlayHintProvider",
      method: "textDocument/inlayHint",
      params: { textDocument, range: screen },
    },
    {
      name: "inlay hints",
      offer: "inlayHintProvider",
      method: "textDocument/inlayHint",
      params: { textDocument, range: whole },
    },
    { name: "folding", offer: "foldingRangeProvider", method: "textDocument/foldingRange", params: { textDocument } },
    {
      name: "selection",
      offer: "selectionRangeProvider",
      method: "textDocument/selectionRange",
      params: { textDocument, positions: [middle] },
    },
    {
      name: "highlights",
      offer: "documentHighlightProvider",
      method: "textDocument/documentHighlight",
      params: { textDocument, position: placeOf(text, "capacity") },
    },
  ];
}

/** What is asked of all craft, about a control, a mode and a layer that they share; the places are in one open craft. */
export function questionsOfFleet(uri: string, text: string, handset: string, handsetText: string): Question[] {
  const at = (place: Place) => ({ textDocument: { uri }, position: place });
  const control = { textDocument: { uri: handset }, position: placeOf(handsetText, "TL ") };
  return [
    {
      name: "references of a control",
      offer: "referencesProvider",
      method: "textDocument/references",
      params: { ...control, context: { includeDeclaration: true } },
      targetMs: 500,
    },
    {
      name: "references of a setting",
      offer: "referencesProvider",
      method: "textDocument/references",
      params: { ...at(placeOf(text, "capacity")), context: { includeDeclaration: true } },
      targetMs: 500,
    },
    {
      name: "rename, prepared",
      offer: "renameProvider",
      method: "textDocument/prepareRename",
      params: control,
      targetMs: 500,
    },
    {
      name: "rename of a control",
      offer: "renameProvider",
      method: "textDocument/rename",
      params: { ...control, newName: "TZ" },
      targetMs: 500,
    },
    {
      name: "rename of a layer's file",
      offer: "renameProvider",
      method: "textDocument/rename",
      params: { ...at(placeOf(text, "layers/habits")), newName: "../layers/manners.fettle" },
      targetMs: 500,
    },
    {
      name: "symbols named “tank”",
      offer: "workspaceSymbolProvider",
      method: "workspace/symbol",
      params: { query: "tank" },
    },
    { name: "symbols, all", offer: "workspaceSymbolProvider", method: "workspace/symbol", params: { query: "" } },
    {
      name: "modes that lean on arm",
      offer: "callHierarchyProvider",
      method: "textDocument/prepareCallHierarchy",
      params: at(placeOf(text, "arm\n")),
      follow: "callHierarchy/incomingCalls",
    },
    {
      name: "craft that use a layer",
      offer: "typeHierarchyProvider" as keyof ServerCapabilities,
      method: "textDocument/prepareTypeHierarchy",
      params: at(placeOf(text, "layers/habits")),
      follow: "typeHierarchy/subtypes",
    },
  ];
}
