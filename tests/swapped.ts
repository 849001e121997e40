/** A text with a part of it written otherwise, as cases differ by one line; throws where the part is not in it. */
export function swapped(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`“${from}” is not in the text, so nothing of it would change.`);
  return text.replace(from, to);
}
