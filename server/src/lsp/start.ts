/** The language server, for every host: it asks the core, and speaks the protocol. */
import type { Connection, DidChangeWatchedFilesRegistrationOptions, RegistrationParams } from "vscode-languageserver";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { pageOf } from "../../../shared/ide/reference/page.ts";
import { isWordsFile, OWN_WORDS_ENDS, SCRIPT_END } from "../../../shared/model/file-names.ts";
import {
  CHANGED_NOTIFICATION,
  PAGE_REQUEST,
  PANEL_REQUEST,
  type PageParams,
  type PanelParams,
} from "../../../shared/protocol/panel.ts";
import { type Abilities, abilitiesOf, capabilitiesFor } from "./capabilities.ts";
import { debounce } from "./debounce.ts";
import { diagnosticsOf, namePages, rulePages, wordsDiagnostics } from "./diagnostics.ts";
import { makeDocuments, type ServerFiles } from "./documents.ts";
import { answerFeatures } from "./features.ts";
import { logError, makeGuard } from "./guard.ts";
import { answerNewCraft } from "./new-craft.ts";
import { answerOsdEdits } from "./osd-edits.ts";
import { pathOf } from "./paths.ts";
import { toPanelModel } from "./to-lsp.ts";
import { answerValues } from "./values.ts";
import { type MakeWarmUp, makeWarmUp } from "./warm-up.ts";

const WATCHED_FILES: RegistrationParams = {
  registrations: [
    {
      id: "watched-files",
      method: "workspace/didChangeWatchedFiles",
      registerOptions: {
        watchers: [SCRIPT_END, ...OWN_WORDS_ENDS].map((end) => ({ globPattern: `**/*${end}` })),
      } satisfies DidChangeWatchedFilesRegistrationOptions,
    },
  ],
};

/**
 * Serves a connection until it ends; `files` is what the host can reach beyond the editor's open
 * documents, `warmUpOf` the process's warm-up.
 */
