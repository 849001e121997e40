/** Takes out of notes and texts what looks private, and what is said by the private settings of this very craft. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { privateEntries } from "../../rules/lib/private-lines.ts";
import { privateParts, SHORT_STAND_IN, standIn, withoutParts } from "../../text/private-text.ts";

/** A text without its private parts, and what they were, in order. */
export interface Redacted {
  readonly text: string;
  /** As in “an e-mail address”. */
  readonly took: readonly string[];
}

export interface Redactor {
  /** Of a note: words stand for what is taken out. */
  note(text: string): Redacted;
  /** Of a text in quotes, which must not grow. */
  quoted(text: string): Redacted;
  /** Whether a name of the script, such as that of an output, says what a private setting says. */
  gives(name: string): boolean;
}

/** What a private setting says, wherever else it is said. */
interface KnownPart {
  readonly pattern: RegExp;
  readonly what: string;
  readonly like: string;
}

/** Knows the private settings of every file of the craft, also those that a later file replaced. */
export function redactorOf(craft: Craft, catalogue: Catalogue): Redactor {
  const known = craft.scripts.flatMap((script) =>
    privateEntries(script, catalogue).flatMap(({ section, name, value, text }) =>
      knownParts(value?.kind === "text" ? value.text : text.replace(/^"|"$/g, ""), name, section, catalogue),
    ),
  );
  const redact = (text: string, instead: (what: string) => string): Redacted => {
    const said = known.flatMap(({ pattern, what, like }) =>
      [...text.matchAll(pattern)].map(({ index, 0: { length } }) => ({
        start: index,
        end: index + length,
        what,
        like,
      })),
    );
    const parts = apart([...said, ...privateParts(text)]);
    return { text: withoutParts(text, parts, ({ what }) => instead(what)), took: parts.map(({ like }) => like) };
  };
  return {
    note: (text) => redact(text, standIn),
    quoted: (text) => redact(text, () => SHORT_STAND_IN),
    gives: (name) => known.some(({ pattern }) => name.search(pattern) >= 0),
  };
}

/** Shorter ones are words of every language: they are looked for only as a whole. */
const SHORTEST = 3;

/** The whole value and, of a person's, each word of it that may be a name. */
function knownParts(value: string, name: string, section: string, catalogue: Catalogue): KnownPart[] {
  const kind = catalogue.setting(section.split("/")[0]!, name)?.private?.kind ?? "secret";
  const what = name.replaceAll("-", " ");
  const like = `the ${what} of this craft`;
  const text = value.trim();
  if (text.length < 2) return [];
  const whole = { pattern: wordPattern(text, kind === "secret" || text.length > SHORTEST ? "giu" : "gu"), what, like };
  if (kind !== "person") return [whole];
  const names = (text.match(/\p{Lu}[\p{L}'’-]{2,}/gu) ?? []).filter((word) => !NO_NAMES.test(word) && word !== text);
  return [whole, ...names.map((word) => ({ pattern: wordPattern(word, "gu"), what, like }))];
}

/** Words with a capital that stand in what an owner writes and name nobody. */
const NO_NAMES =
  /^(?:The|If|When|Please|Call|Phone|Found|Return|Reward|Owner|Property|Pilot|Name|Tel|Mail|Email|Club|Shed|House|Thank|Thanks|And|For|From|Mr|Mrs|Ms|Dr)$/;

function wordPattern(text: string, flags: string): RegExp {
  const plain = text.replace(/[\\^$.*+?()[\]{}|/]/g, String.raw`\$&`).replace(/\s+/g, String.raw`\s+`);
  const before = /^[\p{L}\d]/u.test(text) ? String.raw`(?<![\p{L}\d])` : "";
  const after = /[\p{L}\d]$/u.test(text) ? String.raw`(?![\p{L}\d])` : "";
  return new RegExp(before + plain + after, flags);
}

interface Cols {
  readonly start: number;
  readonly end: number;
}

function overlap(a: Cols, b: Cols): boolean {
  return a.start < b.end && b.start < a.end;
}

/** In order, none over another: of two that overlap the longer stays. */
function apart<P extends Cols>(parts: readonly P[]): P[] {
  const kept: P[] = [];
  for (const part of parts.toSorted((a, b) => b.end - b.start - (a.end - a.start)))
    if (!kept.some((each) => overlap(each, part))) kept.push(part);
  return kept.sort((a, b) => a.start - b.start);
}
