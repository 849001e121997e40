/** Scripts in memory to which edits are applied, as an editor would. */
import { TextDocument } from "vscode-languageserver-textdocument";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { OsdEdit } from "../../../shared/ide/edits/osd-edit.ts";
import { osdEditOf } from "../../../shared/ide/edits/osd-edit.ts";
import { type FileView, memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { layoutOf } from "../../../shared/osd/layout.ts";
import type { OsdGesture, WriteWhere } from "../../../shared/protocol/osd-edit.ts";
import type { OsdPage } from "../../../shared/protocol/panel.ts";
import type { TextEdit } from "../../../shared/syntax/span.ts";

export type Texts = Readonly<Record<string, string>>;

export const JUG = "/shed/jug.fettle";
const core = makeCore(makeCatalogue());

export function shed(texts: Texts, view: Partial<FileView> = {}): Workspace {
  return core.at({ ...memoryFiles(texts), ...view });
}

export interface More {
  readonly file?: string;
  readonly page?: OsdPage;
  readonly where?: WriteWhere | null;
  readonly craft?: string;
}

/** What a gesture on the picture of `jug.fettle` answers. */
export function answerTo(texts: Texts, gesture: OsdGesture, more: More = {}): OsdEdit {
  const { file = JUG, page = "osd", where = null, craft } = more;
  return osdEditOf(shed(texts), file, { page, where, craft, gesture });
}

/** The texts after a gesture; throws where it was refused or asks something. */
export function after(texts: Texts, gesture: OsdGesture, more: More = {}): Record<string, string> {
  const answer = answerTo(texts, gesture, more);
  if (answer.kind !== "edits") throw new Error(`no edits: ${JSON.stringify(answer)}`);
  const result: Record<string, string> = { ...texts };
  for (const { file, edits } of answer.files) result[file] = edited(texts[file]!, edits);
  return result;
}

/** A text with edits applied; throws where they overlap. An editor shows no byte-order mark, so no place counts it. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const bom = text.startsWith("\uFEFF") ? "\uFEFF" : "";
  const document = documentOf(text.slice(bom.length));
  return (
    bom +
    TextDocument.applyEdits(
      document,
      edits.map(({ range, text: newText }) => ({ range, newText })),
    )
  );
}

/** The inverse of edits, as an editor keeps them for undo. */
export function inverse(text: string, edits: readonly TextEdit[]): TextEdit[] {
  const before = documentOf(text.replace(/^\uFEFF/, ""));
  const now = documentOf(edited(text, edits).replace(/^\uFEFF/, ""));
  let shift = 0;
  return [...edits]
    .sort((a, b) => before.offsetAt(a.range.start) - before.offsetAt(b.range.start))
    .map((edit) => {
      const start = before.offsetAt(edit.range.start) + shift;
      const old = before.getText(edit.range);
      shift += edit.text.length - old.length;
      const range = { start: now.positionAt(start), end: now.positionAt(start + edit.text.length) };
      return { range, text: old };
    });
}

/** Where an element comes to stand when the texts are read anew; null where it does not. */
export function cellOf(texts: Texts, element: string, page: OsdPage = "osd"): readonly [number, number] | null {
  const workspace = shed(texts);
  const layout = layoutOf(workspace.craft(JUG)!, workspace.catalogue, page);
  const placed = layout?.elements.find(({ name }) => name === element);
  return placed ? [placed.column, placed.row] : null;
}

function documentOf(text: string): TextDocument {
  return TextDocument.create("file:///x", "fettle", 1, text);
}
