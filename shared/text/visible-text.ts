/** A stranger's text as people may read it: nothing in it turns its direction, hides, or moves a cursor. */
import { hiddenInStretch, hiddenShown, mayHide } from "./hidden-text.ts";
import { withoutParts } from "./private-text.ts";

/**
 * Plain text of several lines. A character that turns the direction of the text or does not show is named where it
 * stands, ‹U+202E right-to-left override›; what people need to write their languages stays.
 */
export function visibleText(text: string): string {
  // Nearly every text has none, and messages are made with each key.
  if (!mayHide(text) && text.search(NO_CHARACTER) < 0) return text;
  return (
    text
      // What is no character of Unicode would be lost in a file.
      .replaceAll(NO_CHARACTER, "\ufffd")
      .split(/\r\n?|\n/)
      .map((line) => {
        const hidden = hiddenInStretch(line, 0, line.length, "prose", true);
        return withoutParts(
          line,
          // A letter of another script is a letter, and can be read.
          hidden.filter(({ kind }) => kind !== "look-alike"),
          hiddenShown,
        );
      })
      .join("\n")
  );
}

const NO_CHARACTER = /\p{Cs}|[\ufffe\uffff]/gu;

/** The same on one line: for a label, a title, a row of a list. */
export function visibleLine(text: string): string {
  return visibleText(text.replace(/[\t\r\n\u2028\u2029]+/g, " "));
}

/**
 * The same as a message that an editor shows for a while. Some make a link of `[words](address)` in one, and know no
 * escape for it, so the two are set apart.
 */
export function visibleNotice(text: string): string {
  return visibleText(text).replaceAll("](", "] (");
}

/** Words for a place in which an editor makes pictures of `$(name)`: with the two set apart, as they know no common escape. */
export function withoutIcons(text: string): string {
  return text.replaceAll("$(", "$ (");
}
