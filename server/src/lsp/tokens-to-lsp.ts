/** Semantic tokens as the protocol packs them: five numbers each, places relative to the one before. */
import type { Token, TokenKind } from "../../../shared/ide/editor/tokens.ts";

const TYPES = [
  "keyword",
  "namespace",
  "property",
  "function",
  "variable",
  "enumMember",
  "number",
  "type",
  "string",
  "comment",
  "operator",
  "macro",
  "parameter",
  "class",
] as const;
type TokenType = (typeof TYPES)[number];

const OF: Record<TokenKind, TokenType> = {
  header: "keyword",
  section: "namespace",
  setting: "property",
  field: "property",
  mode: "function",
  output: "function",
  element: "property",
  control: "variable",
  channel: "variable",
  position: "enumMember",
  choice: "enumMember",
  colour: "enumMember",
  anchor: "enumMember",
  number: "number",
  date: "number",
  unit: "type",
  string: "string",
  keyword: "keyword",
  operator: "operator",
  comment: "comment",
  kept: "macro",
  left: "string",
  slot: "parameter",
  code: "class",
};

/** What the numbers mean, for the client. */
export const LEGEND = { tokenTypes: [...TYPES], tokenModifiers: [] as string[] };

const INDEX = Object.fromEntries(TYPES.map((type, i) => [type, i])) as Record<TokenType, number>;

/** The numbers of all tokens, which come in order of place. */
export function packTokens(tokens: readonly Token[]): number[] {
  const packed: number[] = [];
  let line = 0;
  let start = 0;
  for (const token of tokens) {
    const sameLine = token.line === line;
    packed.push(
      token.line - line,
      sameLine ? token.start - start : token.start,
      token.end - token.start,
      INDEX[OF[token.kind]],
      0,
    );
    line = token.line;
    start = token.start;
  }
  return packed;
}
