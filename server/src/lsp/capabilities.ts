/** What the client can do, and what the server offers in turn. */
import type { ClientCapabilities, ServerCapabilities, TextDocumentSyncKind } from "vscode-languageserver";
import { CodeActionKind } from "vscode-languageserver-types";
import { LEGEND } from "./tokens-to-lsp.ts";

/** What a client has said of itself, as far as it matters here. */
export interface Abilities {
  /** Asks for diagnostics itself; else they are pushed. */
  readonly pulls: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly refreshesTokens: boolean;
  readonly watchesFiles: boolean;
  readonly changesFolders: boolean;
  readonly linksToDefinitions: boolean;
}

/** The abilities among all that a client says it can do. */
export function abilitiesOf({ textDocument, workspace }: ClientCapabilities): Abilities {
  return {
    pulls: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    refreshesTokens: workspace?.semanticTokens?.refreshSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    changesFolders: workspace?.workspaceFolders === true,
    linksToDefinitions: textDocument?.definition?.linkSupport === true,
  };
}

/** What the server offers to such a client. */
export function capabilitiesFor(abilities: Abilities): ServerCapabilities {
  return {
    textDocumentSync: { openClose: true, change: 2 satisfies typeof TextDocumentSyncKind.Incremental },
    ...(abilities.pulls && {
      diagnosticProvider: { identifier: "fettle", interFileDependencies: true, workspaceDiagnostics: false },
    }),
    hoverProvider: true,
    completionProvider: { triggerCharacters: [" ", '"', "/", ",", "("], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [" ", ","] },
    colorProvider: true,
    definitionProvider: true,
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    documentLinkProvider: {},
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] },
    codeLensProvider: {},
    inlayHintProvider: true,
    semanticTokensProvider: { legend: LEGEND, full: true },
    workspace: { workspaceFolders: { supported: true, changeNotifications: abilities.changesFolders } },
  };
}
