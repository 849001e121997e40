/** What a pilot wrote, made safe for a sheet: no markup, and nothing in it that does not show. */
import { visibleText } from "../../text/visible-text.ts";

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
