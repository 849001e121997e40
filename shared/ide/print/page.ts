/**
 * A page in one file that is made to be printed: no script, nothing from elsewhere, and the size of the paper is the
 * printer's. On a screen it can be read as well.
 */

import { escapeHtml } from "../../text/html.ts";
import { PAGE_STYLE } from "./page-style.ts";
import { cssString, shortened } from "./shown-text.ts";

export interface PrintedPage {
  /** What it is, such as “Bench list”; of the house. */
  readonly kind: string;
  /** Whose it is; null for what is of everybody. A pilot may have written it. */
  readonly of: string | null;
  readonly turn: "portrait" | "landscape";
  /** Styles of what is in the body. */
  readonly style: string;
  /** HTML of the body, in which everything that a pilot wrote is escaped. */
  readonly body: string;
}

/** Characters of a title: one line of a sheet. */
const TITLE_MOST = 60;

/** The whole file. Each printed page says at its foot whose it is and which of how many. */
export function printPage({ kind, of, turn, style, body }: PrintedPage): string {
  const title = of === null ? kind : `${kind}: ${shortened(of, TITLE_MOST)}`;
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeHtml(title)}</title>
<style>
${pageBoxes(title, turn)}${PAGE_STYLE}${style}</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** The margins of the paper, and what stands in them. Only the orientation is asked of the printer, never a size. */
function pageBoxes(title: string, turn: PrintedPage["turn"]): string {
  const text = "font: 8.5pt system-ui, sans-serif; color: #000; vertical-align: top; padding-top: 3mm;";
  return `@page {
  ${turn === "landscape" ? "size: landscape; " : ""}margin: 13mm 14mm 17mm;
  @bottom-left { content: ${cssString(title)}; ${text} }
  @bottom-right { content: counter(page) " of " counter(pages); ${text} }
}
`;
}

/** A drawing as the address of an image: what it is styled by stays inside it. */
export function imageOf(svg: string): string {
  const safe = svg.replaceAll(/\p{Cs}/gu, "\ufffd").replaceAll(/[%#"<>&]|[^ -~]/gu, encodeURIComponent);
  return `data:image/svg+xml,${safe}`;
}
