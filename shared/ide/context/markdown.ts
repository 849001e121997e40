/** Helpers to build Markdown for hovers, completion and reference pages. */
import { plainText } from "../../text/plain-text.ts";

/** A hazard with a warning sign; empty where there is none. */
export function warning(hazard: string | undefined): string {
  return hazard ? `⚠ ${hazard}` : "";
}

/** Lines as a Markdown list. */
export function list(lines: readonly string[]): string {
  return lines.map((line) => `- ${line}`).join("\n");
}

/** Parts as paragraphs; empty parts are left out. */
export function paragraphs(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join("\n\n");
}

/** A pilot's note as a quotation, to set it apart from the tool's own text; empty where there is none. */
export function quoteNote(note: string): string {
  return note === "" ? "" : `> ${note.split("\n").map(plainText).join("  \n> ")}`;
}

/** Text as code, as it stands: between as many backticks as it takes; line breaks and blanks at the ends would be lost. */
export function codeSpan(text: string): string {
  const fence = "`".repeat(mostBackticks(text) + 1);
  const pad = /^`|`$/.test(text) ? " " : "";
  return `${fence}${pad}${text}${pad}${fence}`;
}

/** Lines as a block of code without colours, as they stand. */
export function codeBlock(lines: string): string {
  const fence = "`".repeat(Math.max(3, mostBackticks(lines) + 1));
  return `${fence}text\n${lines}\n${fence}`;
}

function mostBackticks(text: string): number {
  return Math.max(0, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
}
