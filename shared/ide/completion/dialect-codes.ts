/** Completion in the section `codes` of a dialect. */

import type { SettingSpec, ValueType } from "../../catalogue/specs.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import type { Code } from "../../dialect/dialect.ts";
import { settingsMeant, usesOfCode } from "../dialect-files/code-uses.ts";
import { CODE_OPTIONS, CODE_WORDS } from "../dialect-files/words.ts";
import { type Offer, unitOffer } from "./completion-item.ts";
import { dialectAt, type InDialect, wordOffer } from "./dialect-context.ts";

/** Names, then kinds, then what a kind says; our words where a code has them. */
export function offerCode(at: InDialect): Offer[] {
  const { before, fact } = at;
  if (/^\s+[a-z0-9-]*$/.test(before)) return offerNames(at);
  if (/^\s+\S+\s+[a-z]*$/.test(before)) return CODE_WORDS.map((word) => wordOffer(word));
  const kind = CODE_WORDS.find(({ word }) => word === /^\s+\S+\s+([a-z]+)\s/.exec(before)?.[1])?.word;
  if (!kind || !fact) return [];
  if (kind === "words" || kind === "letters") return isOurs(before) ? offerOurs(at) : [];
  if (kind === "set" && /\d\s+[a-z0-9-]*$/.test(before)) return offerOurs(at).filter(({ label }) => label !== "unset");
  if (kind === "bits" && /:[a-z0-9-]*$/.test(before)) return offerCodeNames(at);
  if (kind === "list" && /\slist\s+[a-z0-9-]*$/.test(before)) return offerCodeNames(at);
  return offerOptions(kind, before);
}

/** Words, letters and sets go on in another line of their name. */
function offerNames(at: InDialect): Offer[] {
  const codes = [...(dialectAt(at)?.codes.values() ?? [])].filter(({ lines }) => !lines.includes(at.cursor.line));
  const further = codes.filter(({ kind }) => kind === "words" || kind === "letters" || kind === "set");
  return [
    ...CODE_WORDS.map(
      ({ word, what, more, text }): Offer => ({
        label: `NAME ${word}`,
        kind: "snippet",
        detail: what,
        words: [word],
        text: `\${9:${NAMES[word]}} ${word} ${text}`,
        snippet: true,
        group: 1,
        doc: { of: "text", text: more },
      }),
    ),
    ...further.map(
      ({ name, kind }): Offer => ({
        label: name,
        kind: "code",
        detail: `another line of it, ${kind}`,
        text: `${name} ${kind} `,
        group: 2,
      }),
    ),
  ];
}

const NAMES: Readonly<Record<Code["kind"], string>> = {
  number: "volts",
  words: "axis",
  letters: "order",
  list: "several",
  bits: "packed",
  set: "flags",
  text: "label",
};

function offerCodeNames(at: InDialect): Offer[] {
  const own = /^\s+(\S+)/.exec(at.before)?.[1];
  return [...(dialectAt(at)?.codes.values() ?? [])]
    .filter(({ name }) => name !== own)
    .map(({ name, kind }): Offer => ({ label: name, kind: "code", detail: kind, group: 1 }));
}

/** Whether the board's word stands before: then ours follows. */
function isOurs(before: string): boolean {
  const behind = /^\s+\S+\s+\S+\s+(.*)$/s.exec(before)?.[1] ?? "";
  const item = behind
    .replace(/"(?:[^"\\]|\\.)*"|'[^']*'/g, "x")
    .split(",")
    .at(-1)!
    .trimStart();
  return /^\S+\s+[A-Za-z0-9-]*$/.test(item);
}

/** What our words may be: by what the slots of this code stand for; without any, every mode and element. */
function offerOurs(at: InDialect): Offer[] {
  const dialect = dialectAt(at);
  const { catalogue } = at.workspace;
  const name = /^\s+(\S+)/.exec(at.before)?.[1] ?? "";
  const uses = dialect ? usesOfCode(dialect, name) : [];
  const offers = uses.flatMap(({ meaning, as }) => {
    const settings = settingsMeant(meaning, catalogue);
    return as === "name"
      ? namesOf(at, meaning.section, settings)
      : settings.flatMap(({ types }) => types.flatMap(choicesOf));
  });
  if (uses.length === 0)
    for (const section of ["modes", "osd"]) offers.push(...namesOf(at, section, catalogue.settingsOf(section)));
  offers.push({ label: "unset", kind: "keyword", detail: "nothing is set", group: 4 });
  const code = dialect?.codes.get(name);
  const before =
    code?.kind === "words" || code?.kind === "letters" ? code.words.map(({ ours }) => ours ?? "unset") : [];
  const said = new Set([...at.before.split(/[\s,]+/), ...before]);
  const once = new Map(offers.toReversed().map((offer) => [offer.label, offer]));
  return [...once.values()].toReversed().filter(({ label }) => !said.has(label));
}

/** The names of a section: modes, elements, and of its settings these. */
function namesOf({ workspace: { catalogue } }: InDialect, section: string, settings: readonly SettingSpec[]): Offer[] {
  const spec = catalogue.section(section);
  const offer =
    (kind: Offer["kind"]) =>
    ({ name, what, words }: { name: string; what: string; words?: readonly string[] }): Offer => ({
      label: name,
      kind,
      detail: what,
      words: words ?? [],
      group: 1,
      doc: { of: "name", section, name },
    });
  if (spec?.holds === "modes") return catalogue.modes.map(offer("mode"));
  const elements = spec?.holds === "places" ? catalogue.elements.map(offer("element")) : [];
  return [...elements, ...settings.map(offer("setting"))];
}

/** The words that a value of this type may be. */
export function choicesOf(type: ValueType): Offer[] {
  switch (type.is) {
    case "fields":
      return type.fields.flatMap((field) => field.types.flatMap(choicesOf));
    case "choice":
      return type.choices.map(({ word, what }): Offer => ({ label: word, kind: "choice", detail: what, group: 1 }));
    case "yes-no":
      return ["yes", "no"].map((label): Offer => ({ label, kind: "choice", group: 1 }));
    case "order":
      return type.words.map((label): Offer => ({ label, kind: "choice", group: 1 }));
    case "list":
      return choicesOf(type.of);
    default:
      return [];
  }
}

const AMOUNT = /(?:each|from|into)\s+-?\d+(?:\.\d+)?\s*[A-Za-z/%µ]*$/;

function offerOptions(kind: Code["kind"], before: string): Offer[] {
  const options = CODE_OPTIONS[kind] ?? [];
  const units = kind === "number" && AMOUNT.test(before) ? UNITS.filter((unit) => unitSymbol(unit) !== undefined) : [];
  const said = new Set(before.split(/\s+/));
  // A number, or its end, is still to be written.
  if (/(?:each|from|into|places|unset|base|digits|to|longest|within|escape|by)\s+$/.test(before)) return [];
  return [
    ...units.map((unit) => unitOffer(unit, 0)),
    ...options.filter(({ word }) => !said.has(word) || word === "is" || word === "or").map((word) => wordOffer(word)),
  ];
}

/** Units in which boards keep values, the likeliest first. */
const UNITS = "V V/cell mV A mA us ms s % deg deg/s Hz kHz mAh mW m cm degC kohm mohm m/s".split(" ");
