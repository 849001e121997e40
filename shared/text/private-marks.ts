/** Forms of registration marks, serial numbers and secrets. */
import type { PrivatePattern } from "./private-pattern.ts";

const MARK = { what: "registration", like: "a registration mark" };
const SERIAL = { what: "serial number", like: "a serial number" };
const SECRET = { what: "secret", like: "a password or a key" };

const SAID = String.raw`[ \t]*(?:[:=#]|(?:is|was|ist|war)\b)?[ \t]*`;
/** Said as a value: behind a colon or the like. */
const STATED = String.raw`[ \t]*(?:[:=]|\b(?:is|was|ist|war)\b)[ \t]*`;
const REGISTERED = String.raw`\b(?:[Rr]eg(?:istration|istered|\.)?(?: (?:mark|number|no\.?|as|id|e-ID|ID))?|REG|[Tt]ail(?: (?:mark|number))?|[Cc]all ?sign|[Oo]perator(?:'s)? (?:id|ID|no\.?|number)|[Kk]ennzeichen|[Rr]ufzeichen)`;

/** Words that stand where a network's name would, and name none. */
const NO_NETWORK = /^(?:off|on|none|no|yes|never|only|not|in|is|and|at|for|to|the|unset)$/i;

export const markPatterns: readonly PrivatePattern[] = [
  // Operators: of Europe, a country, twelve characters and a check; of other lands with OP or FA before them.
  { ...MARK, pattern: /\b[A-Z]{3}(?=[0-9a-z]*\d)(?=[0-9a-z]*[a-z])[0-9a-z]{13}(?:-[0-9a-z]{3})?\b/dg },
  { ...MARK, pattern: /\b(?:[A-Z]{3}-)?OP-[0-9A-Z]{8,}\b/dg },
  { ...MARK, pattern: /\bFA(?=[0-9A-Z]*\d)[0-9A-Z]{8}\b/dg },
  // Aircraft by the common form of civil aviation, and stations of amateurs, where the text says that it is one.
  {
    ...MARK,
    pattern: new RegExp(
      String.raw`${REGISTERED}${SAID}["“]?(?<it>[A-Z0-9]{1,2}-[A-Z]{3,4}|N[1-9]\d{0,4}[A-Z]{0,2}|[A-Z]{1,2}\d[A-Z]{1,4}|[A-Z]{3,4}-\d{3,})\b`,
      "dg",
    ),
  },
  {
    ...MARK,
    pattern: new RegExp(
      String.raw`${REGISTERED}${SAID}["“]?(?<it>(?=[\w-]*\d)[A-Za-z0-9]+(?:-[A-Za-z0-9]+)+|(?=[A-Za-z]*\d)[A-Za-z0-9]{6,})\b`,
      "dg",
    ),
    holds: hasDigits(3),
  },
  {
    ...MARK,
    pattern:
      /\b(?:licen[cs]e|insurance|policy|member(?:ship)?|pilot|operator|club|versicherung)(?: (?:policy|no\.?|number|id|ID|nr\.?|#))+[ \t]*[:=#]?[ \t]*(?<it>(?=[\w/-]*\d)[A-Za-z0-9]+(?:[-/][A-Za-z0-9]+)*)/dgi,
    holds: hasDigits(4),
  },
  { ...SERIAL, pattern: /\b[0-9A-F]{2}(?:([:-])[0-9A-F]{2})(?:\1[0-9A-F]{2}){4,6}\b/dgi },
  { ...SERIAL, pattern: /\b[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}\b/dgi },
  {
    ...SERIAL,
    pattern:
      /\b(?:serial(?:[ -]?(?:number|no\.?|nr\.?|#))?|s\/n|sn|seriennummer|imei)[ \t]*[:=#]?[ \t]*(?<it>(?=[\w-]*\d)[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*)\b(?![ \t]*(?:baud|kbit|bit|ms|us|Hz|dB)\b)/dgi,
    holds: (it) => it.length >= 6 && hasDigits(4)(it),
  },
  // Secrets by the words before them.
  { ...SECRET, pattern: new RegExp(String.raw`\bssid${SAID}(?<it>"[^"]+"|[^\s,;]{3,})`, "dgi"), holds: isNoPlainWord },
  {
    ...SECRET,
    pattern: new RegExp(
      String.raw`\b(?:pass(?:word|phrase|code|wort|wd)|kennwort|(?:pair(?:ing)?|bind(?:ing)?)[ -](?:phrase|secret|code|key)|(?:wifi|wi-fi|wlan|api|network)[ -]key)${SAID}(?<it>"[^"]+"|“[^”]+”|[^\s,;]{4,})`,
      "dgi",
    ),
    holds: isSecret,
  },
  {
    ...SECRET,
    pattern: new RegExp(
      String.raw`\b(?:pass(?:word|phrase|code|wort)|kennwort|(?:pair(?:ing)?|bind(?:ing)?)[ -](?:phrase|secret))${STATED}(?<it>(?!(?:on|in|set|kept|said|left|off|not|the|my|at|under|with)\b)\S[^,;.\n]{3,}?)(?=[ \t]*(?:[,;.]|$))`,
      "dgi",
    ),
    holds: (it, text) => /[:=]/.test(text) || /(?:phrase|secret)[ \t]+is[ \t]+$/i.test(text.slice(0, text.indexOf(it))),
  },
  {
    ...SECRET,
    pattern: new RegExp(String.raw`\b(?:key|token|secret|auth)${STATED}(?<it>"[^"]+"|[^\s,;]{8,})`, "dgi"),
    holds: (it) => /\d/.test(it) && /[A-Za-z]/.test(it),
  },
  { ...SECRET, pattern: /\b(?:PIN|pin code|PIN code)[ \t]*(?:[:=]|is\b)?[ \t]*(?<it>\d{4,8})\b/dg },
  {
    ...SECRET,
    pattern:
      /\b(?:uid|bind(?:ing)? (?:uid|id)|bind)\b[ \t]*(?:[:=]|is\b)?[ \t]*(?<it>\d{1,3}(?:[ ,]+\d{1,3}){3,7})\b/dgi,
  },
  {
    ...SECRET,
    pattern: /\b(?:wi-?fi|wlan|hotspot|network)[ \t]*[:=][ \t]*(?<it>[^\s,;/]{3,}(?: ?\/ ?\S{4,})?)/dgi,
    holds: (it) => !NO_NETWORK.test(it),
  },
  {
    ...SECRET,
    pattern: /\b(?:pw|pwd)\b[ \t]*(?:[:=]|is\b)?[ \t]*(?<it>"[^"]+"|[^\s,;]{4,})/dgi,
    holds: (it, text) => isSecret(it) || /\bpwd?[ \t]*[:=]/i.test(text),
  },
  { ...SECRET, pattern: /\blogin\b[ \t]*[:=]?[ \t]*(?<it>\S{2,} ?\/ ?\S{4,})/dgi },
  {
    what: "account",
    like: "the number of a bank account",
    pattern: /\b[A-Z]{2}\d{2}(?: ?[A-Z0-9]{4}){3,7}(?: ?[A-Z0-9]{1,3})?\b/dg,
    holds: isAccount,
  },
  // By their form: long, and of digits and letters without a word in them.
  { ...SECRET, pattern: /\b(?:0x)?(?=[0-9a-f]*\d)(?=[0-9a-f]*[a-f])[0-9a-f]{16,}\b/dgi, holds: isNoChecksum },
  {
    ...SECRET,
    pattern: /(?<![\w+/=-])(?=[\w+/-]*\d)(?=[\w+/-]*[a-z])(?=[\w+/-]*[A-Z])[A-Za-z0-9+/_-]{22,}={0,2}(?![\w+/])/dg,
    holds: isNoPath,
  },
];

function hasDigits(least: number): (it: string) => boolean {
  return (it) => it.replace(/\D/g, "").length >= least;
}

/** In quotes, or with a digit or a capital inside: plain words go on with the sentence. */
function isSecret(it: string): boolean {
  return /^["“]/.test(it) || /\d/.test(it) || /[a-z][A-Z]/.test(it);
}

function isNoPlainWord(it: string): boolean {
  return isSecret(it) || /[A-Z]/.test(it);
}

/** A sum over published text is no secret, and neither is the number of a revision. */
function isNoChecksum(it: string, text: string): boolean {
  const before = text.slice(0, text.indexOf(it)).slice(-32);
  const last =
    /\b(?:commit|revision|sha-?\d*|md5|crc|hash|checksum|digest|key|secret|token)\b(?!.*\b(?:commit|revision|sha-?\d*|md5|crc|hash|checksum|digest|key|secret|token)\b)/i.exec(
      before,
    );
  return last === null || /key|secret|token/i.test(last[0]);
}

/** By the check digits of ISO 13616: the number with its head moved to the end leaves 1 on division by 97. */
function isAccount(it: string): boolean {
  const plain = it.replaceAll(" ", "");
  const digits = [...(plain.slice(4) + plain.slice(0, 4))].map((each) => Number.parseInt(each, 36)).join("");
  return [...digits].reduce((rest, digit) => (rest * 10 + Number(digit)) % 97, 0) === 1;
}

/** Random text changes between digits, small and capital letters over and over; paths and part numbers do so rarely. */
function isNoPath(it: string): boolean {
  const kinds = [...it].map((each) => (/\d/.test(each) ? 0 : /[a-z]/.test(each) ? 1 : /[A-Z]/.test(each) ? 2 : 3));
  const changes = kinds.filter((kind, at) => at > 0 && kind !== kinds[at - 1]).length;
  return changes >= it.length / 4 && (it.match(/[/_-]/g) ?? []).length <= it.length / 8;
}