export function startServer(connection: Connection, files: ServerFiles, warmUpOf: MakeWarmUp = makeWarmUp): void {
  const documents = makeDocuments(files);
  const warmUp = warmUpOf((error) => logError(connection, "warm-up", error));
  const guard = makeGuard(connection, warmUp);
  let abilities: Abilities = abilitiesOf({});
  let pageOfRule = rulePages(undefined);
  let pageOfName = namePages(undefined, undefined);
  let positionsCommand: string | null = null;

  connection.onInitialize((params) => {
    abilities = abilitiesOf(params.capabilities);
    const options = (params.initializationOptions ?? {}) as {
      pageBase?: unknown;
      pageCommand?: unknown;
      positionsCommand?: unknown;
    };
    pageOfRule = rulePages(options.pageBase);
    pageOfName = namePages(options.pageBase, options.pageCommand);
    positionsCommand = typeof options.positionsCommand === "string" ? options.positionsCommand : null;
    documents.setFolders((params.workspaceFolders ?? []).map(({ uri }) => uri));
    return { capabilities: capabilitiesFor(abilities), serverInfo: { name: "fettle" } };
  });
  connection.onInitialized(
    guard("initialized", undefined, async () => {
      if (abilities.changesFolders) connection.workspace.onDidChangeWorkspaceFolders(onFolders);
      if (abilities.watchesFiles) await connection.sendRequest("client/registerCapability", WATCHED_FILES);
      await publishWordsProblems();
    }),
  );

  const push = guard("diagnostics", undefined, async () => {
    for (const uri of documents.openUris()) {
      connection.sendDiagnostics({
        uri,
        version: documents.version(uri),
        diagnostics: await diagnosticsOf(documents, uri, pageOfRule),
      });
    }
  });
  /** After a change of a text that was not typed: whoever shows something of it is told. */
  const changed = () => {
    connection.sendNotification(CHANGED_NOTIFICATION);
    if (!abilities.pulls) push();
  };
  /** After a change that the editor does not connect with its open documents. */
  const changedOutside = () => {
    if (abilities.refreshesDiagnostics) connection.languages.diagnostics.refresh();
    refreshDecorations();
    changed();
  };
  const refreshDecorations = () => {
    if (abilities.refreshesHints) connection.languages.inlayHint.refresh();
    if (abilities.refreshesLenses) void connection.sendRequest("workspace/codeLens/refresh");
  };
  /** The editor asks anew for the document that is typed in; what stands in a craft beside it may have changed too. */
  const refreshOthers = debounce(refreshDecorations, 300);
  let publishedWords: ReadonlySet<string> = new Set();
  /**
   * Faults in the pilot's own words are pushed to every editor, also one that asks for the findings
   * of open scripts itself: the file at fault need not be open.
   */
  const publishWordsProblems = guard("own words", undefined, async () => {
    await documents.words.load();
    const told = wordsDiagnostics(documents.words.problems(), documents.uriOf);
    for (const uri of publishedWords) if (!told.has(uri)) connection.sendDiagnostics({ uri, diagnostics: [] });
    for (const [uri, diagnostics] of told) connection.sendDiagnostics({ uri, diagnostics });
    publishedWords = new Set(told.keys());
  });
  const wordsChanged = guard("own words", undefined, async () => {
    await publishWordsProblems();
    changedOutside();
  });
  const changedAt = (uri: string) => (isWordsFile(pathOf(uri)) ? void wordsChanged() : changed());
  const onFolders = guard("folders", undefined, async () => {
    const folders = (await connection.workspace.getWorkspaceFolders()) ?? [];
    documents.setFolders(folders.map(({ uri }) => uri));
    await wordsChanged();
  });

  connection.onDidOpenTextDocument(
    guard("open", undefined, ({ textDocument: { uri, languageId, version, text } }) => {
      documents.open(uri, languageId, version, text);
      changedAt(uri);
    }),
  );
  connection.onDidChangeTextDocument(
    guard("change", undefined, ({ textDocument: { uri, version }, contentChanges }) => {
      documents.change(uri, contentChanges, version);
      if (isWordsFile(pathOf(uri))) return void wordsChanged();
      if (documents.openUris().length > 1) refreshOthers();
      // Whoever types knows that what is drawn is out of date, and has asked for it by now.
      if (!abilities.pulls) push();
    }),
  );
  connection.onDidCloseTextDocument(
    guard("close", undefined, ({ textDocument: { uri } }) => {
      documents.close(uri);
      if (!abilities.pulls && !isWordsFile(pathOf(uri))) connection.sendDiagnostics({ uri, diagnostics: [] });
      changedAt(uri);
    }),
  );
  connection.onDidChangeWatchedFiles(
    guard("watched files", undefined, ({ changes }) => {
      documents.forget(changes.map(({ uri }) => uri));
      if (changes.some(({ uri }) => isWordsFile(pathOf(uri)))) void wordsChanged();
      else changedOutside();
    }),
  );

  connection.languages.diagnostics.on(
    guard("diagnostics", { kind: "full" as const, items: [] }, async ({ textDocument }) => {
      return { kind: "full" as const, items: await diagnosticsOf(documents, textDocument.uri, pageOfRule) };
    }),
  );
  answerFeatures({
    connection,
    documents,
    guard,
    abilities: () => abilities,
    pageOfRule: (code) => pageOfRule(code),
    pageOfName: (page) => pageOfName(page),
    positionsCommand: () => positionsCommand,
  });

  answerValues(connection, documents, guard);
  answerNewCraft(connection, documents, guard);
  answerOsdEdits(connection, documents, guard);
  connection.onRequest(
    PANEL_REQUEST,
    guard("panel", null, async ({ uri, craft, ...ask }: PanelParams) => {
      const file = await documents.loadAll(uri);
      const model = panelOf(documents.now(), file, documents.version(uri), {
        ...ask,
        craft: craft && pathOf(craft),
      });
      return toPanelModel(model, documents.uriOf);
    }),
  );
  connection.onRequest(
    PAGE_REQUEST,
    guard("page", null, async ({ name }: PageParams) => {
      await documents.words.load();
      return pageOf(documents.now().catalogue, name);
    }),
  );
  connection.listen();
}
