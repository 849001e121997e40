/** What hangs on what: the modes and controls of a craft, and files that use one another. */
import type { CallHierarchyItem, Connection, TypeHierarchyItem } from "vscode-languageserver";
import { SymbolKind } from "vscode-languageserver-types";
import {
  type CallItem,
  callItemsAt,
  incomingCalls,
  outgoingCalls,
  type PartKind,
  type PartName,
} from "../../../shared/ide/structure/calls.ts";
import { type FileItem, fileItemAt, filesThatUse, filesUsedBy } from "../../../shared/ide/structure/used-files.ts";
import { asUri, type Uri } from "../../../shared/protocol/addresses.ts";
import { fileNameOf } from "../../../shared/text/file-name.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import { broughtBack, type Shape } from "./brought-back.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { loadFor } from "./load.ts";
import { inSlicesOver } from "./slices.ts";
import type { UriOf } from "./to-lsp.ts";

/** By which a part is found again: the craft for which it is shown, and its name there. */
interface CallData {
  readonly craft: Uri;
  readonly part: PartName;
}
const CALL_DATA: Shape = { craft: "string", part: { kind: "string", name: "string" } };

/** Answers both hierarchies. */
export function answerHierarchies(connection: Connection, documents: Documents, guard: Guard): void {
  const { callHierarchy, typeHierarchy } = connection.languages;
  const { uriOf, now } = documents;
  callHierarchy.onPrepare(
    guard("what hangs on what", null, async (params, token) => {
      const file = await loadFor(documents, params);
      const items = await inSlicesOver(documents, (at) => callItemsAt(at, file, params.position), token);
      return items.map((item) => toCallItem(item, uriOf));
    }),
  );
  callHierarchy.onOutgoingCalls(
    guard("what it hangs on", null, async ({ item }) => {
      const data = broughtBack<CallData>(item.data, CALL_DATA);
      if (!data) return null;
      const file = await documents.load(data.craft);
      const calls = outgoingCalls(now(), file, data.part);
      return calls.map(({ item: to, ranges }) => ({ to: toCallItem(to, uriOf), fromRanges: [...ranges] }));
    }),
  );
  callHierarchy.onIncomingCalls(
    guard("what hangs on it", null, async ({ item }) => {
      const data = broughtBack<CallData>(item.data, CALL_DATA);
      if (!data) return null;
      const file = await documents.load(data.craft);
      const calls = incomingCalls(now(), file, data.part);
      return calls.map(({ item: from, ranges }) => ({ from: toCallItem(from, uriOf), fromRanges: [...ranges] }));
    }),
  );
  typeHierarchy.onPrepare(
    guard("files that use one another", null, async ({ textDocument, position }) => {
      const file = await documents.load(textDocument.uri);
      const item = fileItemAt(now(), file, position);
      return item && [toTypeItem(item, uriOf)];
    }),
  );
  typeHierarchy.onSupertypes(
    guard("used files", null, async ({ item }) => {
      const file = await documents.load(asUri(item.uri));
      return filesUsedBy(now(), file).map((each) => toTypeItem(each, uriOf));
    }),
  );
  typeHierarchy.onSubtypes(
    guard("files that use it", null, async ({ item }, token) => {
      const file = await documents.loadAll(asUri(item.uri));
      const users = await inSlicesOver(documents, (at) => filesThatUse(at, file), token);
      return users.map((each) => toTypeItem(each, uriOf));
    }),
  );
}

const PART_KINDS: Record<PartKind, SymbolKind> = {
  mode: SymbolKind.Event,
  output: SymbolKind.Event,
  control: SymbolKind.Variable,
  position: SymbolKind.EnumMember,
  channel: SymbolKind.Variable,
  follows: SymbolKind.Property,
};

function toCallItem(
  { craft, part, kind, name, detail, file, range, nameRange }: CallItem,
  uriOf: UriOf,
): CallHierarchyItem {
  const data: CallData = { craft: uriOf(craft), part };
  return {
    name: visibleLine(name),
    kind: PART_KINDS[kind],
    detail: visibleLine(detail),
    uri: uriOf(file),
    range,
    selectionRange: nameRange,
    data,
  };
}

const FILE_KINDS = {
  craft: SymbolKind.Class,
  layer: SymbolKind.Interface,
  handset: SymbolKind.Module,
  dialect: SymbolKind.Package,
} as const;

function toTypeItem({ name, kind, file, range, nameRange }: FileItem, uriOf: UriOf): TypeHierarchyItem {
  const detail = visibleLine(`${kind}, ${fileNameOf(file)}`);
  return {
    name: visibleLine(name),
    kind: FILE_KINDS[kind],
    detail,
    uri: uriOf(file),
    range,
    selectionRange: nameRange,
  };
}
