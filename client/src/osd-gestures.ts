/** Gestures on the picture of the OSD and on the drawing of the motors, written into the scripts: each is one step to undo. */
import { type TextDocument, workspace } from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";

import type { EditedFiles, Refused } from "../../shared/protocol/file-edits.ts";

import { MOTOR_EDIT_REQUEST, type MotorEditParams, type MotorGesture } from "../../shared/protocol/motor-edit.ts";

import {
  OSD_EDIT_REQUEST,
  type OsdEditParams,
  type OsdEditResult,
  type OsdGesture,
  type WriteWhere,
} from "../../shared/protocol/osd-edit.ts";
import type { OsdPage } from "../../shared/protocol/panel.ts";
import type { Ask } from "./ask.ts";
import { askWriteTarget } from "./ask-write-target.ts";
import type { Keyboard } from "./keyboard.ts";
import { tellWarning } from "./shown-window.ts";
import { stepIn } from "./step-in.ts";
import { documentsFor, editOf, type Made, MOST_TRIES, makeEdits } from "./versioned-edits.ts";

/** What was done: on a page of the OSD, or on the motors. */
export type Done =
  | { readonly page: OsdPage; readonly gesture: OsdGesture }
  | { readonly page: "motors"; readonly gesture: MotorGesture };

export type GestureMade = MadeBy & Done;

interface MadeBy {
  readonly uri: Address;
  readonly craft: Address | undefined;
  /** The name of the craft that was drawn. */
  readonly craftName: string;
  /** The keyboard focus of the page on which it was made, which gets it back after a question. */
  readonly keyboard: Keyboard;
}

export interface OsdGestures {
  /** Performs a gesture after the earlier ones; false if the pilot cancelled or the script cannot be edited. */
  perform(made: GestureMade): Promise<boolean>;
  /** Makes edits that the server works out, after the earlier ones. */
  write(work: () => Promise<EditedFiles | Refused>): Promise<Made | Refused>;
  /** Undoes or redoes the last step in the document last edited from here; else in `other`. */
  step(way: "undo" | "redo", other: TextDocument | undefined, keyboard: Keyboard): Promise<void>;
  /** True while an editor is active only for an undo or redo, not because the pilot went to it. */
  isStepping(): boolean;
}

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

  const askEdits = ({ uri, craft, ...done }: GestureMade, where: WriteWhere | null): Promise<OsdEditResult> => {
    if (done.page === "motors") {
      const params: MotorEditParams = { uri, craft, gesture: done.gesture, where };
      return ask<OsdEditResult>(MOTOR_EDIT_REQUEST, params);
    }
    const params: OsdEditParams = { uri, craft, page: done.page, gesture: done.gesture, where };
    return ask<OsdEditResult>(OSD_EDIT_REQUEST, params);
  };
  const perform = async (made: GestureMade): Promise<boolean> => {
    const { craftName, gesture, keyboard } = made;
    let where: WriteWhere | null = null;
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      let answer = await askEdits(made, where);
      if (answer.kind === "choose") {
        where = await askWhere(answer, gesture, craftName);
        await keyboard.giveBack();
        if (where === null) return false;
        answer = await askEdits(made, where);
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

  const write: OsdGestures["write"] = async (work) => {
    const made = await makeEdits(work);
    if (made.kind === "made") lastEdited = made.documents[0]?.document ?? lastEdited;
    return made;
  };
  const step: OsdGestures["step"] = async (way, other, keyboard) => {
    const document = lastEdited && !lastEdited.isClosed ? lastEdited : other;
    if (!document) return;
    stepping = true;
    try {
      await stepIn(way, document, keyboard);
    } finally {
      stepping = false;
    }
  };
  return {
    perform: (made) => inTurn(() => perform(made)),
    write: (work) => inTurn(() => write(work)),
    step: (way, other, keyboard) => inTurn(() => step(way, other, keyboard)),
    isStepping: () => stepping,
  };
}

/** Shows why, without waiting for an answer; the picture is redrawn in the meantime. */
function refuse(message: string): false {
  void tellWarning(message);
  return false;
}
