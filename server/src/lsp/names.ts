/** What has a name: where it is said and used, in the workspace and in its own document, and another name for it. */
import type { Connection, WorkspaceEdit } from "vscode-languageserver";
import { DocumentHighlightKind } from "vscode-languageserver-types";
import { linkedNamesAt } from "../../../shared/ide/names/linked.ts";
import { highlightsAt, referencesAt } from "../../../shared/ide/names/references.ts";
import { renameAt, renameableAt } from "../../../shared/ide/names/rename.ts";
import { pathNamedAt } from "../../../shared/ide/names/rename-file.ts";
import type { Renamed } from "../../../shared/ide/names/renamed.ts";
import { rangeOf } from "../../../shared/syntax/span.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { Refused } from "./refused.ts";
import { inSlicesOver } from "./slices.ts";
import { toWorkspaceEdit, withMove } from "./workspace-edits.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
}

/** Answers where the name under the cursor stands, and with the edits that give it another. */
export function answerNames({ connection, documents, guard, abilities }: Parts): void {
  connection.onReferences(
    guard("references", null, async ({ textDocument: { uri }, position, context: { includeDeclaration } }, token) => {
      const file = await documents.loadAll(uri);
      const declarations = includeDeclaration ? "with" : "without";
      const places = await inSlicesOver(documents, (now) => referencesAt(now, file, position, declarations), token);
      return places.map((place) => ({ uri: documents.uriOf(place.file), range: rangeOf(place) }));
    }),
  );
  connection.onDocumentHighlight(
    guard("highlights", null, async ({ textDocument: { uri }, position }) => {
      const file = await documents.load(uri);
      return highlightsAt(documents.now(), file, position).map((each) => ({
        range: rangeOf(each),
        kind: each.does === "reads" ? DocumentHighlightKind.Read : DocumentHighlightKind.Write,
      }));
    }),
  );
  connection.languages.onLinkedEditingRange(
    guard("linked editing", null, async ({ textDocument: { uri }, position }) => {
      const file = await documents.load(uri);
      const linked = linkedNamesAt(documents.now(), file, position);
      return linked && { ranges: [...linked.ranges], wordPattern: linked.pattern };
    }),
  );
  connection.onPrepareRename(
    guard("rename", null, async ({ textDocument: { uri }, position }) => {
      const file = await documents.load(uri);
      if (!documents.now().script(file)) return null;
      const able = renameableAt(documents.now(), file, position);
      if (able.kind === "refused") throw new Refused(able.message);
      return { range: able.range, placeholder: able.text };
    }),
  );
  connection.onRenameRequest(
    guard("rename", null, async ({ textDocument: { uri }, position, newName }, token) => {
      const file = await documents.loadAll(uri);
      if (!documents.now().script(file)) return null;
      const path = pathNamedAt(documents.now(), file, position, newName);
      if (path !== null) await documents.read(path);
      const renamed = await inSlicesOver(documents, (now) => renameAt(now, file, position, newName), token);
      return toEdit(renamed, documents, abilities());
    }),
  );
}

function toEdit(renamed: Renamed, documents: Documents, { versionsEdits, renamesFiles }: Abilities): WorkspaceEdit {
  if (renamed.kind === "refused") throw new Refused(renamed.message);
  const { edits, move } = renamed;
  if (move && !renamesFiles)
    throw new Refused("This editor does not rename files so: rename it where files are listed, and its lines follow.");
  const edit = toWorkspaceEdit(edits, documents, versionsEdits ? "versioned" : "plain");
  return move ? withMove(edit, documents.uriOf(move.from), documents.uriOf(move.to)) : edit;
}
