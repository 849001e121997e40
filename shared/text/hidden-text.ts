/**
 * Characters that do not show, or show as others: what turns the direction of text, what is invisible, and letters of
 * another script that look like plain ones. What people need to write their languages is none of it.
 */
import { codeOf, nameOfHidden, scriptInWords } from "./hidden-names.ts";
import { lookAlikeOf } from "./look-alikes.ts";

/** How a stretch of a line is read: names, numbers and units of the language, or words for people. */
export type Reading = "code" | "prose";

/** A character that is told of; columns count in UTF-16 code units, `end` is exclusive. */
export interface Hidden {
  readonly start: number;
  readonly end: number;
  readonly kind: "direction" | "invisible" | "look-alike";
  readonly character: string;
  /** What is meant by it; "" for nothing, so that it can be removed. */
  readonly plain: string;
}

/** None of these is in nearly every line of nearly every script. */
const MAY_BE = /[^\t -~]/;

const DIRECTION = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/u;
const INVISIBLE =
  /[\u0000-\u0008\u000a-\u001f\u007f-\u009f\u2028\u2029\u2800\ufff9-\ufffb]|\p{Default_Ignorable_Code_Point}|[\u{1d173}-\u{1d17a}]/u;
const BLANK = /\p{Zs}/u;

/** Whether a text may have a character that turns its direction or does not show; one of a letter's own kind counts too. */
export function mayHide(text: string): boolean {
  return DIRECTION.test(text) || INVISIBLE.test(text);
}

/**
 * The characters of a stretch of a line of which to tell, in order. `isForeign`: the text around it is written in
 * another script than the Latin one, so a word all of whose letters look like Latin ones may well be none.
 */
export function hiddenInStretch(
  line: string,
  start: number,
  end: number,
  reading: Reading,
  isForeign: boolean,
): readonly Hidden[] {
  const text = line.slice(start, end);
  if (!MAY_BE.test(text)) return NONE;
  const found: Hidden[] = [];
  const characters = [...text];
  let at = start;
  characters.forEach((character, index) => {
    const from = at;
    at += character.length;
    if (character <= "~" && character >= " ") return;
    const around = { before: characters[index - 1], after: characters[index + 1], characters, index, text };
    const told = (kind: Hidden["kind"], plain: string) =>
      found.push({ start: from, end: from + character.length, kind, character, plain });
    if (DIRECTION.test(character)) {
      if (reading === "code" || !isNeededDirection(character, around)) told("direction", "");
    } else if (INVISIBLE.test(character)) {
      if (!isNeededInvisible(character, around)) told("invisible", "");
    } else if (reading === "code") {
      if (BLANK.test(character) && character !== " ") told("invisible", " ");
      else {
        const plain = lookAlikeOf(character);
        if (plain !== null && !MICRO.test(character)) told("look-alike", plain);
      }
    }
  });
  if (reading === "prose") found.push(...lookAlikeWords(text, start, isForeign));
  return found.sort((a, b) => a.start - b.start);
}

const NONE: readonly Hidden[] = [];
/** Read in units, in either form. */
const MICRO = /[\u00b5\u03bc]/;

interface Around {
  readonly before: string | undefined;
  readonly after: string | undefined;
  readonly characters: readonly string[];
  readonly index: number;
  readonly text: string;
}

