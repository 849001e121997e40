/** Canonical layout: of a document, of some of its lines, and of a line that was left by typing. */
import type { Connection } from "vscode-languageserver";
import type { CodeAction, TextEdit } from "vscode-languageserver-types";
import { formatEdits, typedEdits, whyNotFormatted } from "../../../shared/ide/format/format.ts";
import { organizeEdits } from "../../../shared/ide/format/organize.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Script } from "../../../shared/model/script.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { TextEdit as CoreEdit, Range } from "../../../shared/syntax/span.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { Refused } from "./refused.ts";
import { type EditForm, toWorkspaceEdit } from "./workspace-edits.ts";

/** Answers what an editor asks of the layout of scripts. How wide it shows a tab is of no account. */
export function answerLayout(connection: Connection, documents: Documents, guard: Guard): void {
  const edits = async (uri: Uri, ranges: readonly (Range | null)[]) => {
    const script = layable(documents, await documents.load(uri));
    return script && ranges.flatMap((range) => formatEdits(script, range)).map(toTextEdit);
  };
  connection.onDocumentFormatting(guard("formatting", null, ({ textDocument: { uri } }) => edits(uri, [null])));
  connection.onDocumentRangeFormatting(
    guard("range formatting", null, ({ textDocument: { uri }, range }) => edits(uri, [range])),
  );
  connection.onDocumentRangesFormatting(
    guard("ranges formatting", null, ({ textDocument: { uri }, ranges }) => edits(uri, apart(ranges))),
  );
  connection.onDocumentOnTypeFormatting(
    guard("formatting as one types", null, async ({ textDocument: { uri }, position }) => {
      const script = documents.now().script(await documents.load(uri));
      return script && typedEdits(script, position).map(toTextEdit);
    }),
  );
}

/** The script at a path, null where there is none; where it must not be laid out it is told why. */
function layable(documents: Documents, file: FilePath): Script | null {
  const now = documents.now();
  const answer = now.view.read(file);
  const script = now.script(file);
  if (!script || answer?.kind !== "text") return null;
  const why = answer.validUtf8 ? whyNotFormatted(script.tree) : NOT_UTF8;
  if (why !== null) throw new Refused(`“${script.name}” is not laid out: ${why}.`);
  return script;
}

const NOT_UTF8 = "it holds bytes that are no UTF-8 text: save it as UTF-8 first";

/** Ranges of which no two touch the same line, in order: their edits then never overlap. */
function apart(ranges: readonly Range[]): Range[] {
  const found: Range[] = [];
  for (const range of ranges.toSorted((a, b) => a.start.line - b.start.line)) {
    const before = found.at(-1);
    if (!before || before.end.line < range.start.line) found.push(range);
    else if (before.end.line < range.end.line) found[found.length - 1] = { start: before.start, end: range.end };
  }
  return found;
}

function toTextEdit({ range, text }: CoreEdit): TextEdit {
  return { range, newText: text };
}

export const ORGANIZE = "source.organize";

/** The action that puts the sections of a script in order, where they are not. */
export function organizeActions(file: FilePath, documents: Documents, form: EditForm): CodeAction[] {
  const now = documents.now();
  const script = now.script(file);
  const answer = now.view.read(file);
  if (!script || answer?.kind !== "text" || !answer.validUtf8) return [];
  const edits = organizeEdits(script, now.catalogue).map((edit) => ({ file, ...edit }));
  if (edits.length === 0) return [];
  const title = "Put the sections in the order of the reference";
  return [{ title, kind: ORGANIZE, edit: toWorkspaceEdit(edits, documents, form) }];
}
