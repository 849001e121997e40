/** Lines that are written into scripts to be filled in, and which scripts there are to use. */
import type { Connection } from "vscode-languageserver";
import { fillIn, type Inserted, repair, scriptsFor, useFile } from "../../../shared/ide/edits/insertions.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import {
  INSERT_REQUEST,
  type InsertParams,
  type InsertResult,
  SCRIPTS_REQUEST,
  type ScriptsParams,
  type ScriptsResult,
} from "../../../shared/protocol/ways.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";

const FAILED: InsertResult = {
  kind: "refused",
  message: "The lines could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};

/** Answers `fettle/insert` and `fettle/scripts`. */
export function answerInsertions(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<InsertResult, void>(
    INSERT_REQUEST,
    guard<[InsertParams], InsertResult>("lines to fill in", FAILED, async ({ uri, insert }) => {
      // What is to be used may lie where nothing is listed.
      if (insert.kind === "use") await documents.load(asUri(insert.uri));
      const file = await documents.loadAll(uri);
      const now = documents.now();
      return toResult(inserted(now, file, insert, documents), documents);
    }),
  );
  connection.onRequest<ScriptsResult, void>(
    SCRIPTS_REQUEST,
    guard<[ScriptsParams], ScriptsResult>("scripts to use", [], async ({ uri, kind }) => {
      const file = await documents.loadAll(uri);
      const scripts = scriptsFor(documents.now(), file, kind);
      return scripts.map(({ file, name, path }) => ({ uri: documents.uriOf(file), name, path }));
    }),
  );
}

function inserted(now: Workspace, file: FilePath, insert: InsertParams["insert"], documents: Documents): Inserted {
  switch (insert.kind) {
    case "use":
      return useFile(now, file, documents.pathOf(insert.uri));
    case "repair": {
      const at = { ...insert.at, file: documents.pathOf(asUri(insert.at.file)) };
      return repair(now, file, { ...insert, at });
    }
    case "fill-in":
      return fillIn(now, file, insert.what);
  }
}

function toResult(inserted: Inserted, documents: Documents): InsertResult {
  if (inserted.kind !== "edits") return inserted;
  const { files, select } = inserted;
  return {
    kind: "edits",
    files: toFiles(files, documents),
    select: select && { ...select, file: documents.uriOf(select.file) },
  };
}