const RIGHT_TO_LEFT = /(?=\p{L})[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u;
const OPENERS = /[\u202a\u202b\u2066\u2067\u2068]/u;
const CLOSERS = /[\u202c\u2069]/u;

/** Marks, and pairs that close again, in a text with letters that run from right to left; an override never. */
function isNeededDirection(character: string, { text }: Around): boolean {
  if (/[\u202d\u202e]/.test(character) || /[\u202d\u202e]/.test(text)) return false;
  if (!RIGHT_TO_LEFT.test(text)) return false;
  if (!OPENERS.test(character) && !CLOSERS.test(character)) return true;
  let open = 0;
  for (const each of text) {
    if (OPENERS.test(each)) open++;
    if (CLOSERS.test(each) && --open < 0) return false;
  }
  return open === 0;
}

/** Scripts whose letters take other forms beside a joiner, or that have no spaces between words. */
const JOINING =
  /[\p{Script=Arabic}\p{Script=Syriac}\p{Script=Mongolian}\p{Script=Devanagari}\p{Script=Bengali}\p{Script=Gurmukhi}\p{Script=Gujarati}\p{Script=Oriya}\p{Script=Tamil}\p{Script=Telugu}\p{Script=Kannada}\p{Script=Malayalam}\p{Script=Sinhala}\p{Script=Khmer}\p{Script=Myanmar}\p{Script=Tibetan}\p{Script=Lao}\p{Script=Thai}]/u;
const UNSPACED =
  /[\p{Script=Thai}\p{Script=Lao}\p{Script=Khmer}\p{Script=Myanmar}\p{Script=Tibetan}\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]/u;
const PICTURE = /\p{Extended_Pictographic}|\p{Emoji_Modifier}|\ufe0f|[\u{e0020}-\u{e007f}]/u;
const CAN_BE_PICTURE = /[\p{Emoji}\p{Extended_Pictographic}]/u;
const HAN = /\p{Script=Han}/u;
const FLAG = "\u{1f3f4}";

function isNeededInvisible(character: string, around: Around): boolean {
  const { before = "", after = "" } = around;
  switch (character) {
    case "\u200d":
      return (PICTURE.test(before) && /\p{Extended_Pictographic}/u.test(after)) || joins(around);
    case "\u200c":
      return joins(around);
    case "\u200b":
      return UNSPACED.test(before) && UNSPACED.test(after);
    case "\ufe0e":
    case "\ufe0f":
      return CAN_BE_PICTURE.test(before);
    case "\u115f":
    case "\u1160":
      return /[\u1100-\u115e\u1161-\u11ff]/u.test(before + after);
    case "\u180b":
    case "\u180c":
    case "\u180d":
    case "\u180e":
    case "\u180f":
      return /\p{Script=Mongolian}/u.test(before);
    case "\u034f":
    case "\u17b4":
    case "\u17b5":
      return character !== "\u034f" && /\p{Script=Khmer}/u.test(before);
  }
  const code = character.codePointAt(0)!;
  if (code >= 0xe0020 && code <= 0xe007f) return isFlag(around);
  if ((code >= 0xfe00 && code <= 0xfe02) || (code >= 0xe0100 && code <= 0xe01ef)) return HAN.test(before);
  return false;
}

function joins({ before = "", after = "" }: Around): boolean {
  return JOINING.test(before) || (before.normalize("NFD") !== "" && /\p{M}/u.test(before) && JOINING.test(after));
}

/** The flag of a region: a black flag, at most six tags, and the tag that ends them. */
function isFlag({ characters, index }: Around): boolean {
  let first = index;
  while (first > 0 && isTag(characters[first - 1]!)) first--;
  let last = index;
  while (last + 1 < characters.length && isTag(characters[last + 1]!)) last++;
  return characters[first - 1] === FLAG && last - first <= 6 && characters[last] === "\u{e007f}";
}

function isTag(character: string): boolean {
  const code = character.codePointAt(0)!;
  return code >= 0xe0020 && code <= 0xe007f;
}

const WORD = /[\p{L}\p{M}\p{Nd}\p{Nl}_]+/gu;
const LATIN = /[\p{Script=Latin}]/u;
const OTHER =
  /[\p{Script=Cyrillic}\p{Script=Greek}\p{Script=Armenian}\p{Script=Cherokee}\p{Script=Coptic}\p{Script=Lisu}\p{Script=Deseret}\p{Script=Georgian}]/u;

/**
 * Words of a text for people that are put together of letters of two scripts so that they read as Latin ones, and
 * whole words of that kind in a text that is otherwise Latin.
 */
function lookAlikeWords(text: string, offset: number, isForeignAround: boolean): Hidden[] {
  if (!OTHER.test(text) && !STYLED.test(text)) return [];
  const words = [...text.matchAll(WORD)];
  const isForeign = words.some(([word]) => isOwnScript(word));
  return words.flatMap(({ 0: word, index }) => {
    if (!readsAsLatin(word, isForeign, isForeignAround)) return [];
    let at = offset + index;
    return [...word].flatMap((character): Hidden[] => {
      const start = at;
      at += character.length;
      const plain = LATIN.test(character) && character.normalize("NFKC") === character ? null : lookAlikeOf(character);
      return plain === null || /\d/.test(character) ? [] : [{ start, end: at, kind: "look-alike", character, plain }];
    });
  });
}

/** Letters and digits that are plain ones in another dress: mathematical, full-width, numerals of one letter. */
const STYLED = /[\u{1d400}-\u{1d7ff}\uff01-\uff5e\u2160-\u217f]/u;

/** Whether a text has words of another script beyond doubt. */
export function hasForeignWords(text: string): boolean {
  return OTHER.test(text) && [...text.matchAll(WORD)].some(([word]) => isOwnScript(word));
}

/** A word that is of another script beyond doubt: with a letter that looks like no Latin one. */
function isOwnScript(word: string): boolean {
  return !LATIN.test(word) && [...word].some((each) => OTHER.test(each) && lookAlikeOf(each) === null);
}

function readsAsLatin(word: string, isForeign: boolean, isForeignAround: boolean): boolean {
  const letters = [...word].filter((each) => /[\p{L}\p{Nl}]/u.test(each));
  const other = letters.filter((each) => OTHER.test(each));
  const styled = letters.filter((each) => !OTHER.test(each) && lookAlikeOf(each) !== null && !isPlainLatin(each));
  const latin = letters.filter(isPlainLatin);
  if (styled.length > 0 && latin.length > 0 && styled.length < letters.length) return true;
  if (other.length === 0 || other.some((each) => lookAlikeOf(each) === null)) return false;
  if (latin.length > 0) return !isInflected(letters, isForeign) && !isSymbol(letters);
  return !isForeign && !isForeignAround && other.length > 1;
}

function isPlainLatin(letter: string): boolean {
  return LATIN.test(letter) && letter.normalize("NFKC") === letter;
}

/** A Latin word with an ending of the language around it, as an abbreviation has one in Russian. */
function isInflected(letters: readonly string[], isForeign: boolean): boolean {
  const first = letters.findIndex((each) => OTHER.test(each));
  return isForeign && first > 0 && letters.slice(first).every((each) => OTHER.test(each));
}

/** A Greek letter as physics has it, with an index: νmax, σx. */
function isSymbol(letters: readonly string[]): boolean {
  const [first = "", ...rest] = letters;
  return (
    /[\p{Script=Greek}]/u.test(first) &&
    rest.every(isPlainLatin) &&
    /^(?:[a-z]|m(?:ax|in)|ref|rms|hover)$/.test(rest.join(""))
  );
}

/** What a character is, as a message tells it. */
export function hiddenInWords({ kind, character, plain }: Hidden): string {
  const code = codeOf(character);
  if (kind === "look-alike") {
    const script = scriptInWords(character);
    return `“${character}” (${code}${script ? `, ${script}` : ""}) looks like “${plain}” and is another character`;
  }
  const name = `${nameOfHidden(character)} (${code})`;
  if (kind === "direction") return `${name}: text after it may show in another order than it is read`;
  return plain === " " ? `${name}: it shows as a space and is none` : `${name}: it does not show`;
}

/** The character as it can be seen, where it stands. */
export function hiddenShown({ kind, character }: Hidden): string {
  const code = codeOf(character);
  if (kind !== "look-alike") return `‹${code} ${nameOfHidden(character)}›`;
  const script = scriptInWords(character);
  return `${character}‹${code}${script ? ` ${script}` : ""}›`;
}
