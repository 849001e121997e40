/** The line of a .gitattributes file that leads git to a driver, put in and taken out without touching a byte besides. */

import { usualEnd } from "./git-config.ts";

/** Which files, and which driver for their diffs and their merges. */
const LINE = "*.fettle diff=fettle merge=fettle";
const [PATTERN, ...ATTRIBUTES] = LINE.split(" ");

/**
 * The text with the line at its end; null where it stands there already, and `null` for a file that is not there. The
 * last line ends as before: where it has no line end the new one has none, by which its removal knows.
 */
export function withAttributes(text: string | null): string | null {
  if (text === null) return `${LINE}\n`;
  if (linesOf(text).some(({ words }) => hasAll(words))) return null;
  const end = usualEnd(text);
  if (text === "") return LINE;
  return text.endsWith("\n") ? `${text}${LINE}${end}` : `${text}${end}${LINE}`;
}

/** The text without the line; `remove` where only the line was in the file, and null where it is not. */
export function withoutAttributes(text: string): string | "remove" | null {
  const lines = linesOf(text);
  if (!lines.some(({ words }) => hasAll(words))) return null;
  let left = "";
  let endsBare = false;
  for (const { whole, words } of lines) {
    if (!hasAll(words)) left += whole;
    // What somebody wrote behind ours stays.
    else if (words.length > ATTRIBUTES.length + 1) left += without(whole);
    else endsBare = !whole.endsWith("\n");
  }
  if (endsBare) return left.replace(/\r?\n$/, "");
  return left === "" ? "remove" : left;
}

function without(line: string): string {
  return ATTRIBUTES.reduce((rest, each) => rest.replace(new RegExp(`[ \\t]+${each}(?=[ \\t\\r\\n]|$)`), ""), line);
}

function hasAll(words: readonly string[]): boolean {
  return words[0] === PATTERN && ATTRIBUTES.every((each) => words.includes(each));
}

function linesOf(text: string) {
  return (text.match(/[^\n]*\n|[^\n]+$/g) ?? []).map((whole) => ({ whole, words: whole.trim().split(/[ \t]+/) }));
}
