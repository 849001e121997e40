/** What a pilot wrote, made safe for a sheet: no markup, and nothing in it that does not show. */
import { hasForeignWords, hiddenInStretch, hiddenShown } from "../../text/hidden-text.ts";
import { escapeHtml } from "../../text/html.ts";
import { withoutParts } from "../../text/private-text.ts";

/**
 * Text as HTML, also for attributes in double quotes. A character that turns the direction of the text or does not show
 * is named where it stands, ‹U+202E right-to-left override›; what people need to write their languages stays.
 */
export function shownText(text: string): string {
  return escapeHtml(visibleText(text));
}

/** The same as plain text. */
export function visibleText(text: string): string {
  // What is no character of Unicode would be lost in a file.
  const whole = text.replaceAll(/\p{Cs}|[\ufffe\uffff]/gu, "\ufffd");
  const isForeign = hasForeignWords(whole);
  return whole
    .split(/\r\n?|\n/)
    .map((line) => {
      const hidden = hiddenInStretch(line, 0, line.length, "prose", isForeign);
      return withoutParts(
        line,
        // A letter of another script is a letter, and can be read.
        hidden.filter(({ kind }) => kind !== "look-alike"),
        hiddenShown,
      );
    })
    .join("\n");
}

/** At most so many characters, then “…”: for a title, which is said whole elsewhere. */
export function shortened(text: string, most: number): string {
  const characters = [...text];
  return characters.length <= most ? text : `${characters.slice(0, most - 1).join("")}…`;
}

/** A string of CSS: every character that is no plain letter, digit or blank by its number. */
export function cssString(text: string): string {
  const written = visibleText(text).replaceAll(
    /[^A-Za-z0-9 ]/gu,
    (character) => `\\${character.codePointAt(0)!.toString(16)} `,
  );
  return `"${written}"`;
}
