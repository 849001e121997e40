/** Characters of a pasted text that do not show, or show as others: listed, and made visible. */
import type { HiddenCharacter } from "../../protocol/review.ts";
import { hiddenInTree } from "../../rules/lib/hidden-lines.ts";
import { parse } from "../../syntax/parse.ts";
import { hiddenInWords, hiddenShown } from "../../text/hidden-text.ts";
import { withoutParts } from "../../text/private-text.ts";

/** Most lines have nothing but what a keyboard types; they need no second look. */
const PLAIN = /^[\t\x20-\x7e]*$/;

/** In order of place; of a text that is no script too. Lines and columns count from 0, in UTF-16 code units. */
export function hiddenIn(text: string): readonly HiddenCharacter[] {
  return hiddenInTree(parse(text)).map((each) => {
    const { line, start, end, kind } = each;
    return { line, start, end, kind, words: hiddenInWords(each) };
  });
}

/** A line with each such character made visible: ‹U+202E right-to-left override›. All else is as it is. */
export function shownText(line: string): string {
  if (PLAIN.test(line)) return line;
  return withoutParts(line, hiddenInTree(parse(line)), hiddenShown);
}

/** A comment without what does not show and what turns the direction of text; letters that look like others stay. */
export function withoutHidden(comment: string): string {
  if (PLAIN.test(comment)) return comment;
  const line = `# ${comment}`;
  const unseen = hiddenInTree(parse(line)).filter(({ kind }) => kind !== "look-alike");
  return unseen.length === 0 ? comment : withoutParts(line, unseen, () => "").slice(2);
}
