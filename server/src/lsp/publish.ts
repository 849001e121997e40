/** What the server says unasked: findings where the client does not pull them, faults in own words, and that drawings are out of date. */
import type { Connection } from "vscode-languageserver";
import { CHANGED_NOTIFICATION } from "../../../shared/protocol/requests.ts";
import type { Abilities } from "./capabilities.ts";
import type { ClosedScripts } from "./closed-scripts.ts";
import { debounce } from "./debounce.ts";
import { diagnosticsOf, wordsDiagnostics } from "./diagnostics.ts";
import type { Documents } from "./documents.ts";
import { type Guard, logError } from "./guard.ts";
import type { PageOfRule } from "./to-lsp.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  readonly pageOfRule: PageOfRule;
  readonly closedScripts: ClosedScripts;
  /** Whether the editor itself tells what is no JSON. */
  readonly checksJson: () => boolean;
  /** Whether the client draws what the server computes; others warn of a message that they do not know. */
  readonly draws: () => boolean;
}

export interface Publisher {
  /** After a change that was typed: whoever types knows that what is drawn is out of date, and has asked for it by now. */
  typed(): void;
  /** After a change of a text that was not typed. */
  changed(): void;
  /** After a change that the editor does not connect with its open documents. */
  changedOutside(): void;
  /** After a change of the pilot's own words. */
  wordsChanged(): Promise<void>;
  /**
   * Faults in the pilot's own words are pushed to every editor, also one that asks for the findings
   * of open scripts itself: the file at fault need not be open.
   */
  publishWordsProblems(): Promise<void>;
}

/** Between two keys less time passes. */
const TYPING_PAUSE_MS = 300;

/** Nothing is published before one of these is called. */
export function makePublisher({
  connection,
  documents,
  guard,
  abilities,
  pageOfRule,
  closedScripts,
  checksJson,
  draws,
}: Parts): Publisher {
  const push = guard<[], void>("diagnostics", undefined, async () => {
    for (const uri of documents.openUris()) {
      const { version, diagnostics } = await diagnosticsOf(documents, uri, pageOfRule);
      // Closed meanwhile: then it has no findings any more.
      if (version !== null) void connection.sendDiagnostics({ uri, version, diagnostics });
    }
  });
  /** A client that refuses is its own affair; nobody waits for its answer. */
  const ask = (name: string, request: () => Promise<unknown>) =>
    void request().catch((error) => logError(connection, name, error));
  const refreshDecorations = () => {
    const { refreshesHints, refreshesLenses } = abilities();
    if (refreshesHints) ask("inlay hints", () => connection.languages.inlayHint.refresh());
    if (refreshesLenses) ask("code lenses", () => connection.sendRequest("workspace/codeLens/refresh"));
  };
  /** The editor asks anew for the document that is typed in; what stands in a craft beside it may have changed too. */
  const refreshOthers = debounce(refreshDecorations, TYPING_PAUSE_MS);
  const pushIfAskedFor = () => {
    if (!abilities().pulls) void push();
  };
  const changed = () => {
    if (draws()) void connection.sendNotification(CHANGED_NOTIFICATION);
    pushIfAskedFor();
    closedScripts.changed();
  };
  const changedOutside = () => {
    if (abilities().refreshesDiagnostics) ask("diagnostics", () => connection.languages.diagnostics.refresh());
    refreshDecorations();
    changed();
  };

  let published: ReadonlySet<string> = new Set();
  const publishWordsProblems = guard<[], void>("own words", undefined, async () => {
    await documents.words.load();
    // What is no JSON an editor that knows JSON tells itself, of the files that it has open.
    const told = documents.words
      .problems()
      .filter(({ file, ofJson }) => !(ofJson && checksJson() && documents.words.isOpen(file)));
    const found = wordsDiagnostics(told, documents.uriOf);
    for (const uri of published) if (!found.has(uri)) void connection.sendDiagnostics({ uri, diagnostics: [] });
    for (const [uri, diagnostics] of found) void connection.sendDiagnostics({ uri, diagnostics });
    published = new Set(found.keys());
  });
  /** The words by which the client last coloured what it shows. */
  let coloured = documents.words.core();
  const wordsChanged = guard<[], void>("own words", undefined, async () => {
    await publishWordsProblems();
    const core = documents.words.core();
    // Whether a word is a setting, or one of its choices, is for the catalogue to say.
    if (core !== coloured && abilities().refreshesTokens)
      ask("semantic tokens", () => connection.languages.semanticTokens.refresh());
    coloured = core;
    changedOutside();
  });

  return {
    typed() {
      if (documents.openUris().length > 1) refreshOthers();
      pushIfAskedFor();
      closedScripts.typed();
    },
    changed,
    changedOutside,
    wordsChanged,
    publishWordsProblems,
  };
}
