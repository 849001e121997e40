/** Gestures on the picture of the OSD, answered with edits. */
import type { Connection } from "vscode-languageserver";
import type { OsdEdit } from "../../../shared/ide/edits/osd-edit.ts";
import { type FileEdits, osdEditOf } from "../../../shared/ide/edits/osd-edit.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import {
  OSD_EDIT_REQUEST,
  type OsdEditParams,
  type OsdEditResult,
  type OsdGesture,
} from "../../../shared/protocol/osd-edit.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

/** The answer where a gesture's edits could not be worked out. */
export const FAILED: OsdEditResult = {
  kind: "refused",
  message: "The edit could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};

/** Answers `fettle/osdEdit`, with all files of the workspace read: which craft share a line must be known. */
export function answerOsdEdits(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<OsdEditResult, void>(
    OSD_EDIT_REQUEST,
    guard<[OsdEditParams], OsdEditResult>("OSD edit", FAILED, async ({ uri, craft, gesture, ...ask }) => {
      const file = await documents.loadAll(uri);
      const query = { ...ask, craft: craft && documents.pathOf(craft), gesture: withPath(gesture, documents) };
      return toResult(osdEditOf(documents.now(), file, query), documents);
    }),
  );
}

/** A gesture that names a file, with its path. */
function withPath(gesture: OsdGesture, documents: Documents): OsdGesture {
  if (gesture.kind !== "begin" || gesture.from.kind === "usual") return gesture;
  return { ...gesture, from: { ...gesture.from, file: documents.pathOf(asUri(gesture.from.file)) } };
}

/** With the editor's own addresses, and the versions of those documents that it has open. */
export function toResult(edit: OsdEdit, documents: Documents): OsdEditResult {
  if (edit.kind !== "edits") return edit;
  return { kind: "edits", files: toFiles(edit.files, documents) };
}

/** Edits by file, with the version of each document for which they were made. */
export function toFiles(files: readonly FileEdits[], documents: Documents) {
  return files.map(({ file, edits }) => {
    const uri = documents.uriOf(file);
    return { file: uri, version: documents.version(uri), edits };
  });
}
