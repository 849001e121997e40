/** The libraries alone, without a process, a client or a protocol between: a text after an edit, and its findings. */
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { percentile } from "../figures.ts";
import { timed } from "../served.ts";
import { type TypingPlace, withTyped } from "./place.ts";
import { PEER_PACKAGES } from "./sides.ts";
import type { Twins } from "./twins.ts";

/** Edits before those that count: in them both become as fast as they get. */
const WARM_UP = 30;
const EDITS = 100;
const FILE = "/craft.fettle";

/** As much as is used here of the peer's library, which is not installed where the types are checked. */
interface JsonLibrary {
  readonly TextDocument: { create(uri: string, languageId: string, version: number, text: string): object };
  getLanguageService(parameters: object): {
    configure(settings: object): void;
    parseJSONDocument(document: object): object;
    doValidation(document: object, parsed: object): Promise<readonly object[]>;
  };
}

export interface LibraryRound {
  readonly ours: { readonly p50: number; readonly p95: number };
  readonly theirs: { readonly p50: number; readonly p95: number };
}

/** One round of both in this process, in turn edit by edit; milliseconds. Fails where one of them finds something. */
export async function libraryRound(
  twins: Twins,
  place: TypingPlace,
  catalogue: Catalogue,
  schema: object,
): Promise<LibraryRound> {
  const core = makeCore(catalogue);
  const scriptLines = twins.script.split("\n");
  const ours = async (i: number) => {
    const script = withTyped(scriptLines, place.script, place.typed(i));
    return findingsOf(core.at(memoryFiles({ [FILE]: script })), FILE);
  };
  const { getLanguageService, TextDocument } = createRequire(import.meta.url)(
    join(PEER_PACKAGES, "vscode-json-languageservice"),
  ) as JsonLibrary;
  const service = getLanguageService({});
  service.configure({ validate: true, schemas: [{ uri: "craft.schema.json", fileMatch: ["*.json"], schema }] });
  const jsonLines = twins.json.split("\n");
  const theirs = (i: number) => {
    const text = withTyped(jsonLines, place.json, place.typed(i));
    const document = TextDocument.create("file:///craft.json", "json", i, text);
    return service.doValidation(document, service.parseJSONDocument(document));
  };
  const [mine, others]: [number[], number[]] = [[], []];
  for (let i = 0; i < WARM_UP + EDITS; i++) {
    for (const [side, spent] of [
      [ours, mine],
      [theirs, others],
    ] as const) {
      const [ms] = await timed(1, async () => {
        if ((await side(i)).length > 0) throw new Error("something is found in a sound craft");
      });
      if (i >= WARM_UP) spent.push(ms!);
    }
  }
  const figures = (spent: number[]) => {
    const sorted = spent.toSorted((a, b) => a - b);
    return { p50: percentile(sorted, 0.5), p95: percentile(sorted, 0.95) };
  };
  return { ours: figures(mine), theirs: figures(others) };
}
