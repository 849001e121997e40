/**
 * How much room text takes at a terminal.
 *
 * - `columnsOf`: its width in columns
 * - `cutAt`: its beginning that has room, and the rest
 */

/** Letters of one column each, without marks: nearly every text. */
const NARROW = /^[\u0020-\u007e\u00a0-\u02ff\u2010-\u2027]*$/;
/** Of width “W” or “F” by the Unicode standard's annex 11: ideographs, kana, hangul, full-width forms; and pictures in colour. */
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{17000}-\u{18cff}\u{1b000}-\u{1b2ff}\u{20000}-\u{3fffd}\p{Emoji_Presentation}]|\ufe0f/u;
/** Marks and what does not show, where they stand alone. */
const NOTHING = /^(?:\p{Mn}|\p{Me}|\p{Cf})+$/u;

const letters = new Intl.Segmenter("und", { granularity: "grapheme" });

/** In columns, as most terminals show it: two for a wide letter, none for a mark on one. */
export function columnsOf(text: string): number {
  if (NARROW.test(text)) return text.length;
  let columns = 0;
  for (const { segment } of letters.segment(text)) columns += widthOf(segment);
  return columns;
}

/** Cut before the first letter that has no room in so many columns; the first letter always has. */
export function cutAt(text: string, columns: number): readonly [beginning: string, rest: string] {
  let used = 0;
  for (const { segment, index } of letters.segment(text)) {
    used += widthOf(segment);
    if (used > columns && index > 0) return [text.slice(0, index), text.slice(index)];
  }
  return [text, ""];
}

function widthOf(letter: string): number {
  return WIDE.test(letter) ? 2 : NOTHING.test(letter) ? 0 : 1;
}
