/** Text that becomes part of an HTML page, or of a drawing. */
import { visibleText } from "./visible-text.ts";

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/**
 * Escapes text for HTML and XML, also for attributes in double quotes. A character that turns the direction of the text
 * or does not show is named where it stands, ‹U+202E right-to-left override›.
 */
export function escapeHtml(text: string): string {
  return visibleText(text).replace(/[&<>"]/g, (character) => ENTITIES[character]!);
}
