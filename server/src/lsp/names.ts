/** What has a name: where it is said and used, in the workspace and in its own document. */
import type { Connection } from "vscode-languageserver";
import { DocumentHighlightKind } from "vscode-languageserver-types";
import { highlightsAt, referencesAt } from "../../../shared/ide/names/references.ts";
import { rangeOf } from "../../../shared/syntax/span.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { inSlices } from "./slices.ts";

/** Answers where the name under the cursor stands. */
export function answerNames(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onReferences(
    guard("references", null, async ({ textDocument: { uri }, position, context: { includeDeclaration } }, token) => {
      const file = await documents.loadAll(uri);
      const steps = referencesAt(documents.now(), file, position, includeDeclaration ? "with" : "without");
      const places = await inSlices(steps, token);
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
}
