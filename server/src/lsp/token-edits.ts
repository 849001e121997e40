/** What differs between two answers of semantic tokens, as the protocol has it. */
import type { SemanticTokensEdit } from "vscode-languageserver";

/** So many numbers tell one token. */
const SIZE = 5;

/**
 * One edit that makes the second of two answers of the first; none where they are equal. It begins and ends between
 * two tokens. What stands before or behind it is the same in both, as places are told from token to token.
 */
export function tokenEdits(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  if (start === before.length && start === after.length) return [];
  start -= start % SIZE;
  let same = 0;
  while (same < shorter - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  same -= same % SIZE;
  return [{ start, deleteCount: before.length - start - same, data: after.slice(start, after.length - same) }];
}
