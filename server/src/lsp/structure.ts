/** What the editor asks of how scripts are built: selections that grow. */
import type { Connection, SelectionRange } from "vscode-languageserver";
import { selectionsAt } from "../../../shared/ide/structure/selections.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

/** Answers the questions about the structure of one script. */
export function answerStructure(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onSelectionRanges(
    guard("selection ranges", null, async ({ textDocument, positions }) => {
      const file = await documents.load(textDocument.uri);
      const { catalogue, ...now } = documents.now();
      const script = now.script(file);
      return script && positions.map((at) => toSelection(selectionsAt(script, catalogue, at)));
    }),
  );
}

/** The innermost range, with the others around it. */
function toSelection(ranges: readonly Range[]): SelectionRange {
  return ranges.reduceRight<SelectionRange | undefined>(
    (parent, range) => (parent ? { range, parent } : { range }),
    undefined,
  )!;
}
