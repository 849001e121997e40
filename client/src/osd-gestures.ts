/** Gestures on the picture of the OSD, written into the scripts: each is one step to undo. */
import { Range, type TextDocument, TextEdit, Uri, WorkspaceEdit, window, workspace } from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import {
  OSD_EDIT_REQUEST,
  type OsdEditParams,
  type OsdEditResult,
  type OsdGesture,
  type OsdPage,
  type WriteWhere,
} from "../../shared/protocol/panel.ts";
import { askWriteTarget } from "./ask-write-target.ts";
import type { Keyboard } from "./keyboard.ts";
import type { Ask } from "./pages.ts";
import { columnFor, focusGroup } from "./script-editors.ts";

export interface GestureMade {
  readonly uri: Address;
  readonly craft: Address | undefined;
  /** What the craft is called that was drawn. */
  readonly craftName: string;
  readonly page: OsdPage;
  readonly gesture: OsdGesture;
  /** Of the page on which it was made: it has the keyboard again after a question. */
  readonly keyboard: Keyboard;
}

export interface OsdGestures {
  /** Does what a gesture asks, after those before it; false where the pilot or the script would not have it. */
  perform(made: GestureMade): Promise<boolean>;
  /** Takes back, or does again, the last step in the document last edited from here; else in `other`. */
  step(way: "undo" | "redo", other: TextDocument | undefined, keyboard: Keyboard): Promise<void>;
  /** True while an editor is in front only for a step: nobody turned to it. */
  isStepping(): boolean;
}

type Edits = Extract<OsdEditResult, { kind: "edits" }>;

/** So often the edits are worked out again where a document has changed meanwhile, or was not open. */
const MOST_TRIES = 3;

/** Performs gestures by asking the server for their edits. */
export function osdGestures(ask: Ask): OsdGestures {
  const askWhere = askWriteTarget();
  let lastEdited: TextDocument | undefined;
  let stepping = false;
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = queue.then(work);
    queue = done.catch(() => undefined);
    return done;
  };

  const perform = async ({ uri, craft, craftName, page, gesture, keyboard }: GestureMade): Promise<boolean> => {
    let where: WriteWhere | null = null;
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const params: OsdEditParams = { uri, craft, page, gesture, where };
      let answer = await ask<OsdEditResult>(OSD_EDIT_REQUEST, params);
      if (answer.kind === "choose") {
        where = await askWhere(answer, gesture, craftName);
        await keyboard.giveBack();
        if (where === null) return false;
        answer = await ask<OsdEditResult>(OSD_EDIT_REQUEST, { ...params, where });
      }
      if (answer.kind === "refused") return refuse(answer.message);
      if (answer.kind === "choose") continue;
      if (answer.files.length === 0) return true;
      const documents = await documentsFor(answer);
      if (!documents) continue;
      if (!(await workspace.applyEdit(editOf(answer))))
        return refuse("The editor did not take the change, so nothing was written: is the script read-only?");
      lastEdited = documents[0];
      return true;
    }
    return refuse("The script kept changing while the change was worked out, so nothing was written: try again.");
  };

  const step: OsdGestures["step"] = async (way, other, keyboard) => {
    const document = lastEdited && !lastEdited.isClosed ? lastEdited : other;
    if (!document) return;
    const viewColumn = columnFor(document);
    const before = window.visibleTextEditors.find((editor) => editor.viewColumn === viewColumn);
    stepping = true;
    try {
      if (before?.document !== document)
        await window.showTextDocument(document, { viewColumn, preserveFocus: true, preview: false });
      // The editor's own steps belong to what has the keyboard.
      await keyboard.giveBack([focusGroup(viewColumn), way]);
      if (before && before.document !== document)
        await window.showTextDocument(before.document, { viewColumn, preserveFocus: true });
    } finally {
      stepping = false;
    }
  };
  return {
    perform: (made) => inTurn(() => perform(made)),
    step: (way, other, keyboard) => inTurn(() => step(way, other, keyboard)),
    isStepping: () => stepping,
  };
}

/**
 * The documents of an answer, if each is still what the edits were made for. One that was not open
 * is opened, so that its next answer knows its version; null means to ask once more.
 */
async function documentsFor({ files }: Edits): Promise<TextDocument[] | null> {
  const documents: TextDocument[] = [];
  let asMade = true;
  for (const { file, version } of files) {
    const document = await workspace.openTextDocument(Uri.parse(file));
    documents.push(document);
    asMade &&= version === document.version;
  }
  return asMade ? documents : null;
}

function editOf({ files }: Edits): WorkspaceEdit {
  const edit = new WorkspaceEdit();
  for (const { file, edits } of files) {
    edit.set(
      Uri.parse(file),
      edits.map(({ range, text }) => new TextEdit(rangeOf(range), text)),
    );
  }
  return edit;
}

function rangeOf({ start, end }: Edits["files"][number]["edits"][number]["range"]): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

/** Says why, without waiting for an answer; the picture is drawn anew meanwhile. */
function refuse(message: string): false {
  void window.showWarningMessage(message);
  return false;
}
