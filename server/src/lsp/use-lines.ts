/** Lines that name files, when these are renamed, moved or deleted: as plain edits for our own client, and as the protocol has it for any other. */
import type { CancellationToken, Connection, WorkspaceEdit } from "vscode-languageserver";
import {
  afterMoves,
  type Move,
  type UseLineChanges,
  useLinesAfter,
  useLinesWithout,
} from "../../../shared/ide/edits/use-lines.ts";
import { isScriptFile } from "../../../shared/model/file-names.ts";
import { asUri, type Uri } from "../../../shared/protocol/addresses.ts";
import { USE_LINES_REQUEST, type UseLinesParams, type UseLinesResult } from "../../../shared/protocol/use-lines.ts";
import { visibleNotice } from "../../../shared/text/visible-text.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { uriOf } from "./paths.ts";
import type { Settings } from "./settings.ts";
import { inSlicesOver } from "./slices.ts";
import { toWorkspaceEdit } from "./workspace-edits.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  readonly settings: () => Settings;
}

/** Answers before files are moved or deleted; nothing is changed by that. */
export function answerUseLines(parts: Parts): void {
  const { connection, documents, guard, settings } = parts;
  connection.onRequest(
    USE_LINES_REQUEST,
    guard<[UseLinesParams, CancellationToken], UseLinesResult | null>("use lines", null, async (params, token) => {
      if (params.kind === "delete") return toResult(await without(documents, params.files, token), [], documents);
      const moves = movesOf(documents, params.files);
      return toResult(await after(documents, moves, token), moves, documents);
    }),
  );
  connection.workspace.onWillRenameFiles(
    guard("files to be renamed", null, async ({ files }, token) => {
      if (settings().useLines === "never") return null;
      const changes = await after(documents, movesOf(documents, files), token);
      return toEdit(changes, "Lead to the new place", parts);
    }),
  );
  connection.workspace.onWillDeleteFiles(
    guard("files to be deleted", null, async ({ files }, token) => {
      const { useLines } = settings();
      // Where the client cannot ask, a line is not removed behind the user's back.
      if (useLines === "never" || (useLines === "ask" && !parts.abilities().asksAboutEdits)) return null;
      return toEdit(await without(documents, files, token), "Remove what names a deleted file", parts);
    }),
  );
}

type Named = readonly { readonly uri: string }[];

const movesOf = (
  documents: Documents,
  files: readonly { readonly oldUri: string; readonly newUri: string }[],
): Move[] =>
  files.map(({ oldUri, newUri }) => ({
    from: documents.placeOf(asUri(oldUri)),
    to: documents.placeOf(asUri(newUri)),
  }));

type Token = CancellationToken | undefined;

async function after(documents: Documents, moves: readonly Move[], token: Token) {
  // A script that is not listed may be moved as well.
  await Promise.all(moves.map(({ from }) => isScriptFile(from) && documents.load(uriOf(from))));
  await documents.loadAll(uriOf(moves[0]?.from ?? ""));
  return inSlicesOver(documents, (now) => useLinesAfter(now, moves), token);
}

async function without(documents: Documents, files: Named, token: Token) {
  const gone = files.map(({ uri }) => documents.placeOf(asUri(uri)));
  await documents.loadAll(uriOf(gone[0] ?? ""));
  return inSlicesOver(documents, (now) => useLinesWithout(now, gone), token);
}

function toResult(
  { edits, lines, uses, left, ...more }: UseLineChanges & { readonly craft?: readonly string[] },
  moves: readonly Move[],
  documents: Documents,
): UseLinesResult {
  const byFile = new Map<Uri, { range: UseLineChanges["edits"][number]["range"]; was: string; text: string }[]>();
  for (const { file, range, was, text } of edits) {
    const uri = documents.uriOf(afterMoves(file, moves));
    byFile.set(uri, [...(byFile.get(uri) ?? []), { range, was, text }]);
  }
  return {
    files: [...byFile].map(([file, ofFile]) => ({ file, edits: ofFile })),
    lines,
    uses,
    left,
    craft: more.craft ?? [],
  };
}

/** `MessageType.Warning` of the protocol. */
const WARNING = 2;

/**
 * The edits before the files are moved; a client that can ask about them is told to, unless the user never wants that.
 * An edit has no room for lines that ought to follow and cannot, so these are told beside it.
 */
function toEdit(
  { edits, left }: UseLineChanges,
  label: string,
  { connection, documents, abilities, settings }: Parts,
): WorkspaceEdit | null {
  if (left.length > 0)
    void connection.sendNotification("window/showMessage", { type: WARNING, message: visibleNotice(left.join(" ")) });
  if (edits.length === 0) return null;
  const { versionsEdits, asksAboutEdits } = abilities();
  const edit = toWorkspaceEdit(edits, documents, versionsEdits ? "versioned" : "plain");
  if (!asksAboutEdits || !edit.documentChanges || settings().useLines === "always") return edit;
  const scripts = edit.documentChanges.length;
  const description = `${edits.length} ${edits.length === 1 ? "change" : "changes"} in ${scripts} ${scripts === 1 ? "script" : "scripts"}`;
  return {
    documentChanges: edit.documentChanges.map((change) =>
      "edits" in change
        ? { ...change, edits: change.edits.map((each) => ({ ...each, annotationId: "use-lines" })) }
        : change,
    ) as NonNullable<WorkspaceEdit["documentChanges"]>,
    changeAnnotations: { "use-lines": { label, description, needsConfirmation: true } },
  };
}
