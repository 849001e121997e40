/** Gestures on the drawing of the motors, answered with edits. */
import type { Connection } from "vscode-languageserver";
import { motorEditOf } from "../../../shared/ide/edits/motor-edit.ts";
import { MOTOR_EDIT_REQUEST, type MotorEditParams, type MotorEditResult } from "../../../shared/protocol/motor-edit.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { FAILED, toResult } from "./osd-edits.ts";

/** Answers `fettle/motorEdit`, with all files of the workspace read: which craft share a line must be known. */
export function answerMotorEdits(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<MotorEditResult, void>(
    MOTOR_EDIT_REQUEST,
    guard<[MotorEditParams], MotorEditResult>("motor edit", FAILED, async ({ uri, craft, gesture, where }) => {
      const file = await documents.loadAll(uri);
      const query = { craft: craft && documents.pathOf(craft), gesture, where };
      return toResult(motorEditOf(documents.now(), file, query), documents);
    }),
  );
}
