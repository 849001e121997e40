/** Text that becomes part of an HTML page. */

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Escapes text for HTML, also for attributes in double quotes. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ENTITIES[character]!);
}
