/** Accepting a finding: the cursor where the reason is to be written, and the choice of a layer. */
import { Position, Range, Selection, Uri, WorkspaceEdit, window, workspace } from "vscode";
import type { AcceptArgument, AcceptChoice, ReasonPlace } from "../../shared/protocol/accept.ts";
import { pickOne, tellError } from "./shown-window.ts";

/** Puts the cursor at the reason of a note that is written; else asks for a layer, and writes it there first. */
export async function acceptFinding(argument: AcceptArgument): Promise<void> {
  if (argument.kind === "written") return writeReason(argument.reasonAt);
  const { title, choices } = argument;
  const items = choices.map((choice) => ({ label: choice.label, description: choice.description, choice }));
  const picked = await pickOne(items, {
    title,
    placeHolder: "The layer that is to accept it, for every craft that uses it",
    matchOnDescription: true,
  });
  if (!picked) return;
  if (await workspace.applyEdit(editOf(picked.choice))) return writeReason(picked.choice.reasonAt);
  void tellError(
    "The note could not be written, since a file has changed meanwhile or cannot be made. Nothing was changed: accept the finding once more.",
  );
}

/** The whole choice as one step to undo. */
function editOf({ creates, edits }: AcceptChoice): WorkspaceEdit {
  const edit = new WorkspaceEdit();
  if (creates !== null) edit.createFile(Uri.parse(creates));
  for (const { uri, range, text } of edits) {
    const { start, end } = range;
    edit.replace(Uri.parse(uri), new Range(start.line, start.character, end.line, end.character), text);
  }
  return edit;
}

async function writeReason({ uri, position: { line, character } }: ReasonPlace): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(uri));
  const shown = window.visibleTextEditors.find((each) => each.document === document);
  const editor = await window.showTextDocument(document, { preview: false, viewColumn: shown?.viewColumn });
  const at = new Position(line, character);
  editor.selection = new Selection(at, at);
  editor.revealRange(new Range(at, at));
}
