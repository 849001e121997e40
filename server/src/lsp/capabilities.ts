/** What the client can do, and what the server offers it. */
import type {
  ClientCapabilities,
  FileOperationRegistrationOptions,
  ServerCapabilities,
  SymbolKind,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { CodeActionKind } from "vscode-languageserver-types";
import { ORGANIZE } from "./layout.ts";
import { showsMarkdown } from "./markup.ts";
import { KINDS } from "./origin-actions.ts";
import { SOURCE_KINDS } from "./source-actions.ts";
import { LEGEND } from "./tokens-to-lsp.ts";

/** The capabilities of a client that matter here. */
export interface Abilities {
  /** Asks for diagnostics itself; else they are pushed. */
  readonly pulls: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly refreshesTokens: boolean;
  readonly watchesFiles: boolean;
  readonly changesFolders: boolean;
  /** Answers what the user has set. */
  readonly givesSettings: boolean;
  /** Can be asked to tell of changes of settings; else it does so by itself, or not at all. */
  readonly tellsSettings: boolean;
  readonly linksToDefinitions: boolean;
  /** Shows the symbols of a document as a tree; else it gets a list. */
  readonly nestsSymbols: boolean;
  /** Takes actions that bring their edits; any other takes nothing but commands, and we have none that edit. */
  readonly takesActions: boolean;
  /** Has tab stops in what it completes. */
  readonly snippetItems: boolean;
  /** Shows Markdown there; else it gets plain text. */
  readonly hoverMarkdown: boolean;
  readonly itemMarkdown: boolean;
  readonly signatureMarkdown: boolean;
  /** Takes a part of a signature by its columns; else by its text. */
  readonly partsByColumn: boolean;
  /** Takes edits for one version of a document, and refuses them for another. */
  readonly versionsEdits: boolean;
  /** Asks the user about edits that are marked so. */
  readonly asksAboutEdits: boolean;
  /** Makes files as part of an edit, and takes edits with a place for the cursor. */
  readonly createsFiles: boolean;
  readonly snippetEdits: boolean;
  /** Renames files as part of an edit. */
  readonly renamesFiles: boolean;
  /** Asks what a name is before the user is asked for another. */
  readonly preparesRenames: boolean;
  /** Asks for what a hint means when it is to be shown. */
  readonly resolvesHints: boolean;
  readonly takesTokenDeltas: boolean;
  /** Has several ranges laid out at once. */
  readonly formatsRanges: boolean;
  /** Asks for the place of a name when it goes there. */
  readonly resolvesSymbols: boolean;
  /** The kinds of names that it knows, besides those of the protocol's beginning; null where it does not say. */
  readonly symbolKinds: readonly SymbolKind[] | null;
}

/** The abilities among all that a client says it can do. */
export function abilitiesOf({ textDocument, workspace }: ClientCapabilities): Abilities {
  const signature = textDocument?.signatureHelp?.signatureInformation;
  return {
    pulls: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    refreshesTokens: workspace?.semanticTokens?.refreshSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    changesFolders: workspace?.workspaceFolders === true,
    givesSettings: workspace?.configuration === true,
    tellsSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    linksToDefinitions: textDocument?.definition?.linkSupport === true,
    nestsSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    takesActions: !textDocument?.codeAction || textDocument.codeAction.codeActionLiteralSupport !== undefined,
    snippetItems: textDocument?.completion?.completionItem?.snippetSupport === true,
    hoverMarkdown: showsMarkdown(textDocument?.hover?.contentFormat),
    itemMarkdown: showsMarkdown(textDocument?.completion?.completionItem?.documentationFormat),
    signatureMarkdown: showsMarkdown(signature?.documentationFormat),
    partsByColumn: signature?.parameterInformation?.labelOffsetSupport === true,
    versionsEdits: workspace?.workspaceEdit?.documentChanges === true,
    asksAboutEdits:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.changeAnnotationSupport !== undefined,
    createsFiles: workspace?.workspaceEdit?.resourceOperations?.includes("create") === true,
    renamesFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.resourceOperations?.includes("rename") === true,
    preparesRenames: textDocument?.rename?.prepareSupport === true,
    snippetEdits: workspace?.workspaceEdit?.snippetEditSupport === true,
    resolvesHints: textDocument?.inlayHint?.resolveSupport?.properties?.includes("tooltip") === true,
    resolvesSymbols: workspace?.symbol?.resolveSupport?.properties?.includes("location.range") === true,
    symbolKinds: workspace?.symbol?.symbolKind?.valueSet ?? null,
    formatsRanges: textDocument?.rangeFormatting?.rangesSupport === true,
    takesTokenDeltas: isDelta(textDocument?.semanticTokens?.requests?.full),
  };
}

function isDelta(full: boolean | { readonly delta?: boolean } | undefined): boolean {
  return typeof full === "object" && full?.delta === true;
}

/** Any file may be the text of a board that a script names, and any folder may hold scripts. */
const FILES: FileOperationRegistrationOptions = { filters: [{ pattern: { glob: "**" } }] };

/** What looks through the whole workspace: a client may ask to be told how far it is. */
const LONG = { workDoneProgress: true };

/** What the server offers to such a client. */
export function capabilitiesFor(abilities: Abilities): ServerCapabilities {
  return {
    // The one that every client has.
    positionEncoding: "utf-16",
    textDocumentSync: {
      openClose: true,
      change: 2 satisfies typeof TextDocumentSyncKind.Incremental,
      // One that watches no files tells at least when it has written one: the disk is looked at anew then.
      ...(!abilities.watchesFiles && { save: { includeText: false } }),
    },
    ...(abilities.pulls && {
      diagnosticProvider: { identifier: "fettle", interFileDependencies: true, workspaceDiagnostics: true },
    }),
    hoverProvider: true,
    completionProvider: { triggerCharacters: [" ", '"', "/", ",", "(", "{"], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [" ", ","] },
    colorProvider: true,
    definitionProvider: true,
    referencesProvider: LONG,
    documentHighlightProvider: true,
    renameProvider: { ...LONG, ...(abilities.preparesRenames && { prepareProvider: true }) },
    linkedEditingRangeProvider: true,
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    documentLinkProvider: {},
    codeActionProvider: !abilities.takesActions || {
      ...LONG,
      codeActionKinds: [CodeActionKind.QuickFix, ...new Set(Object.values(KINDS)), SOURCE_KINDS.fixAll, ORGANIZE],
    },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: abilities.formatsRanges ? { rangesSupport: true } : true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n" },
    codeLensProvider: {},
    selectionRangeProvider: true,
    workspaceSymbolProvider: { ...LONG, ...(abilities.resolvesSymbols && { resolveProvider: true }) },
    callHierarchyProvider: true,
    typeHierarchyProvider: LONG,
    inlayHintProvider: abilities.resolvesHints ? { resolveProvider: true } : true,
    semanticTokensProvider: {
      legend: LEGEND,
      full: abilities.takesTokenDeltas ? { delta: true } : true,
      range: true,
    },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: abilities.changesFolders },
      fileOperations: { willRename: FILES, didRename: FILES, willDelete: FILES, didDelete: FILES },
    },
  };
}
