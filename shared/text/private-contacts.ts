/** Forms of links, paths, e-mail addresses, phone numbers and names that lead to a person. */
import type { PrivatePattern } from "./private-pattern.ts";

const LINK = { what: "link", like: "a link" };
const MAIL = { what: "e-mail address", like: "an e-mail address" };
const PHONE = { what: "phone number", like: "a phone number" };
const PATH = { what: "path", like: "a path with the name of a user" };
const HANDLE = { what: "user name", like: "the user name of a person" };
const NAME = { what: "name", like: "the name of a person" };

/** A name of one or more words with a capital; a letter of any language. */
const PERSON = String.raw`\p{Lu}[\p{L}'’-]+(?: (?:von |van |de |da )?\p{Lu}[\p{L}'’-]+)*`;
const FULL_NAME = String.raw`\p{Lu}\p{Ll}[\p{L}'’-]*(?: (?:von |van |de |da )?\p{Lu}\p{Ll}[\p{L}'’-]*)+`;
const SAID = String.raw`[ \t]*(?::|=|-|is\b|ist\b)?[ \t]*`;

export const linkPatterns: readonly PrivatePattern[] = [
  { ...PATH, pattern: /\bfile:\/\/\S+/dgi },
  { ...MAIL, pattern: /\bmailto:\S+/dgi },
  { ...LINK, pattern: /\b(?!geo:)[a-z][a-z0-9+.-]*:\/\/[^\s"'<>“”]+[^\s"'<>“”.,;:!?)]/dgi },
  { ...LINK, pattern: /\bwww\.[^\s"'<>“”]+[^\s"'<>“”.,;:!?)]/dgi },
  { ...MAIL, pattern: /[\p{L}\d._%+-]+@[\p{L}\d-]+(?:\.[\p{L}\d-]+)*\.\p{L}{2,}/dgu },
  {
    ...MAIL,
    pattern: /[\w.+-]+ ?[[({] ?(?:at|AT) ?[\])}] ?[\w-]+(?:(?: ?[[({] ?(?:dot|DOT|punkt) ?[\])}] ?|\.)[\w-]+)+/dg,
  },
  { ...PATH, pattern: /\b[A-Za-z]:(?:[\\/][^\s"\\/]+)+/dg },
  { ...PATH, pattern: /(?<![\w\\])\\\\[\w.$-]+(?:\\[^\s"\\]+)+/dg },
  {
    ...PATH,
    pattern:
      /(?<![\w.:/])\/(?:home|Users|users|root|media|mnt|run\/media|Volumes|private|var|tmp|opt|srv)\/[^\s/"]+(?:\/[^\s"]*[^\s".,;:!?)])?/dg,
  },
  { ...PATH, pattern: /(?<![\w~])~[a-z][a-z0-9_-]*\/[^\s"]*[^\s".,;:!?)]/dg },
  { ...PATH, pattern: /(?<![\w~])~\/[^\s"]*[^\s".,;:!?)]/dg },
  { ...HANDLE, pattern: /(?<![\w@.])@(?=\w*[\d_])[A-Za-z][\w.]{3,}\b(?! ?\d)/dg },
  {
    ...HANDLE,
    pattern:
      /\b(?:find|follow|message|write to|contact|chat|dm|user(?:name)?|nick(?:name)?|handle|I am|me (?:on|as|at))\b[^@\n]{0,20}(?<it>@[A-Za-z][\w.]{2,})/dgi,
  },
];

export const peoplePatterns: readonly PrivatePattern[] = [
  { ...PHONE, pattern: /(?<![\d.])(?:\+|00 ?)[1-9]\d{0,2}(?:[ ./-]?\(?\d+\)?){1,6}(?![\d.]*\d)/dg, holds: isAbroad },
  {
    ...PHONE,
    pattern:
      /\b(?:tel(?:efon|ephone)?|t[ée]l(?:[ée]phone)?|tel[ée]fono|m[óo]vil|whatsapp|phone|mobile|handy|ring|call|sms|text|ruf|fax)\b[^\d+\n]{0,24}(?<it>\(?\d[\d ()./-]{5,}\d)/dgi,
    holds: (it) => digitsIn(it) >= 7 && digitsIn(it) <= 15 && !isDate(it),
  },
  { ...PHONE, pattern: /(?<![\w.,])\(?0[1-9]\d{1,4}\)?[ /-]\d{3,}(?:[ -]?\d{2,})*(?![\w.,]*\d)/dg, holds: isNational },
  { ...PHONE, pattern: /(?<![\w.,-])0[1-9]\d{8,10}\b(?![.-]\d)/dg },
  // In pairs, as France writes it, and in groups with points.
  { ...PHONE, pattern: /(?<![\w.,-])0[1-9](?:[ .-]\d\d){4}\b(?![.,-]?\d| \d)/dg, holds: isNoCount },
  { ...PHONE, pattern: /(?<![\w.,-])0[1-9]\d{1,4}(?:\.\d{3,4}){2}\b(?![.-]\d)/dg, holds: isNational },
  { ...PHONE, pattern: /(?<![\w.,])\([2-9]\d\d\) ?\d{3}[ .-]\d{4}\b/dg },
  { ...PHONE, pattern: /(?<![\w.,-])[2-9]\d\d([.-])\d{3}\1\d{4}\b(?!-)/dg, holds: (it) => !/0{2}$/.test(it) },
  {
    ...NAME,
    pattern: new RegExp(
      String.raw`\b(?:[Oo]wner|OWNER|[Bb]esitzer(?:in)?|[Ee]igent[üu]mer(?:in)?|[Pp]ropri[ée]taire|[Pp]ilot(?:in)?|[Ff]lown by|[Pp]ilot's name|[Mm]y name)(?=[ \t]*(?::|=|is\b|ist\b)|[ \t])${SAID}["“]?(?<it>${PERSON})`,
      "dgu",
    ),
    holds: (it, text) =>
      /(?:[:=]|\bis\b|\bist\b|name|["“])[ \t]*$/.test(text.slice(0, text.indexOf(it))) && !isNoName(it),
  },
  {
    ...NAME,
    pattern: new RegExp(
      String.raw`\b(?:[Pp]roperty of|[Bb]elongs to|[Gg]eh[öo]rt|[Rr]eturn (?:it )?to|[Bb]elonging to|[Ii] am|[Ii]ch bin|[Cc]ontact)[ \t]+(?<it>${PERSON})`,
      "dgu",
    ),
    holds: (it) => !isNoName(it),
  },
  {
    ...NAME,
    pattern: new RegExp(
      String.raw`\b(?:(?:[Tt]uned|[Bb]uilt|[Ff]lown|[Mm]ade|[Ww]ritten|[Pp]rinted|[Ss]oldered|[Ss]et up|[Rr]epaired) by|(?:[Bb]orrowed|[Bb]ought|[Gg]ot it|[Ll]ent) (?:from|to|by)|[Aa]sk|[Cc]all|[Ww]rite to|[Tt]hanks to|[Cc]raft of|[Gg]ebaut von)[ \t]+(?<it>${FULL_NAME})`,
      "dgu",
    ),
    holds: (it) => !isNoName(it),
  },
];

function digitsIn(text: string): number {
  return text.replace(/\D/g, "").length;
}

/** A number with its country: eight digits or more, and no signed quantity. */
function isAbroad(it: string): boolean {
  const digits = digitsIn(it);
  return digits >= 9 && digits <= 16 && !isDate(it) && !/\.\d+[^\d].*\./.test(it);
}

/** One within a country, from its leading nought: nine to twelve digits. */
function isNational(it: string): boolean {
  const digits = digitsIn(it);
  return digits >= 9 && digits <= 12 && !isDate(it);
}

/** Pairs that rise by one each are counted, and no number that one could call. */
function isNoCount(it: string): boolean {
  const pairs = it.split(/[ .-]/).map(Number);
  return pairs.some((pair, at) => at > 0 && pair - pairs[at - 1]! !== 1) && !isDate(it);
}

function isDate(it: string): boolean {
  return /^(?:(?:19|20)\d\d[-./ ]\d{1,2}[-./ ]\d{1,2}|\d{1,2}[-./ ]\d{1,2}[-./ ](?:19|20)\d\d)/.test(it.trim());
}

/** Words with a capital that name no person. */
const NO_NAMES =
  /^(?:The|This|That|It|Its|Mode|Home|Level|Port|Band|Board|Club|Group|Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday|January|February|March|April|May|June|July|August|September|October|November|December|I|My|Me|See|Not|Red|Green|Blue|[A-Z]+\d*)$/;

function isNoName(it: string): boolean {
  return it.split(" ").every((word) => NO_NAMES.test(word));
}
