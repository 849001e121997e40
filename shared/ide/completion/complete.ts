/** Completion: what can be written at a position, the likeliest first. */
import type { Workspace } from "../../model/workspace.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { commentStart } from "../../syntax/scanner.ts";
import type { Position, Range } from "../../syntax/span.ts";
import { type CursorContext, cursorContextAt } from "../context/cursor-context.ts";
import { type CompletionItem, completionItems, type Offer } from "./completion-item.ts";
import { offerInDialect } from "./dialect.ts";
import { offerHeads } from "./entry-names.ts";
import { offerTopLevel, offerUsePaths } from "./top-level.ts";
import { offerValues } from "./values.ts";

export { type CompletionItem, type DocRef, documentationOf } from "./completion-item.ts";
export { withoutStops } from "./without-stops.ts";

/** The characters of the word that is being written: names, units, numbers with their unit. */
const WORD_BEFORE = /[A-Za-z0-9%µ][A-Za-z0-9/%µ-]*$/;
const WORD_AFTER = /^[A-Za-z0-9/%µ-]*/;

/**
 * The completion items at a position; none where nothing can be completed, as in a comment. Those of several lines have
 * the line end of the script.
 */
export function completionsAt(workspace: Workspace, file: string, at: Position): CompletionItem[] {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor || cursor.script.tree.newer || cursor.node.kind === "kept") return [];
  const items = itemsAt(workspace, cursor, at);
  const end = lineEnd(cursor.script.tree, cursor.line);
  return end === "\n" ? items : items.map((item) => ({ ...item, text: item.text.replaceAll("\n", end) }));
}

function itemsAt(workspace: Workspace, cursor: CursorContext, at: Position): CompletionItem[] {
  const before = cursor.text.slice(0, at.character);
  if (cursor.script.kind === "dialect" && /^\s/.test(before))
    return completionItems(offerInDialect(workspace, cursor, before), dialectRange(cursor, before));
  if (commentStart(before) >= 0) return allowances(cursor, before);
  if (!/^\s/.test(before)) {
    const quote = /^use\s+"([^"]*)$/.exec(before);
    if (quote)
      return completionItems(
        offerUsePaths(workspace, cursor, quote[1]!),
        quotedRange(cursor, before.length - quote[1]!.length),
      );
    return /^[a-z0-9-]*$/.test(before)
      ? completionItems(offerTopLevel(workspace, cursor), wordRange(cursor, before))
      : [];
  }
  if (!cursor.spec || openString(before)) return [];
  const head = /^\s+([A-Za-z][A-Za-z0-9-]*)?$/.test(before);
  const offers = head ? offerHeads(workspace, cursor) : offerValues(workspace, cursor, before);
  return completionItems(offers, wordRange(cursor, before));
}

/** Offers codes for `# allow CODE: reason`, which accepts a finding. */
function allowances(cursor: CursorContext, before: string): CompletionItem[] {
  const found = /#\s*allow\s+([a-z-]*)$/.exec(before);
  if (!found) return [];
  const offers = rules
    .filter((rule) => rule.acceptable !== false)
    .map((rule): Offer => {
      const text = `${rule.code}: \${1:why it is right on this craft}`;
      return {
        label: rule.code,
        kind: "code",
        detail: rule.summary,
        text,
        snippet: true,
        doc: { of: "rule", name: rule.code },
      };
    });
  return completionItems(offers, wordRange(cursor, before));
}

/** The word at the position of a dialect; a sign that opens nothing stays. */
function dialectRange({ line, column, text }: CursorContext, before: string): Range {
  const word = /[A-Za-z0-9%µ#][A-Za-z0-9/%µ-]*$/.exec(before)?.[0] ?? "";
  const after = WORD_AFTER.exec(text.slice(column))?.[0] ?? "";
  return { start: { line, character: column - word.length }, end: { line, character: column + after.length } };
}

function openString(before: string): boolean {
  return (before.replace(/\\./g, "").match(/"/g)?.length ?? 0) % 2 === 1;
}

/** The range of the word at the position; `before` is the line up to the position. */
function wordRange({ line, column, text }: CursorContext, before: string): Range {
  const start = column - (WORD_BEFORE.exec(before)?.[0].length ?? 0);
  // When a unit is chosen the number before it stays.
  const digits = /^-?\d+(\.\d+)?(?!:)/.exec(text.slice(start, column))?.[0].length ?? 0;
  const end = column + (WORD_AFTER.exec(text.slice(column))?.[0].length ?? 0);
  return { start: { line, character: start + digits }, end: { line, character: end } };
}

/** The text between the quotes, from a column on. */
function quotedRange({ line, column, text }: CursorContext, start: number): Range {
  const close = text.indexOf('"', column);
  return { start: { line, character: start }, end: { line, character: close < 0 ? text.length : close } };
}
