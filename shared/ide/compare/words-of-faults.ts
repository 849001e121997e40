/** Lines with a fault in words: they have a text and no value. */

/** A line that one side has and the other does not. */
export function writtenWithFault(text: string): string {
  return `${quoted(text)}, a line with a fault`;
}

/** Two lines of which at least one has a fault; it follows the name. */
export function faultWords(a: string, b: string): string {
  return `reads ${quoted(b)} in place of ${quoted(a)}; a line with a fault has no value, so what that changes is not known`;
}

function quoted(text: string): string {
  return text.trim() === "" ? "nothing" : `“${text}”`;
}
