/** The board's texts among what the editor shows: which dialect reads each, what its lines mean, and where they lead. */
import {
  CodeLens,
  commands,
  type Disposable,
  EventEmitter,
  Hover,
  Location,
  languages,
  MarkdownString,
  type Memento,
  Position,
  Range,
  type TextDocument,
  type TextEditor,
  Uri,
  window,
  workspace,
} from "vscode";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  BOARD_LINE_REQUEST,
  BOARD_TEXT_REQUEST,
  type BoardLineParams,
  type BoardLineResult,
  type BoardText,
  type BoardTextResult,
} from "../../shared/protocol/board.ts";
import { LINE_COMMAND, PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import { visibleText } from "../../shared/text/visible-text.ts";
import { addressOf, isOnlyShown } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { boardLenses } from "./board-lenses.ts";
import type { BoardLooks } from "./board-looks.ts";
import { coalesce } from "./coalesce.ts";

/** The context by which the manifest shows what can be done with a board's text. */
export const BOARD_CONTEXT = "fettle.boardText";

export type ReadText = Extract<BoardTextResult, { kind: "read" }>;

export interface BoardTexts {
  /** What is known of a text as it is now; undefined for what is no board's text. */
  of(document: TextDocument): BoardTextResult | undefined;
  /** The text of a document with the dialect that was chosen for it. */
  askedOf(document: TextDocument): BoardText;
  /** Reads a text by a dialect from now on. */
  choose(document: TextDocument, dialect: string): Promise<void>;
  /** Something changed that the states may depend on. */
  changed(): void;
  readonly disposables: readonly Disposable[];
}

/** Languages that an editor gives to text that has none of its own. */
const PLAIN: ReadonlySet<string> = new Set(["plaintext", "log", "ini", "properties"]);
/** A board's whole text has some hundred kilobytes at most. */
const MOST_CHARACTERS = 4 * 1024 * 1024;
/** Shorter than one notices, and longer than between two keys of a fast writer. */
const PAUSE_MS = 120;

const CHOSEN = "fettle.dialects";

/** No text is known yet; `kept` remembers for this workspace which dialect was chosen for a text. */
export function boardTexts(ask: Ask, looks: BoardLooks, kept: () => Memento | undefined): BoardTexts {
  const known = new Map<string, { readonly text: string; readonly result: BoardTextResult }>();
  const chosen = new Map<string, string>();
  const lensesChanged = new EventEmitter<void>();
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const chosenFor = ({ uri }: TextDocument) =>
    chosen.get(uri.toString()) ?? kept()?.get<Record<string, string>>(CHOSEN)?.[uri.toString()];
  const isCandidate = (document: TextDocument) =>
    document.languageId !== "fettle" &&
    document.uri.scheme !== "output" &&
    !isOnlyShown(document.uri) &&
    (PLAIN.has(document.languageId) || chosenFor(document) !== undefined);
  const of = (document: TextDocument) => {
    const found = known.get(document.uri.toString());
    return found?.text === document.getText() ? found.result : undefined;
  };
  const askedOf = (document: TextDocument): BoardText => {
    const dialect = chosenFor(document);
    return { uri: addressOf(document.uri), text: document.getText(), dialect: dialect ? asUri(dialect) : null };
  };
  const readText = (document: TextDocument): ReadText | undefined => {
    const result = of(document);
    return result?.kind === "read" ? result : undefined;
  };

  const show = (editor: TextEditor) => {
    const result = known.get(editor.document.uri.toString());
    if (!result) return;
    // While a key is pressed the signs move with their lines, until the new ones are there.
    looks.show(editor, readText(editor.document)?.lines ?? []);
  };
  const tell = () => {
    const active = window.activeTextEditor && known.get(window.activeTextEditor.document.uri.toString())?.result;
    void commands.executeCommand("setContext", BOARD_CONTEXT, active !== undefined && active.kind !== "none");
  };
  const refresh = coalesce(async () => {
    const documents = new Set(window.visibleTextEditors.map(({ document }) => document).filter(isCandidate));
    for (const document of documents) {
      const asked = askedOf(document);
      if (asked.text.length > MOST_CHARACTERS) continue;
      const result = await ask<BoardTextResult>(BOARD_TEXT_REQUEST, asked).catch(() => undefined);
      // Changed meanwhile: it is asked for once more.
      if (!result || document.isClosed || document.getText() !== asked.text) continue;
      const before = known.get(document.uri.toString())?.result;
      known.set(document.uri.toString(), { text: asked.text, result });
      if (result.kind === "none" && (before === undefined || before.kind === "none")) continue;
      for (const editor of window.visibleTextEditors) if (editor.document === document) show(editor);
    }
    tell();
    lensesChanged.fire();
  });
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(refresh, PAUSE_MS);
  };

  const lineAt = async (document: TextDocument, line: number): Promise<BoardLineResult | undefined> => {
    if (!readText(document) || document.lineAt(line).isEmptyOrWhitespace) return undefined;
    const params: BoardLineParams = { ...askedOf(document), line };
    return ask<BoardLineResult>(BOARD_LINE_REQUEST, params);
  };
  const everything = { scheme: "*" };
  const providers = [
    languages.registerCodeLensProvider(everything, {
      onDidChangeCodeLenses: lensesChanged.event,
      provideCodeLenses(document) {
        const result = of(document);
        return (result ? boardLenses(result, addressOf(document.uri)) : []).map(
          (command) => new CodeLens(new Range(0, 0, 0, 0), command),
        );
      },
    }),
    languages.registerHoverProvider(everything, {
      async provideHover(document, { line }) {
        const found = await lineAt(document, line);
        if (!found || found.markdown === "") return undefined;
        const markdown = new MarkdownString(visibleText(found.markdown));
        markdown.isTrusted = { enabledCommands: [PAGE_COMMAND, LINE_COMMAND] };
        return new Hover(markdown, document.lineAt(line).range);
      },
    }),
    languages.registerDefinitionProvider(everything, {
      async provideDefinition(document, { line }) {
        const found = await lineAt(document, line);
        return found?.leadsTo.map((at) => new Location(Uri.parse(at.file), new Position(at.line, 0)));
      },
    }),
  ];
  const events = [
    window.onDidChangeVisibleTextEditors((editors) => {
      for (const editor of editors) show(editor);
      soon();
    }),
    window.onDidChangeActiveTextEditor(tell),
    window.onDidChangeTextEditorVisibleRanges(({ textEditor }) => {
      const read = readText(textEditor.document);
      if (read) looks.showWords(textEditor, read.lines);
    }),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (isCandidate(document)) soon();
    }),
    workspace.onDidCloseTextDocument(({ uri }) => void known.delete(uri.toString())),
  ];
  soon();
  return {
    of,
    askedOf,
    async choose({ uri }, dialect) {
      chosen.set(uri.toString(), dialect);
      const memento = kept();
      await memento?.update(CHOSEN, { ...memento.get<Record<string, string>>(CHOSEN), [uri.toString()]: dialect });
      soon();
    },
    changed: soon,
    disposables: [...providers, ...events, lensesChanged, { dispose: () => clearTimeout(waiting) }],
  };
}
