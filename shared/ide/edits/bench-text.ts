/**
 * A reading as it is jotted down on the bench, such as `988 2012` or `16,8`: read as the script has it where that is
 * certain. What could be meant in two ways is not read, and it is said how to write it.
 */
import type { QuantityType, SettingSpec, SimpleType } from "../../catalogue/specs.ts";
import { unitFamily, unitSymbol } from "../../catalogue/units.ts";
import { beyondLimits } from "../../model/limits.ts";
import { readSetting } from "../../model/read-value.ts";
import { units } from "../../model/units.ts";
import { printValue } from "../../syntax/print-value.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Value } from "../../syntax/value.ts";
import { joinWithOr } from "../../text/list.ts";

export type BenchText =
  /** The value of the setting, or of one field of it with its name, and its canonical spelling without that name. */
  | { readonly kind: "value"; readonly value: Value; readonly text: string }
  | { readonly kind: "unclear"; readonly message: string };

/** Forms of letters and blanks that mean the plain ones; of others, such as a raised 2, that is not certain. */
const OTHER_FORMS = /[\uFF01-\uFF5E\u00A0\u2002-\u200A\u202F\u3000\u2026\u2103]/g;

/** Longer is no reading. */
const MOST_CHARACTERS = 200;

/** Reads what was typed as the value of a setting or, with `field`, of that field. Never throws. */
export function readBenchText(spec: SettingSpec, field: string | null, typed: string): BenchText {
  const reader = readerOf(spec, field);
  const plain = typed.replaceAll(OTHER_FORMS, (each) => each.normalize("NFKC")).replaceAll(/\p{Cf}/gu, "");
  const text = plain.trim().replaceAll(/\s+/gu, " ");
  if (text === "") return unclear(`Nothing is written here. ${reader.form}`);
  if (text.length > MOST_CHARACTERS) return unclear(`That is too long for a reading. ${reader.form}`);
  const isText = reader.types.some((type) => type.is === "text");
  if ((isText ? /[\p{Cc}\p{Zl}\p{Zp}]/u : /[\p{Cc}#]/u).test(typed.trim().replaceAll("\t", " ")))
    return unclear(
      `${isText ? "This is a text on one line." : "A reading is one figure or two on one line, without a comment."} ${reader.form}`,
    );
  const exact = reader.read(text);
  if (exact.kind === "value" || exact.isRead) return withForm(exact, reader);
  const candidates = reader.types.flatMap((type) => looselyRead(type, text, reader));
  const [first, ...others] = [...new Map(candidates.map((each) => [each.text, each])).values()];
  if (!first) return unclear(whyNot(reader, text, exact.message));
  if (others.length === 0) return first;
  const ways = [first, ...others].map(({ text }) => `“${text}”`);
  return unclear(`“${text}” can be meant as ${joinWithOr(ways)}: write the one that you read.`);
}

/** How one setting, or one field of it, is read. */
interface Reader {
  readonly types: readonly SimpleType[];
  /** How it is written, as a sentence. */
  readonly form: string;
  /** As the language reads it; `isRead` where only a limit speaks against it. */
  read(text: string): Extract<BenchText, { kind: "value" }> | { kind: "unclear"; isRead: boolean; message: string };
}

function readerOf(spec: SettingSpec, field: string | null): Reader {
  const types = spec.types.flatMap((type): readonly SimpleType[] => {
    if (type.is !== "fields") return field === null ? [type] : [];
    return type.fields.find(({ name }) => name === field)?.types ?? [];
  });
  const before = field === null ? "" : `${field} `;
  const example = exampleOf(spec, field);
  return {
    types,
    form: example === null ? "" : `Write it as in “${example}”.`,
    read(text) {
      const line = before + text;
      const { value, fault } = readSetting(line, { start: 0, end: line.length }, spec, units);
      if (!value) return { kind: "unclear", isRead: false, message: fault?.message ?? "" };
      if (field !== null && (value.kind !== "fields" || value.fields.length !== 1))
        return { kind: "unclear", isRead: false, message: "" };
      const [issue] = beyondLimits(value, spec);
      if (issue) return { kind: "unclear", isRead: true, message: issue.message };
      const only = value.kind === "fields" && field !== null ? value.fields[0]!.value : value;
      return { kind: "value", value, text: printValue(only) };
    },
  };
}

/** How a reading is written, such as `988 us to 2012 us`, by the catalogue's example; null where it has none. */
export function exampleOf(spec: SettingSpec, field: string | null): string | null {
  const { example } = spec;
  if (example === undefined || field === null) return example ?? null;
  const { value } = readSetting(example, { start: 0, end: example.length }, spec, units);
  const shown = value?.kind === "fields" ? (value.fields.find(({ name }) => name === field) ?? value.fields[0]) : null;
  return shown ? printValue(shown.value) : null;
}

function withForm(read: ReturnType<Reader["read"]>, { form }: Reader): BenchText {
  return read.kind === "value" ? read : unclear(`${read.message} ${form}`.trim());
}

function unclear(message: string): BenchText {
  return { kind: "unclear", message: message.trim() };
}

type Found = Extract<BenchText, { kind: "value" }>;

/** Every way in which a text can be meant, within the limits. */
function looselyRead(type: SimpleType, text: string, reader: Reader): Found[] {
  const ways =
    type.is === "quantity"
      ? waysOfOne(text, type)
      : type.is === "range"
        ? waysOfTwo(text, type.of)
        : type.is === "date"
          ? waysOfDay(text)
          : type.is === "text"
            ? waysOfText(text)
            : [];
  return ways.flatMap((way) => {
    const read = reader.read(way);
    return read.kind === "value" ? [read] : [];
  });
}

/** The words with which people set off the two ends of a stick; which end is which shows in the figures. */
const END_WORDS =
  /(?<![\p{L}])(?:from|min|max|low|high|lowest|highest|left|right|back|forwards?|up|down)(?![\p{L}])[:=]?/giu;
const BETWEEN = /\s*(?:\bto\b|\band\b|\.{2,}|…|→|[-–—−~;|/,])\s*|\s+/gu;

/** Two figures, the lower one first: of a stick's ends only their order is certain, however they were jotted down. */
function waysOfTwo(text: string, type: QuantityType): string[] {
  const bare = text.replaceAll(END_WORDS, " ").trim().replaceAll(/\s+/g, " ");
  return [...bare.matchAll(BETWEEN)].flatMap(({ 0: between, index }) => {
    const [left, right] = [bare.slice(0, index), bare.slice(index + between.length)];
    const second = partsOf(right, type);
    const first = partsOf(left, type, second?.unit);
    if (!first || !second) return [];
    return first.numbers.flatMap((from) =>
      second.numbers.flatMap((to) => {
        const low = sizeIn(from, first.unit, type);
        const high = sizeIn(to, second.unit, type);
        if (low === high) return [];
        const [a, b] = [`${from} ${first.unit}`, `${to} ${second.unit}`];
        return low < high ? [`${a} to ${b}`] : [`${b} to ${a}`];
      }),
    );
  });
}

function sizeIn(number: string, unit: string, type: QuantityType): number {
  return units.convert(Number(number), unit, type.unit) ?? Number.NaN;
}

function waysOfOne(text: string, type: QuantityType): string[] {
  const parts = partsOf(text, type);
  return (parts?.numbers ?? []).map((number) => `${number} ${parts!.unit}`);
}

interface Parts {
  /** What the digits may mean, as the language writes numbers. */
  readonly numbers: readonly string[];
  readonly unit: string;
}

/** Of these nothing smaller is read on a bench: a fraction of one means another unit. */
const WHOLE: ReadonlySet<string> = new Set(["us", "mAh"]);

/** A number and its unit: without one the setting's own is meant, or `unit`. Null where it is none, or of another family. */
function partsOf(text: string, type: QuantityType, unit = type.unit): Parts | null {
  const match = /^([+-]?)(\d[\d.,'’ ]*|[.,]\d+)\s*(\D*)$/u.exec(text);
  if (!match) return null;
  const [, sign = "", digits = "", spelled = ""] = match;
  const symbol = spelled === "" ? unit : unitNear(spelled.trim(), type);
  if (symbol === null) return null;
  const meant = numbersIn(digits.trim()).map((number) => (sign === "-" ? `-${number}` : number));
  const numbers = spelled === "" && WHOLE.has(symbol) ? meant.filter((each) => Number.isInteger(Number(each))) : meant;
  return { numbers, unit: symbol };
}

/** What digits with commas, points and gaps may mean: a gap or a mark before three digits may set off thousands. */
function numbersIn(digits: string): string[] {
  if (/^\d+$/.test(digits)) return [digits];
  const found = new Set<string>();
  const decimal = /^(\d*)[.,](\d+)$/.exec(digits);
  if (decimal) found.add(`${decimal[1] || "0"}.${decimal[2]}`);
  const grouped = /^([1-9]\d{0,2}(?:([.,'’ ])\d{3})(?:\2\d{3})*)(?:[.,](\d+))?$/.exec(digits);
  if (grouped && !(grouped[3] !== undefined && digits.at(grouped[1]!.length) === grouped[2])) {
    const whole = grouped[1]!.replaceAll(/\D/g, "");
    found.add(grouped[3] === undefined ? whole : `${whole}.${grouped[3]}`);
  }
  return [...found];
}

/** Spellings that are none of the language's, by the symbol that they mean where that is of the setting's family. */
const SPELLINGS: Readonly<Record<string, string>> = {
  volt: "V",
  volts: "V",
  amp: "A",
  amps: "A",
  ampere: "A",
  amperes: "A",
  usec: "us",
  microseconds: "us",
  "°c": "degC",
  "° c": "degC",
  c: "degC",
  celsius: "degC",
  grams: "g",
  gram: "g",
  percent: "%",
};

/** The unit of the setting's family that a spelling means, whatever its letters' case; null where there is none. */
function unitNear(spelled: string, type: QuantityType): string | null {
  const symbols = unitFamily(type.unit)?.units.map(({ symbol }) => symbol) ?? [];
  const own = unitSymbol(spelled);
  if (own !== undefined && symbols.includes(own)) return own;
  const lower = spelled.toLowerCase().replace(/\.$/, "").replaceAll(/[μµ]/g, "u");
  const named = SPELLINGS[lower];
  if (named !== undefined) return symbols.includes(named) ? named : null;
  const near = symbols.filter((symbol) => symbol.toLowerCase() === lower);
  return near.length === 1 ? near[0]! : null;
}

/** The year first, or days and months with points between: in any other order it is not known which is which. */
function waysOfDay(text: string): string[] {
  const [, year, month, day] = /^(\d{4})[-./ ](\d{1,2})[-./ ](\d{1,2})$/.exec(text) ?? [];
  const [, day2, month2, year2] = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$/.exec(text) ?? [];
  const found = year ? [year, month!, day!] : year2 ? [year2, month2!, day2!] : null;
  return found ? [`${found[0]}-${found[1]!.padStart(2, "0")}-${found[2]!.padStart(2, "0")}`] : [];
}

/** Words as they are, with the quotes that nobody types; a quote within them may be the one that was forgotten. */
function waysOfText(text: string): string[] {
  const words = /^[“„«‘](.*)[”“»’]$/u.exec(text)?.[1]?.trim() ?? text;
  return words === "" || words.includes('"') ? [] : [quote(words)];
}

/** Why nothing could be made of a text. */
function whyNot({ types, form }: Reader, text: string, fault: string): string {
  const [type] = types;
  const ofUnit = type?.is === "quantity" ? type : type?.is === "range" ? type.of : null;
  if (type?.is === "range" && [...text.matchAll(/\d[\d.,']*/g)].length < 2)
    return `Two figures are needed here, one for each end, and “${text}” has not both. ${form}`;
  if (ofUnit && /\d/.test(text)) {
    const within = limitsInWords(ofUnit);
    return `“${text}” cannot be read as a figure in ${ofUnit.unit}${within}. ${form}`;
  }
  return `${fault === "" ? `“${text}” cannot be read here.` : fault} ${form}`;
}

function limitsInWords({ min, max, unit }: QuantityType): string {
  return min && max ? ` between ${min.at} and ${max.at} ${unit}` : "";
}
