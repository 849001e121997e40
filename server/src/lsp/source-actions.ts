/** Actions about a whole script: all certain repairs at once. */
import { type CodeAction, CodeActionKind } from "vscode-languageserver-types";
import { certainFixesOf } from "../../../shared/ide/structure/fix-all.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { Documents } from "./documents.ts";
import { type EditForm, toWorkspaceEdit } from "./workspace-edits.ts";

/** The kinds of these actions, by which an editor asks for them when it saves. */
export const SOURCE_KINDS = { fixAll: `${CodeActionKind.SourceFixAll}.fettle` } as const;

/** All that can be repaired with certainty; nothing where there is nothing. */
export function* fixAllActions(file: FilePath, documents: Documents, form: EditForm): Steps<CodeAction[]> {
  const edits = yield* certainFixesOf(documents.now(), file);
  if (edits.length === 0) return [];
  const edit = toWorkspaceEdit(
    edits.map((each) => ({ file, ...each })),
    documents,
    form,
  );
  return [{ title: "Make all certain repairs", kind: SOURCE_KINDS.fixAll, edit }];
}
