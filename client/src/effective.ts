/** The effective craft as a read-only script that follows its files, each line linked to those that say so. */
import {
  type Disposable,
  DocumentLink,
  EventEmitter,
  Hover,
  Location,
  languages,
  MarkdownString,
  Position,
  Range,
  type TextDocument,
  Uri,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import { type Uri as Address, asUri } from "../../shared/protocol/addresses.ts";
import {
  EFFECTIVE_REQUEST,
  EFFECTIVE_SCHEME,
  type EffectiveParams,
  type EffectiveText,
  effectiveAddress,
} from "../../shared/protocol/effective.ts";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import { plainText } from "../../shared/text/plain-text.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";
import { addressOf, isOnlyShown } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { tellInformation } from "./shown-window.ts";

export interface EffectiveCrafts {
  /** Shows the effective craft of a script beside it; `craft` picks one where several use the script. */
  show(uri: Address, craft?: Address): Promise<void>;
  /** The line that says what a line of such a text says last, and the craft; undefined for any other document. */
  sourceAt(document: TextDocument, line: number): { readonly source: LinePlace; readonly craft: Address } | undefined;
  /** Something changed that it may depend on. */
  changed(): void;
  readonly disposables: readonly Disposable[];
}

/** Shorter than one notices, and longer than between two keys of a fast writer. */
const PAUSE_MS = 150;

/** Registers the texts under an address of their own. */
export function effectiveCrafts(ask: Ask): EffectiveCrafts {
  const shown = new Map<string, EffectiveText>();
  const changed = new EventEmitter<Uri>();
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const fetch = (params: EffectiveParams) => ask<EffectiveText | null>(EFFECTIVE_REQUEST, params);

  const provider = workspace.registerTextDocumentContentProvider(EFFECTIVE_SCHEME, {
    onDidChange: changed.event,
    async provideTextDocumentContent(uri) {
      const text = await fetch({ uri: craftOf(uri) });
      if (!text) return "# This craft cannot be read any more: its file is gone, or is no craft now.\n";
      shown.set(uri.toString(), text);
      return text.text;
    },
  });
  const lineAt = (document: TextDocument, line: number) => {
    const text = shown.get(document.uri.toString());
    // After a change the lines are those of the text before until the new one is there.
    return text?.text === document.getText() ? text.lines.find((each) => each.line === line) : undefined;
  };
  const selector = { scheme: EFFECTIVE_SCHEME };
  const links = languages.registerDocumentLinkProvider(selector, {
    provideDocumentLinks(document) {
      const text = shown.get(document.uri.toString());
      if (text?.text !== document.getText()) return [];
      return text.lines.map(({ line, start, end, sources }) => {
        const link = new DocumentLink(new Range(line, start, line, end), addressIn(sources[0]!));
        link.tooltip = "Go to the line that says so";
        return link;
      });
    },
  });
  const definitions = languages.registerDefinitionProvider(selector, {
    provideDefinition: (document, { line }) =>
      lineAt(document, line)?.sources.map((at) => new Location(Uri.parse(at.file), new Position(at.line, 0))),
  });
  const hovers = languages.registerHoverProvider(selector, {
    provideHover(document, { line }) {
      const found = lineAt(document, line);
      if (!found) return undefined;
      const words = new MarkdownString("Said in ");
      found.sources.forEach((at, i) => {
        words.appendMarkdown(i === 0 ? "[" : " and [");
        // A file may be called anything, also what Markdown takes for a link.
        words.appendMarkdown(plainText(visibleLine(pathOf(at))));
        words.appendMarkdown(`](${addressIn(at).toString()})`);
      });
      return new Hover(words);
    },
  });
  const closed = workspace.onDidCloseTextDocument(({ uri }) => void shown.delete(uri.toString()));
  return {
    async show(uri, craft) {
      const text = await fetch({ uri, craft });
      if (!text) {
        void tellInformation("No craft uses this file, so there is nothing that comes of it.");
        return;
      }
      const address = addressFor(text);
      shown.set(address.toString(), text);
      const document = await workspace.openTextDocument(address);
      await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: false, preserveFocus: true });
    },
    sourceAt(document, line) {
      const source = document.uri.scheme === EFFECTIVE_SCHEME ? lineAt(document, line)?.sources.at(-1) : undefined;
      return source && { source, craft: craftOf(document.uri) };
    },
    changed() {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        for (const address of shown.keys()) changed.fire(Uri.parse(address));
      }, PAUSE_MS);
    },
    disposables: [provider, links, definitions, hovers, closed, changed, { dispose: () => clearTimeout(waiting) }],
  };
}

/** The server is not told of texts that are only shown: they are no files, and what is found in a craft is told of its files. */
export const leaveOutShown = {
  didOpen: unlessOnlyShown,
  didChange: (event: { readonly document: TextDocument }, next: (event: never) => Promise<void>) =>
    isOnlyShown(event.document.uri) ? Promise.resolve() : next(event as never),
  didClose: unlessOnlyShown,
};

function unlessOnlyShown(document: TextDocument, next: (document: TextDocument) => Promise<void>): Promise<void> {
  return isOnlyShown(document.uri) ? Promise.resolve() : next(document);
}

function addressFor({ file }: EffectiveText): Uri {
  return Uri.parse(effectiveAddress(asUri(file)));
}

function craftOf({ query }: Uri): Address {
  return asUri(addressOf(Uri.parse(query)));
}

function addressIn({ file, line }: LinePlace): Uri {
  return Uri.parse(file).with({ fragment: `L${line + 1}` });
}

function pathOf({ file, line }: LinePlace): string {
  return `${workspace.asRelativePath(Uri.parse(file), false)}, line ${line + 1}`;
}
