/** What an answer must not hold, since the client did not say that it takes it. */
import type { ClientCapabilities } from "vscode-languageserver/node";
import { at } from "./methods.ts";
import type { Answer } from "./table.ts";

interface Limit {
  readonly method: RegExp;
  /** Where a client says that it takes it. */
  readonly ability: string;
  /** Whether an answer holds it. */
  holds(result: Answer): boolean;
}

const list = (result: Answer): Answer[] => (Array.isArray(result) ? result : (result?.items ?? []));
const isMarkdown = (text: Answer) => text?.kind === "markdown";
const editsOf = (result: Answer) => [result, ...list(result).map((each) => each?.edit)].filter(Boolean);
const changes = (result: Answer): Answer[] => editsOf(result).flatMap((edit) => edit.documentChanges ?? []);

const LIMITS: readonly Limit[] = [
  {
    method: /documentSymbol$/,
    ability: "textDocument.documentSymbol.hierarchicalDocumentSymbolSupport",
    holds: (result) => list(result).some(({ location }) => location === undefined),
  },
  {
    method: /definition$/,
    ability: "textDocument.definition.linkSupport",
    holds: (result) => list(result).some(({ targetUri }) => targetUri !== undefined),
  },
  {
    method: /completion$/,
    ability: "textDocument.completion.completionItem.snippetSupport",
    holds: (result) => list(result).some(({ insertTextFormat }) => insertTextFormat === 2),
  },
  {
    method: /signatureHelp$/,
    ability: "textDocument.signatureHelp.signatureInformation.parameterInformation.labelOffsetSupport",
    holds: (result) =>
      (result?.signatures ?? []).some(({ parameters }: Answer) =>
        (parameters ?? []).some(({ label }: Answer) => Array.isArray(label)),
      ),
  },
  {
    method: /hover$/,
    ability: "textDocument.hover",
    holds: (result) => isMarkdown(result?.contents),
  },
  {
    method: /codeAction|rename|will(?:Rename|Delete)Files/,
    ability: "workspace.workspaceEdit.documentChanges",
    holds: (result) => changes(result).length > 0,
  },
  {
    method: /codeAction|rename/,
    ability: "workspace.workspaceEdit.resourceOperations",
    holds: (result) => changes(result).some(({ kind }) => kind !== undefined),
  },
  {
    method: /codeAction$/,
    ability: "textDocument.codeAction.codeActionLiteralSupport",
    holds: (result) => list(result).some(({ command }) => typeof command !== "string"),
  },
  {
    method: /workspace\/symbol$/,
    ability: "workspace.symbol.resolveSupport",
    holds: (result) => list(result).some(({ location }) => location.range === undefined),
  },
];

/** A client that names a feature and says nothing of its formats, or says nothing of it at all, gets what is usual. */
const UNSAID = new Set(["textDocument.hover", "textDocument.codeAction.codeActionLiteralSupport"]);

/** What is beyond the client in an answer, in words. */
export function beyondClient(method: string, result: unknown, abilities: ClientCapabilities): string[] {
  return LIMITS.filter(({ method: of, ability, holds }) => {
    if (!of.test(method) || result === null || at(abilities, ability)) return false;
    if (UNSAID.has(ability) && !at(abilities, ability.split(".").slice(0, 2).join("."))) return false;
    return holds(result);
  }).map(({ ability }) => `${method}: the client does not take this (${ability})`);
}
