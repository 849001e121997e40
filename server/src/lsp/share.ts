/** A craft as one script for others. */
import type { Connection } from "vscode-languageserver";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import { isOfHandset, type Listed, shareCraft, sharedPath } from "../../../shared/ide/share/share.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import { SHARE_REQUEST, type ShareParams, type SharePart, type ShareResult } from "../../../shared/protocol/share.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { loadFor } from "./load.ts";
import { pathOf } from "./paths.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The script could not be made, which is a fault of this tool; its log says more.",
};
const NO_CRAFT: Refused = {
  kind: "refused",
  message: "No craft uses this file, and a craft is what is shared: open one first.",
};

/** Answers `fettle/share`. */
export function answerShare(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<ShareResult, void>(
    SHARE_REQUEST,
    guard<[ShareParams], ShareResult>("share", FAILED, async ({ uri, craft, board }) => {
      const file = await loadFor(documents, { textDocument: { uri } });
      const workspace = documents.now();
      const shown = pickedCraft(workspace, file, craft && pathOf(craft));
      return shown && !shown.script.tree.newer ? shareOf(shown, board, documents) : NO_CRAFT;
    }),
  );
}

function shareOf(craft: Craft, board: ShareParams["board"], documents: Documents): ShareResult {
  const shared = shareCraft(craft, documents.now(), board === "with" ? "with" : "without");
  if (shared.kind === "refused") return shared;
  const part = ({ what, why, source: { file, line } }: Listed): SharePart => ({
    what,
    why,
    at: { file: documents.uriOf(file), line },
  });
  return {
    kind: "shared",
    name: craft.name,
    proposed: documents.uriOf(sharedPath(craft.file)),
    text: shared.text,
    taken: shared.taken.filter((each) => !isOfHandset(each)).map(part),
    ofHandset: shared.taken.filter(isOfHandset).map(part),
    kept: shared.kept.map(part),
    hasBoardText: craft.kept.length > 0,
  };
}
