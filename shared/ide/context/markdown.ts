/** Helpers to build Markdown for hovers, completion and reference pages. */

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

/** A pilot's own text, escaped so that it is not read as Markdown. */
export function plainText(text: string): string {
  return text.replace(/[\\`*_{}[\]<>#|~!]/g, "\\$&");
}
