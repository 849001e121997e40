/** What in a text leads to a person or a place, or is a secret: told by its form and the words before it. */
import { linkPatterns, peoplePatterns } from "./private-contacts.ts";
import { markPatterns } from "./private-marks.ts";
import type { PrivatePattern } from "./private-pattern.ts";
import { placePatterns } from "./private-places.ts";

/** The private part of a text; columns count from 0 in UTF-16 code units, `end` is exclusive. */
export interface PrivatePart {
  readonly start: number;
  readonly end: number;
  readonly what: string;
  readonly like: string;
}

/** The first that fits counts: a link may hold coordinates, and a serial number may look like a phone's. */
const PATTERNS: readonly PrivatePattern[] = [...linkPatterns, ...markPatterns, ...placePatterns, ...peoplePatterns];

/** Everything shorter and without a digit, a capital, `@`, `/`, `:` or `~` is no matter of these forms. */
const MAY_BE = /[\d@/\\:~A-Z([{]|(?:password|passphrase|phrase|key|secret)/;

/**
 * The parts of a text that look private, in order, none over another, nor over what stands in for one that was taken out. A name that only somebody who knows the
 * people could tell is not among them, and a text in plain words is not private because of what it speaks of.
 */
export function privateParts(text: string): readonly PrivatePart[] {
  if (!DRESSED.test(text)) return partsOf(text);
  // Each character of the plain text with the place of the one that it was.
  const from: number[] = [];
  let plain = "";
  for (let at = 0; at < text.length; at++) {
    const character = text[at]!;
    if (INVISIBLE.test(character)) continue;
    from.push(at);
    plain += FULL_WIDTH.test(character) ? character.normalize("NFKC") : character;
  }
  return partsOf(plain).map((part) => ({ ...part, start: from[part.start]!, end: from[part.end - 1]! + 1 }));
}

/** Characters between which a number or an address goes on, though no form of one has them. */
const INVISIBLE = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/;
const FULL_WIDTH = /[\uff01-\uff5e]/;
const DRESSED = new RegExp(`${INVISIBLE.source}|${FULL_WIDTH.source}`);

function partsOf(text: string): readonly PrivatePart[] {
  if (!MAY_BE.test(text)) return NONE;
  const found: PrivatePart[] = [];
  const before = [...text.matchAll(STANDS_IN)].map(({ index, 0: { length } }) => ({
    start: index,
    end: index + length,
  }));
  for (const { what, like, pattern, holds } of PATTERNS) {
    pattern.lastIndex = 0;
    for (const match of text.matchAll(pattern)) {
      const [start, end] = match.indices?.groups?.it ?? [match.index, match.index + match[0].length];
      if ([...before, ...found].some((each) => each.start < end && start < each.end)) continue;
      if (holds && !holds(text.slice(start, end), text)) continue;
      found.push({ start, end, what, like });
    }
  }
  return found.sort((a, b) => a.start - b.start);
}

const NONE: readonly PrivatePart[] = [];

/** What stands in the place of something that was taken out of a note. */
export function standIn(what: string): string {
  return `(${what} taken out)`;
}

/** What stands for it where there may be no room for words, as in a text of the picture. */
export const SHORT_STAND_IN = "(…)";

const STANDS_IN = /\([a-z -]+ taken out\)|\(…\)|: taken out before sharing/g;

/** The text with each of these parts replaced by what `instead` gives for it. */
export function withoutParts<P extends { readonly start: number; readonly end: number }>(
  text: string,
  parts: readonly P[],
  instead: (part: P) => string,
): string {
  let rest = text;
  for (const part of parts.toReversed()) rest = rest.slice(0, part.start) + instead(part) + rest.slice(part.end);
  return rest;
}
