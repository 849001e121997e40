/** Code actions that move lines between a craft and its layers: as commands of a client that asks, else as edits. */
import type { WorkspaceEdit } from "vscode-languageserver";
import { type CodeAction, CodeActionKind } from "vscode-languageserver-types";
import { inlineSteps } from "../../../shared/ide/origin/inline.ts";
import { layersFor } from "../../../shared/ide/origin/layers-for.ts";
import { extractLayer, type Moved, moveIntoLayer } from "../../../shared/ide/origin/move.ts";
import { type Offer, offersAt } from "../../../shared/ide/origin/offers.ts";
import { overrideHere } from "../../../shared/ide/origin/override.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { ChangeOrigin } from "../../../shared/protocol/origin.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import type { Documents } from "./documents.ts";
import { type EditForm, toWorkspaceEdit } from "./workspace-edits.ts";

/** What the client can do with such an action. */
export interface OriginForm {
  readonly edits: EditForm;
  /** Its command that asks what is left to be asked; null where it has none. */
  readonly command: string | null;
  /** Makes files as part of an edit. */
  readonly creates: boolean;
}

/** The kind of each change, as the protocol has them. */
export const KINDS: Readonly<Record<Offer["kind"], string>> = {
  override: CodeActionKind.RefactorRewrite,
  move: "refactor.move",
  extract: CodeActionKind.RefactorExtract,
  inline: CodeActionKind.RefactorInline,
};

interface Asked {
  readonly uri: Uri;
  readonly file: FilePath;
  readonly range: Range;
}

/** The actions of the kinds that `isWanted`. A client without the command gets those that need no more questions, worked out. */
export function* originActions(
  { uri, file, range }: Asked,
  documents: Documents,
  form: OriginForm,
  isWanted: (kind: string) => boolean,
): Steps<CodeAction[]> {
  const now = documents.now();
  const actions: CodeAction[] = [];
  for (const offer of offersAt(now, file, range).filter(({ kind }) => isWanted(KINDS[kind]))) {
    const { kind, craft } = offer;
    const title = visibleLine(offer.title);
    if (form.command === null) {
      actions.push(...(yield* worked({ uri, file, range }, offer, now, documents, form)));
      continue;
    }
    const argument: ChangeOrigin = { uri, craft: documents.uriOf(craft), action: kind, range };
    actions.push({ title, kind: KINDS[kind], command: { title, command: form.command, arguments: [argument] } });
  }
  return actions;
}

/** A name for a layer of which nobody asked what it is called. */
const UNNAMED = "Shared";

function* worked(
  { file, range }: Asked,
  { kind, title, craft }: Offer,
  now: Workspace,
  documents: Documents,
  form: OriginForm,
): Steps<CodeAction[]> {
  yield;
  const action = (named: string, moved: Moved): CodeAction[] =>
    moved.kind === "edits"
      ? [{ title: visibleLine(named), kind: KINDS[kind], edit: toEdit(moved, documents, form) }]
      : [];
  switch (kind) {
    case "override":
      return action(title, overrideHere(now, file, range.start, craft));
    case "inline":
      return action(title, yield* inlineSteps(now, file, range.start.line));
    case "extract":
      return form.creates ? action(`Extract a new layer, “${UNNAMED}”`, extractLayer(now, file, range, UNNAMED)) : [];
    case "move": {
      const moves: CodeAction[] = [];
      for (const { name, effect, file: layer, refused } of (yield* layersFor(now, file, range)).layers) {
        yield;
        if (refused !== null) continue;
        moves.push(...action(`Move to the layer “${name}” (${effect})`, moveIntoLayer(now, file, range, layer)));
      }
      return moves;
    }
  }
}

function toEdit(
  moved: Extract<Moved, { kind: "edits" }>,
  documents: Documents,
  { edits: form }: OriginForm,
): WorkspaceEdit {
  const edits = moved.files.flatMap(({ file, edits: of }) => of.map((edit) => ({ file, ...edit })));
  const start = { line: 0, character: 0 };
  const written = moved.creates.map(({ file, text }) => ({ file, range: { start, end: start }, text }));
  const edit = toWorkspaceEdit([...edits, ...written], documents, form);
  if (moved.creates.length === 0 || !edit.documentChanges) return edit;
  const creates = moved.creates.map(({ file }) => ({ kind: "create" as const, uri: documents.uriOf(file) }));
  return { documentChanges: [...creates, ...edit.documentChanges] };
}
