/** What the editor asks of a document: each handler waits for the files, asks the core, and converts the answer. */
import type { Connection } from "vscode-languageserver";
import type { CompletionItem } from "vscode-languageserver-types";
import { completionsAt, type DocRef, documentationOf } from "../../../shared/ide/completion/complete.ts";
import { definitionsAt } from "../../../shared/ide/editor/definition.ts";
import { foldsOf } from "../../../shared/ide/editor/folding.ts";
import { lensesOf } from "../../../shared/ide/editor/lenses.ts";
import { linksOf } from "../../../shared/ide/editor/links.ts";
import { symbolsOf } from "../../../shared/ide/editor/symbols.ts";
import { hoverAt, type LinkTargets } from "../../../shared/ide/hover/hover.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import { broughtBack } from "./brought-back.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import { type Guard, resolving } from "./guard.ts";
import { loadFor } from "./load.ts";
import { markup } from "./markup.ts";
import { makeOutlines } from "./outline.ts";
import type { Settings } from "./settings.ts";
import { inList, toCodeLens, toCompletionItem, toFoldingRange, toLocationLink, toSymbol } from "./to-lsp.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  readonly settings: () => Settings;
  readonly links: () => LinkTargets;
  /** The client's command that follows a lens; null where it has none. */
  readonly lensCommand: () => string | null;
  /** The client's command that asks for completion again; null where it has none. */
  readonly suggestCommand: () => string | null;
}

/** Answers what an editor asks of a document, but for its findings and what `values.ts` and `actions.ts` answer. */
export function answerFeatures(parts: Parts): void {
  const { connection, documents, guard, abilities, settings, links, lensCommand, suggestCommand } = parts;
  const { uriOf, now } = documents;
  const scriptOf = (file: FilePath) => now().script(file);
  const outlineOf = makeOutlines();

  connection.onHover(
    guard("hover", null, async (params) => {
      const file = await loadFor(documents, params);
      const hover = hoverAt(now(), file, params.position, links());
      return hover && { contents: markup(hover.markdown, abilities().hoverMarkdown), range: hover.range };
    }),
  );
  connection.onCompletion(
    guard("completion", null, async (params) => {
      const file = await documents.loadAll(params.textDocument.uri);
      const form = { snippets: abilities().snippetItems, suggestCommand: suggestCommand() };
      const items = completionsAt(now(), file, params.position).map((item) => toCompletionItem(item, form));
      return { isIncomplete: false, items };
    }),
  );
  connection.onCompletionResolve(
    resolving(guard, "completion details", (item: CompletionItem) => {
      const doc = broughtBack<DocRef>(item.data, { of: "string" });
      const value = doc && documentationOf(now().catalogue, doc);
      return value ? { ...item, documentation: markup(value, abilities().itemMarkdown) } : item;
    }),
  );
  connection.onDefinition(
    guard("definition", null, async (params) => {
      const file = await loadFor(documents, params);
      const links = definitionsAt(now(), file, params.position).map((each) => toLocationLink(each, uriOf));
      if (abilities().linksToDefinitions) return links;
      return links.map(({ targetUri, targetRange }) => ({ uri: targetUri, range: targetRange }));
    }),
  );
  connection.onDocumentSymbol(
    guard("symbols", null, async ({ textDocument }, _token, _work, parts) => {
      const script = scriptOf(await documents.load(textDocument.uri));
      if (!script) return null;
      const { catalogue } = now();
      // A list that is sent part by part has to be one.
      if (abilities().nestsSymbols && !parts) return outlineOf(script, catalogue);
      const symbols = symbolsOf(script, catalogue).map(toSymbol);
      return abilities().nestsSymbols ? symbols : inList(symbols, textDocument.uri);
    }),
  );
  connection.onFoldingRanges(
    guard("folding", null, async ({ textDocument }) => {
      const script = scriptOf(await documents.load(textDocument.uri));
      return script && foldsOf(script).map(toFoldingRange);
    }),
  );
  connection.onDocumentLinks(
    guard("links", null, async ({ textDocument }) => {
      const file = await documents.load(textDocument.uri);
      return linksOf(now(), file).map((link) => ({
        range: link.range,
        target: uriOf(link.file),
        tooltip: visibleLine(link.tooltip),
      }));
    }),
  );
  connection.onCodeLens(
    guard("code lenses", null, async ({ textDocument: { uri } }) => {
      if (!settings().showsLenses) return [];
      const file = await loadFor(documents, { textDocument: { uri } });
      return lensesOf(now(), file).flatMap((lens) => toCodeLens(lens, uri, lensCommand()));
    }),
  );
}
