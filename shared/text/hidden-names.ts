/** Names of characters that do not show, by the Unicode Standard, in small letters. */

const NAMES: Readonly<Record<number, string>> = {
  0: "null",
  7: "bell",
  8: "backspace",
  11: "line tabulation",
  12: "form feed",
  13: "carriage return",
  27: "escape",
  127: "delete",
  133: "next line",
  160: "no-break space",
  173: "soft hyphen",
  847: "combining grapheme joiner",
  1564: "Arabic letter mark",
  4447: "Hangul choseong filler",
  4448: "Hangul jungseong filler",
  5760: "ogham space mark",
  6068: "Khmer inherent vowel aq",
  6069: "Khmer inherent vowel aa",
  6158: "Mongolian vowel separator",
  8203: "zero width space",
  8204: "zero width non-joiner",
  8205: "zero width joiner",
  8206: "left-to-right mark",
  8207: "right-to-left mark",
  8232: "line separator",
  8233: "paragraph separator",
  8234: "left-to-right embedding",
  8235: "right-to-left embedding",
  8236: "pop directional formatting",
  8237: "left-to-right override",
  8238: "right-to-left override",
  8239: "narrow no-break space",
  8287: "medium mathematical space",
  8288: "word joiner",
  8289: "function application",
  8290: "invisible times",
  8291: "invisible separator",
  8292: "invisible plus",
  8294: "left-to-right isolate",
  8295: "right-to-left isolate",
  8296: "first strong isolate",
  8297: "pop directional isolate",
  10240: "braille pattern blank",
  12288: "ideographic space",
  12644: "Hangul filler",
  65279: "zero width no-break space",
  65440: "halfwidth Hangul filler",
};

/** The number of a character as it is usually written: U+202E. */
export function codeOf(character: string): string {
  return `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
}

/** The name of a character that does not show; in general words where it has none of its own here. */
export function nameOfHidden(character: string): string {
  const code = character.codePointAt(0)!;
  const known = NAMES[code];
  if (known !== undefined) return known;
  if (code < 0x20 || (code >= 0x80 && code < 0xa0)) return "control character";
  if (code >= 0xe0000 && code <= 0xe007f) return "tag character";
  if ((code >= 0xfe00 && code <= 0xfe0f) || (code >= 0xe0100 && code <= 0xe01ef)) return "variation selector";
  if (code >= 0x2000 && code <= 0x200a) return "wide or thin space";
  return "invisible character";
}

const SCRIPTS: readonly (readonly [name: string, pattern: RegExp])[] = [
  ["Cyrillic", /\p{Script=Cyrillic}/u],
  ["Greek", /\p{Script=Greek}/u],
  ["Armenian", /\p{Script=Armenian}/u],
  ["Cherokee", /\p{Script=Cherokee}/u],
  ["Coptic", /\p{Script=Coptic}/u],
  ["Georgian", /\p{Script=Georgian}/u],
  ["Hebrew", /\p{Script=Hebrew}/u],
  ["full-width", /[\uff01-\uff5e]/u],
  ["mathematical", /[\u{1d400}-\u{1d7ff}]/u],
];

/** What kind of character a look-alike is: “Cyrillic”; null where no name for it is usual. */
export function scriptInWords(character: string): string | null {
  return SCRIPTS.find(([, pattern]) => pattern.test(character))?.[0] ?? null;
}
