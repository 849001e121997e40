/** Code actions that accept a finding, with the cursor at the reason in as many clients as can put it there. */
import type { Command, SnippetTextEdit, TextDocumentEdit, WorkspaceEdit } from "vscode-languageserver";
import { type CodeAction, CodeActionKind, type Diagnostic } from "vscode-languageserver-types";
import type { OfferedNote } from "../../../shared/ide/edits/acceptances.ts";
import type { AcceptArgument, AcceptChoice } from "../../../shared/protocol/accept.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import type { Documents } from "./documents.ts";
import { type EditForm, toWorkspaceEdit } from "./workspace-edits.ts";

/** What the client can do with such an action. */
export interface AcceptForm {
  readonly edits: EditForm;
  /** Its command that puts the cursor at the reason and asks for a layer; null where it has none. */
  readonly command: string | null;
  /** Takes edits with a place for the cursor in them. */
  readonly snippets: boolean;
  /** Makes files as part of an edit. */
  readonly creates: boolean;
}

/** The notes as actions, in their order; where the client can ask for it, all layers of a finding as one. */
export function toAcceptActions(
  notes: readonly OfferedNote[],
  documents: Documents,
  form: AcceptForm,
  diagnosticOf: (finding: Finding) => Diagnostic,
): CodeAction[] {
  const usable = notes.filter(({ creates }) => creates === null || form.creates);
  const asked = new Set<Finding>();
  return usable.flatMap((note): CodeAction[] => {
    const common = { kind: CodeActionKind.QuickFix, diagnostics: [diagnosticOf(note.finding)] };
    if (form.command === null || !isInLayer(note)) return [{ ...common, ...writing(note, documents, form) }];
    if (asked.has(note.finding)) return [];
    asked.add(note.finding);
    const layers = usable.filter((each) => each.finding === note.finding && isInLayer(each));
    const title = `Accept it in a layer, because… (${note.finding.code})`;
    const choices = layers.map((each) => toChoice(each, documents));
    return [{ ...common, title, command: commandOf(form.command, { kind: "choose", title, choices }) }];
  });
}

function isInLayer({ reach }: OfferedNote): boolean {
  return reach === "layer" || reach === "new-layer";
}

/** The action that writes one note. */
function writing(note: OfferedNote, documents: Documents, form: AcceptForm): CodeAction {
  const { reasonAt } = note;
  const title = visibleLine(note.title);
  if (form.command === null) return { title, edit: editOf(note, documents, form) };
  const place = { uri: documents.uriOf(reasonAt.file), position: reasonAt.position };
  return {
    title,
    edit: editOf(note, documents, { ...form, snippets: false }),
    command: commandOf(form.command, { kind: "written", reasonAt: place }),
  };
}

function commandOf(command: string, argument: AcceptArgument): Command {
  return { title: "Write the reason", command, arguments: [argument] };
}

function editOf(note: OfferedNote, documents: Documents, { edits: form, snippets }: AcceptForm): WorkspaceEdit {
  const plain = toWorkspaceEdit(note.edits, documents, form);
  if (!plain.documentChanges) return plain;
  const changes = plain.documentChanges as TextDocumentEdit[];
  const noted = documents.uriOf(note.reasonAt.file);
  const documentChanges = changes.map((change): TextDocumentEdit => {
    if (!snippets || change.textDocument.uri !== noted) return change;
    return { ...change, edits: change.edits.map((edit) => ("newText" in edit ? withCursor(edit) : edit)) };
  });
  if (note.creates === null) return { documentChanges };
  return { documentChanges: [{ kind: "create", uri: documents.uriOf(note.creates) }, ...documentChanges] };
}

/** The note with the cursor behind it: it is the first line of what is written. */
function withCursor({ range, newText }: { readonly range: SnippetTextEdit["range"]; readonly newText: string }) {
  const end = newText.search(/\r|\n|$/);
  const escaped = (text: string) => text.replace(/[\\$}]/g, "\\$&");
  const value = `${escaped(newText.slice(0, end))}$0${escaped(newText.slice(end))}`;
  return { range, snippet: { kind: "snippet", value } } satisfies SnippetTextEdit;
}

function toChoice(note: OfferedNote, { uriOf }: Documents): AcceptChoice {
  return {
    label: note.place,
    description: note.extent,
    creates: note.creates && uriOf(note.creates),
    edits: note.edits.map(({ file, range, text }) => ({ uri: uriOf(file), range, text })),
    reasonAt: { uri: uriOf(note.reasonAt.file), position: note.reasonAt.position },
  };
}
