/** Semantic tokens: of a whole script, of what changed in it, or of the lines that are in sight. */
import type { Connection, SemanticTokens, SemanticTokensDelta } from "vscode-languageserver";
import { type Token, tokensOf } from "../../../shared/ide/editor/tokens.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { sessionIds } from "./session-ids.ts";
import { tokenEdits } from "./token-edits.ts";
import { packTokens } from "./tokens-to-lsp.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
}

/** More scripts than anybody looks at in turn; the answers for the others are sent whole. */
const MOST_KEPT = 20;

/** Answers the three questions about tokens. */
export function answerTokens({ connection, documents, guard, abilities }: Parts): void {
  const kept = new Map<Uri, SemanticTokens>();
  const nextId = sessionIds();
  const dataOf = async (uri: Uri, range?: Range): Promise<number[] | null> => {
    const file = await documents.load(uri);
    const { catalogue, ...now } = documents.now();
    const script = now.script(file);
    if (!script || !range) return script && packTokens(tokensOf(script, catalogue));
    const tokens = tokensOf(script, catalogue, { first: range.start.line, last: range.end.line });
    return packTokens(tokens.filter((token) => isIn(token, range)));
  };
  /** Remembers an answer as the one that the client has of a document. */
  const keep = (uri: Uri, data: number[]): SemanticTokens => {
    const answer = { resultId: nextId(), data };
    kept.delete(uri);
    kept.set(uri, answer);
    if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!);
    return answer;
  };
  const { semanticTokens } = connection.languages;
  semanticTokens.on(
    guard("semantic tokens", { data: [] }, async ({ textDocument: { uri } }): Promise<SemanticTokens> => {
      const data = await dataOf(uri);
      return data && abilities().takesTokenDeltas ? keep(uri, data) : { data: data ?? [] };
    }),
  );
  semanticTokens.onDelta(
    guard("changed tokens", { data: [] }, async ({ textDocument: { uri }, previousResultId }) => {
      const data = await dataOf(uri);
      const before = kept.get(uri);
      const answer: SemanticTokens = data ? keep(uri, data) : { data: [] };
      if (!data || before?.resultId !== previousResultId) return answer;
      return { resultId: answer.resultId!, edits: tokenEdits(before.data, data) } satisfies SemanticTokensDelta;
    }),
  );
  semanticTokens.onRange(
    guard("tokens in sight", { data: [] }, async ({ textDocument: { uri }, range }) => {
      return { data: (await dataOf(uri, range)) ?? [] };
    }),
  );
}

/** Whether any of a token lies in a range. */
function isIn({ line, start, end }: Token, range: Range): boolean {
  return (
    (line > range.start.line || end > range.start.character) && (line < range.end.line || start < range.end.character)
  );
}
