/** A craft as one script for others. */
import type { Connection } from "vscode-languageserver";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import { isOfHandset, type Listed, sharedPath, shareSteps } from "../../../shared/ide/share/share.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import { SHARE_REQUEST, type ShareParams, type SharePart, type ShareResult } from "../../../shared/protocol/share.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import { loadFor } from "./load.ts";
import { inSlicesOver } from "./slices.ts";

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
    guard<Request<ShareParams>, ShareResult>("share", FAILED, async ({ uri, craft, board }, token) => {
      const file = await loadFor(documents, { textDocument: { uri } });
      const preferred = craft && documents.pathOf(craft);
      return inSlicesOver(documents, (now) => shareOf(now, pickedCraft(now, file, preferred), board, documents), token);
    }),
  );
}

function* shareOf(
  now: Workspace,
  craft: Craft | null,
  board: ShareParams["board"],
  documents: Documents,
): Steps<ShareResult> {
  if (!craft || craft.script.tree.newer) return NO_CRAFT;
  const shared = yield* shareSteps(craft, now, board === "with" ? "with" : "without");
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
