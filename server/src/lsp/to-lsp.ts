/** The core's plain data as the protocol has it. Places are counted alike, so ranges pass as they are. */
import {
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type CompletionItem,
  CompletionItemKind,
  type Diagnostic,
  DiagnosticSeverity,
  type DocumentSymbol,
  type FoldingRange,
  FoldingRangeKind,
  InsertTextFormat,
  type LocationLink,
  type SymbolInformation,
  SymbolKind,
} from "vscode-languageserver-types";
import { type CompletionItem as CoreCompletionItem, withoutStops } from "../../../shared/ide/completion/complete.ts";
import type { Definition } from "../../../shared/ide/editor/definition-target.ts";
import type { WitnessedFinding } from "../../../shared/ide/editor/fixes.ts";
import type { Fold } from "../../../shared/ide/editor/folding.ts";
import type { Lens } from "../../../shared/ide/editor/lenses.ts";
import type { ScriptSymbol } from "../../../shared/ide/editor/script-symbol.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import type { FollowLens } from "../../../shared/protocol/lenses.ts";
import type { ShowPositions } from "../../../shared/protocol/panel.ts";
import { visibleLine, visibleText, withoutIcons } from "../../../shared/text/visible-text.ts";

/** The address of a rule's page; null where there are no pages. */
export type PageOfRule = (code: string) => string | null;

/** The address by which the editor knows a path. */
export type UriOf = (path: FilePath) => Uri;

const SEVERITIES = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
} as const;

/** A finding, with a link to its rule's page where there are pages. */
export function toDiagnostic(finding: Finding, uriOf: UriOf, pageOfRule: PageOfRule): Diagnostic {
  const href = pageOfRule(finding.code);
  return {
    range: finding.range,
    severity: SEVERITIES[finding.severity],
    code: finding.code,
    source: "fettle",
    message: visibleText(finding.message),
    ...(href !== null && { codeDescription: { href } }),
    relatedInformation: finding.related.map(({ message, file, range }) => ({
      message: visibleText(message),
      location: { uri: uriOf(file), range },
    })),
  };
}

/** Sets the controls of the client's panel to what shows a finding; `command` is the client's own. */
export function toShowAction(finding: WitnessedFinding, uri: Uri, command: string, diagnostic: Diagnostic): CodeAction {
  const title = `Show it on the switches: ${finding.code}`;
  const shows: ShowPositions = { uri, positions: finding.witness };
  return {
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    command: { title, command, arguments: [shows] },
  };
}

/** The action that shows a check on the bench list, by a command of the client. */
export function toBenchAction(uri: Uri, command: string, diagnostic: Diagnostic): CodeAction {
  const title = "Show it on the bench list";
  return {
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    command: { title, command, arguments: [uri] },
  };
}

const COMPLETION_KINDS: Record<CoreCompletionItem["kind"], CompletionItemKind> = {
  section: CompletionItemKind.Module,
  setting: CompletionItemKind.Property,
  mode: CompletionItemKind.Function,
  output: CompletionItemKind.Function,
  element: CompletionItemKind.Field,
  choice: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  control: CompletionItemKind.Variable,
  position: CompletionItemKind.EnumMember,
  keyword: CompletionItemKind.Keyword,
  anchor: CompletionItemKind.Constant,
  field: CompletionItemKind.Field,
  colour: CompletionItemKind.Color,
  file: CompletionItemKind.File,
  code: CompletionItemKind.Text,
  value: CompletionItemKind.Value,
  snippet: CompletionItemKind.Snippet,
};

/** What the client can do with a completion item. */
export interface CompletionForm {
  /** Has tab stops. */
  readonly snippets: boolean;
  /** The client's command that asks for completion again; null where it has none. */
  readonly suggestCommand: string | null;
}

/** The documentation is left for `completionItem/resolve`, which finds it by `data`. */
export function toCompletionItem(
  item: CoreCompletionItem,
  { snippets, suggestCommand }: CompletionForm,
): CompletionItem {
  const isSnippet = item.snippet && snippets;
  return {
    label: visibleLine(item.label),
    kind: COMPLETION_KINDS[item.kind],
    detail: visibleLine(item.detail),
    sortText: item.sort,
    filterText: item.filter,
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range: item.range, newText: item.snippet && !snippets ? withoutStops(item.text) : item.text },
    data: item.doc,
    // After a name with its blank the editor asks again at once, for the value.
    ...(item.retrigger && suggestCommand && { command: { title: "", command: suggestCommand } }),
  };
}

const SYMBOL_KINDS: Record<ScriptSymbol["kind"], SymbolKind> = {
  header: SymbolKind.File,
  section: SymbolKind.Namespace,
  setting: SymbolKind.Property,
  mode: SymbolKind.Event,
  output: SymbolKind.Event,
  element: SymbolKind.Field,
  control: SymbolKind.Variable,
  follows: SymbolKind.Property,
};

/** A symbol with those below it. */
export function toSymbol(symbol: ScriptSymbol): DocumentSymbol {
  return {
    name: visibleLine(symbol.name) || "…",
    detail: visibleLine(symbol.detail),
    kind: SYMBOL_KINDS[symbol.kind],
    range: symbol.range,
    selectionRange: symbol.nameRange,
    // A long script has thousands without any: nothing is said of those, neither written nor read.
    ...(symbol.children.length > 0 && { children: symbol.children.map(toSymbol) }),
  };
}

/** The same one after another, for a client that has no tree. */
export function inList(symbols: readonly DocumentSymbol[], uri: string, containerName?: string): SymbolInformation[] {
  return symbols.flatMap(({ name, kind, range, children }) => [
    { name, kind, location: { uri, range }, ...(containerName !== undefined && { containerName }) },
    ...inList(children ?? [], uri, name),
  ]);
}

const FOLD_KINDS = {
  region: FoldingRangeKind.Region,
  comment: FoldingRangeKind.Comment,
  imports: FoldingRangeKind.Imports,
} as const;

/** Lines that fold together. */
export function toFoldingRange({ startLine, endLine, kind }: Fold): FoldingRange {
  return { startLine, endLine, kind: FOLD_KINDS[kind] };
}

/**
 * Words above a line, with the client's command where they lead somewhere. Without such a command they stay words, and
 * those that only lead somewhere are left out.
 */
export function toCodeLens({ range, title: words, action }: Lens, uri: Uri, command: string | null): CodeLens[] {
  const title = withoutIcons(visibleLine(words));
  // An empty command is shown as plain text: there is nothing to click.
  const plain: CodeLens[] = [{ range, command: { title, command: "" } }];
  if (action === null) return plain;
  if (command === null) return ["view", "effective", "review"].includes(action.kind) ? [] : plain;
  const argument: FollowLens = { uri, action };
  return [{ range, command: { title, command, arguments: [argument] } }];
}

/** From the word asked about to the whole line that defines it. */
export function toLocationLink({ from, file, range }: Definition, uriOf: UriOf): LocationLink {
  return { originSelectionRange: from, targetUri: uriOf(file), targetRange: range, targetSelectionRange: range };
}
