/** Entries written by the habits of other programs, of phones and of mail: they are read where nothing else can be meant. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { isUnderstood } from "./guess-section.ts";

/** `warn-at = 3.6 V/cell`, `warn-at: 3.6 V/cell`. */
const ASSIGNED = /^([a-zA-Z][a-z0-9-]*)\s*[:=]\s*(?=[^\s:=])/;
/** A phone begins each line with a capital. */
const CAPITAL = /^[A-Z](?=[a-z])/;

/**
 * A line without its indent as it would have been written in a script: without a sign between name and value, and
 * begun with a small letter. As it is where it is understood already, or is not understood afterwards either.
 */
export function withoutHabits(text: string, place: SectionSpec | undefined, catalogue: Catalogue): string {
  if (!ASSIGNED.test(text) && !CAPITAL.test(text)) return text;
  if (isUnderstood(text, place, catalogue)) return text;
  const plain = text.replace(ASSIGNED, "$1  ").replace(CAPITAL, (letter) => letter.toLowerCase());
  return isUnderstood(plain, place, catalogue) ? plain : text;
}

/**
 * An entry that mail broke into two lines, as one: `before` is the line above, with its indent. Null where the second
 * is understood by itself, or both together are not.
 */
export function wrapped(
  before: string | undefined,
  text: string,
  place: SectionSpec | undefined,
  catalogue: Catalogue,
): string | null {
  if (before === undefined || !/^ {2}[a-zA-Z]/.test(before) || before.includes("#") || text.startsWith("drop "))
    return null;
  if (isUnderstood(text, place, catalogue)) return null;
  const whole = `${before} ${text}`;
  return isUnderstood(whole.trim(), place, catalogue) ? whole : null;
}
