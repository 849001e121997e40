/** Documents that show a script as a revision of git has it: those of the editor's git extension, and our own. */
import { type TextDocument, type TextEditor, Uri } from "vscode";
import { OTHER_SCHEME, type RevisionParams } from "../../shared/protocol/compare.ts";
import { otherTextIn } from "../../shared/protocol/other-texts.ts";
import { addressOf } from "./addresses.ts";

/** The scheme of the editor's git extension: the left side of its comparisons. */
export const GIT_SCHEME = "git";

/** What the document of an editor shows of the past; undefined where it shows what is now. */
export function pastIn(document: TextDocument | undefined): RevisionParams | undefined {
  if (document?.languageId !== "fettle") return undefined;
  const { scheme, query } = document.uri;
  if (scheme === GIT_SCHEME) return ofGit(query);
  const text = scheme === OTHER_SCHEME ? otherTextIn(query) : null;
  return text && "uri" in text ? text : undefined;
}

/** The document of an editor that shows a script of the past. */
export function pastOf(editor: TextEditor | undefined): TextDocument | undefined {
  return pastIn(editor?.document) ? editor?.document : undefined;
}

/** The git extension has the path and the revision in the query; the empty one, and `~`, is what is staged. */
function ofGit(query: string): RevisionParams | undefined {
  try {
    const { path, ref } = JSON.parse(query) as { readonly path?: unknown; readonly ref?: unknown };
    if (typeof path !== "string" || typeof ref !== "string") return undefined;
    return { uri: addressOf(Uri.file(path)), revision: ref === "~" ? "" : ref };
  } catch {
    return undefined;
  }
}
