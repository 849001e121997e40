/** The hover of the word at a position: first what counts on this craft, then what the word is. */
import type { Workspace } from "../../model/workspace.ts";
import type { Position, Range } from "../../syntax/span.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import { allowanceAt, coversColumn, cursorContextAt } from "../context/cursor-context.ts";
import { pageNameAt } from "../reference/page-name-at.ts";
import { hoverAllowance } from "./allowance-hover.ts";
import { hoverInDialect } from "./dialect-hover.ts";
import { hoverEntry } from "./entry-hover.ts";
import { hoverHeader, hoverUse } from "./file-hover.ts";
import { type LinkTargets, NO_LINKS } from "./links.ts";
import { hoverPiece } from "./piece-hover.ts";
import { hoverDropped, hoverSection } from "./section-hover.ts";

export type { LinkTargets } from "./links.ts";

export interface Hover {
  readonly markdown: string;
  readonly range: Range;
}

/** The hover at a position, with its links as `links` makes them (plain text without); null where there is none. */
export function hoverAt(workspace: Workspace, file: string, at: Position, links: LinkTargets = NO_LINKS): Hover | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, line, column, script } = cursor;
  const page = pageNameAt(workspace, file, at);
  const hoverOver = (markdown: string | null, cols: { start: number; end: number }): Hover | null =>
    markdown ? { markdown, range: rangeOf(spanAt(line, cols)) } : null;
  const allowance = allowanceAt(cursor);
  if (allowance) return hoverOver(hoverAllowance(allowance, script, page, links), allowance.codeSpan);
  if (script.kind === "dialect" && node.kind !== "header") {
    const fact = hoverInDialect(workspace, script, at, links);
    return fact && hoverOver(fact.markdown, fact.at);
  }
  switch (node.kind) {
    case "header":
      return hoverOver(hoverHeader(workspace, cursor, page, links), {
        start: node.word.start,
        end: node.name?.end ?? node.word.end,
      });
    case "use":
      return hoverOver(hoverUse(workspace, cursor, page, links), node.path ?? node.word);
    case "section":
      return coversColumn(node.name, column)
        ? hoverOver(hoverSection(workspace, cursor, page, links), node.name)
        : null;
    case "drop": {
      const word = node.names.find((each) => coversColumn(each, column));
      return word ? hoverOver(hoverDropped(workspace, cursor, word.text, page, links), word) : null;
    }
    case "entry": {
      const { entry, piece } = cursor;
      if (!entry) return null;
      if (coversColumn(node.head, column))
        return hoverOver(hoverEntry(workspace, script, entry, page, links), node.head);
      return piece ? hoverOver(hoverPiece(workspace, cursor, entry, page, links), piece) : null;
    }
    default:
      return null;
  }
}
