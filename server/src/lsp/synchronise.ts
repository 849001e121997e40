/** Keeps the server's texts, files and folders the same as the editor's. */
import type { Connection, DidChangeWatchedFilesRegistrationOptions, RegistrationParams } from "vscode-languageserver";
import { BOARD_TEXT_END, isWordsFile, OWN_WORDS_ENDS, SCRIPT_END } from "../../../shared/model/file-names.ts";
import { asUri, type Uri } from "../../../shared/protocol/addresses.ts";
import { COMMITTED_NOTIFICATION } from "../../../shared/protocol/requests.ts";
import type { Abilities } from "./capabilities.ts";
import type { ClosedFindings } from "./closed-findings.ts";
import type { Documents } from "./documents.ts";
import { type Guard, logError } from "./guard.ts";
import type { KeptSettings } from "./keep-settings.ts";
import { pathOf } from "./paths.ts";
import type { Publisher } from "./publish.ts";
import type { FileChange } from "./workspace-files.ts";

const DELETED = 4;
const WATCHED_FILES: RegistrationParams = {
  registrations: [
    {
      id: "watched-files",
      method: "workspace/didChangeWatchedFiles",
      registerOptions: {
        watchers: [
          // A board's saved text may have any name; the usual one is watched, as all that is written anywhere is too much.
          ...[SCRIPT_END, BOARD_TEXT_END, ...OWN_WORDS_ENDS].map((end) => ({ globPattern: `**/*${end}` })),
          // With a folder goes all that is in it, and an editor may tell of the folder alone.
          { globPattern: "**/*", kind: DELETED },
        ],
      } satisfies DidChangeWatchedFilesRegistrationOptions,
    },
  ],
};

/** By the number that the protocol has for it. */
const KINDS: readonly ("changed" | "created" | "deleted")[] = ["changed", "created", "changed", "deleted"];

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  readonly publisher: Publisher;
  readonly settings: KeptSettings;
  readonly closed: ClosedFindings;
}

/** Takes what the editor tells, from its first message on. */
export function synchronise({ connection, documents, guard, abilities, publisher, settings, closed }: Parts): void {
  const changedAt = (uri: Uri) => (isWordsFile(pathOf(uri)) ? void publisher.wordsChanged() : publisher.changed());
  const onFolders = guard<[], void>("folders", undefined, async () => {
    const folders = (await connection.workspace.getWorkspaceFolders()) ?? [];
    documents.setFolders(folders.map(({ uri }) => asUri(uri)));
    await publisher.wordsChanged();
  });
  const apply = (changes: readonly FileChange[]) => {
    const touched = documents.apply(changes);
    documents.committed();
    if (touched === "words") void publisher.wordsChanged();
    else if (touched === "scripts") publisher.changedOutside();
  };

  connection.onInitialized(
    guard("initialized", undefined, () => {
      if (abilities().changesFolders) connection.workspace.onDidChangeWorkspaceFolders(onFolders);
      if (abilities().watchesFiles)
        connection
          .sendRequest("client/registerCapability", WATCHED_FILES)
          .catch((error) => logError(connection, "watched files", error));
      settings.initialized();
      if (!abilities().pulls) closed.push();
      void publisher.publishWordsProblems();
    }),
  );
  connection.onDidOpenTextDocument(
    guard("open", undefined, ({ textDocument: { uri, languageId, version, text } }) => {
      documents.open(uri, languageId, version, text);
      documents.committed();
      closed.opened(uri);
      changedAt(uri);
    }),
  );
  connection.onDidChangeTextDocument(
    guard("change", undefined, ({ textDocument: { uri, version }, contentChanges }) => {
      documents.change(uri, contentChanges, version);
      if (isWordsFile(pathOf(uri))) void publisher.wordsChanged();
      else publisher.typed();
    }),
  );
  connection.onDidSaveTextDocument(
    guard("save", undefined, () => {
      documents.committed();
      if (abilities().watchesFiles) return;
      documents.lookAgain();
      void publisher.wordsChanged();
    }),
  );
  connection.onDidCloseTextDocument(
    guard("close", undefined, ({ textDocument: { uri } }) => {
      documents.close(uri);
      if (!abilities().pulls && !isWordsFile(pathOf(uri))) void connection.sendDiagnostics({ uri, diagnostics: [] });
      changedAt(uri);
    }),
  );
  connection.onDidChangeWatchedFiles(
    guard("watched files", undefined, ({ changes }) =>
      apply(changes.map(({ uri, type }) => ({ kind: KINDS[type] ?? "changed", path: pathOf(asUri(uri)) }))),
    ),
  );
  connection.onNotification(
    COMMITTED_NOTIFICATION,
    guard("committed", undefined, () => documents.committed()),
  );
  connection.workspace.onDidDeleteFiles(
    guard("deleted files", undefined, ({ files }) =>
      apply(files.map(({ uri }) => ({ kind: "deleted", path: pathOf(asUri(uri)) }))),
    ),
  );
  connection.workspace.onDidRenameFiles(
    guard("renamed files", undefined, ({ files }) =>
      apply(
        files.map(({ oldUri, newUri }) => ({ kind: "moved", path: pathOf(asUri(oldUri)), to: pathOf(asUri(newUri)) })),
      ),
    ),
  );
}
