/** Pieces of Markdown: what every hover, completion and page is put together from. */

/** A hazard with the sign of one; nothing where there is none. */
export function warning(hazard: string | undefined): string {
  return hazard ? `⚠ ${hazard}` : "";
}

/** Lines as a list. */
export function list(lines: readonly string[]): string {
  return lines.map((line) => `- ${line}`).join("\n");
}

/** Parts with an empty line between them; those that are empty are left out. */
export function paragraphs(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join("\n\n");
}

/** A pilot's note, set off from what the tool says; nothing where there is none. */
export function quoteNote(note: string): string {
  return note === "" ? "" : `> ${note.split("\n").map(plainText).join("  \n> ")}`;
}

/** A pilot's own words, so that nothing in them acts as Markdown. */
export function plainText(text: string): string {
  return text.replace(/[\\`*_{}[\]<>#|~!]/g, "\\$&");
}
