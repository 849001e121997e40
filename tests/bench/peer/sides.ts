/** The two servers that are measured: how each is started, and the craft as each is given it. */
import { join } from "node:path";
import type { InitializeParams } from "vscode-languageserver/node";
import { FETTLE, type Program } from "../served.ts";
import type { NumberPlace, TypingPlace } from "./place.ts";
import type { Twins } from "./twins.ts";

export interface Side {
  readonly name: "ours" | "theirs";
  readonly program: Program;
  readonly path: string;
  readonly text: string;
  readonly at: NumberPlace;
  /** What is told to the server once it is ready, as its editor does. */
  readonly settings: object | null;
  readonly faults: readonly string[];
}

/** Both are asked by the same client, with what an editor of today can do. */
export const CLIENT: InitializeParams["capabilities"] = {
  textDocument: {
    diagnostic: {},
    hover: { contentFormat: ["markdown"] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ["markdown"] } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    formatting: {},
  },
};

/** npm runs a script in the project's folder. */
export const PEER_PACKAGES = join(process.cwd(), ".cache/peer/node_modules");
const PEER: Program = {
  args: [join(PEER_PACKAGES, "vscode-langservers-extracted/bin/vscode-json-language-server"), "--stdio"],
  languageId: "json",
  initializationOptions: { provideFormatter: true },
};

export function sidesOf(twins: Twins, place: TypingPlace, schema: object): readonly [Side, Side] {
  const schemas = [{ fileMatch: ["*.json"], url: "fettle-bench://craft.schema.json", schema }];
  return [
    {
      name: "ours",
      program: FETTLE,
      path: "tankard.fettle",
      text: twins.script,
      at: place.script,
      settings: null,
      faults: place.faults.map(({ script }) => script),
    },
    {
      name: "theirs",
      program: PEER,
      path: "tankard.json",
      text: twins.json,
      at: place.json,
      settings: { json: { validate: { enable: true }, format: { enable: true }, schemas } },
      faults: place.faults.map(({ json }) => json),
    },
  ];
}
