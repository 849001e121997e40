/** The names of all scripts of the workspace, as they are searched. */
import type { Connection } from "vscode-languageserver";
import { SymbolKind, type WorkspaceSymbol } from "vscode-languageserver-types";
import {
  type FoundSymbol,
  makeSymbolSearch,
  type SymbolKind as OurKind,
  placeOfSymbol,
} from "../../../shared/ide/structure/workspace-symbols.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import { broughtBack } from "./brought-back.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import { type Guard, resolving } from "./guard.ts";
import { inSlicesOver } from "./slices.ts";
import type { UriOf } from "./to-lsp.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
}

/** More than anybody looks through, and enough for an editor to narrow down further by itself. */
const MOST = 1000;

/** By which a name is found again, once its place is asked for. */
interface SymbolData {
  readonly kind: OurKind;
  readonly name: string;
  readonly line: number;
}

/** Answers what is searched, and where one of the names stands. */
export function answerWorkspaceSymbols({ connection, documents, guard, abilities }: Parts): void {
  const search = makeSymbolSearch();
  connection.onWorkspaceSymbol(
    guard("workspace symbols", null, async ({ query }, token) => {
      await documents.loadWorkspace();
      const found = await inSlicesOver(documents, (now) => search.find(now, query, MOST), token);
      return found.map((each) => toWorkspaceSymbol(each, documents.uriOf, abilities()));
    }),
  );
  connection.onWorkspaceSymbolResolve(
    resolving(guard, "place of a symbol", async (symbol) => {
      const data = broughtBack<SymbolData>(symbol.data, { kind: "string", name: "string", line: "number" });
      if (!data) return symbol;
      const file = documents.pathOf(asUri(symbol.location.uri));
      await documents.read(file);
      const range = placeOfSymbol(documents.now(), file, data);
      return range ? { ...symbol, location: { uri: symbol.location.uri, range } } : symbol;
    }),
  );
}

const KINDS: Record<OurKind, SymbolKind> = {
  craft: SymbolKind.Class,
  layer: SymbolKind.Interface,
  handset: SymbolKind.Module,
  dialect: SymbolKind.Package,
  section: SymbolKind.Namespace,
  setting: SymbolKind.Property,
  mode: SymbolKind.Event,
  output: SymbolKind.Event,
  element: SymbolKind.Field,
  control: SymbolKind.Variable,
  follows: SymbolKind.Property,
  position: SymbolKind.EnumMember,
  code: SymbolKind.Constant,
  fact: SymbolKind.Property,
  line: SymbolKind.String,
};

/** The last of the kinds that every client knows. */
const LAST_OF_OLD = SymbolKind.Array;

function toWorkspaceSymbol(
  { file, symbol: { name, kind, container, nameRange }, words }: FoundSymbol,
  uriOf: UriOf,
  { resolvesSymbols, symbolKinds }: Abilities,
): WorkspaceSymbol {
  const own = KINDS[kind];
  const isKnown = symbolKinds?.includes(own) ?? own <= LAST_OF_OLD;
  const data: SymbolData = { kind, name, line: nameRange.start.line };
  return {
    // An editor looks for what was typed in the name as well, and leaves out what has none of it.
    name: visibleLine(words === null ? name : `${name} · ${words}`),
    kind: isKnown ? own : SymbolKind.Constant,
    containerName: visibleLine(container),
    ...(resolvesSymbols
      ? { location: { uri: uriOf(file) }, data }
      : { location: { uri: uriOf(file), range: nameRange } }),
  };
}
