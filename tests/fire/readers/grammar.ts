/**
 * Scripts made from the grammar and the catalogue: every production, every setting by its types, with numbers at and
 * beyond the limits, in any unit of their family, spelled as the grammar allows.
 */

import colourNames from "color-name";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { QuantityType, SectionSpec, SimpleType, ValueType } from "../../../shared/catalogue/specs.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { quote } from "../../../shared/syntax/scanner.ts";
import type { Random } from "../random.ts";
import { conditionText, controlText, placeText, positionText } from "./grammar-switches.ts";

export const catalogue = makeCatalogue();

const COLOURS = Object.keys(colourNames);
const CODES = rules.map(({ code }) => code);
const TEXTS = [
  "",
  "Jug",
  "Kiln 30",
  'a "quoted" word',
  "back\\slash",
  "#3, blue",
  "Töpferei",
  "\u{1F3FA} e\u0301",
  "\u202eabc",
  "<b>&amp;",
  "  blanks  ",
  "../x.fettle",
];
const PATHS = [
  "wheel.fettle",
  "base.fettle",
  "../layers/habits.fettle",
  "./x/../wheel.fettle",
  "jug.fettle",
  "/root.fettle",
  "nowhere.fettle",
  "a\\b.fettle",
  "../../../../x.fettle",
  "",
  "C:/x.fettle",
  "base.txt",
];

const symbols = new Map(
  catalogue.unitFamilies.flatMap((family) => {
    const all = family.units.flatMap(({ symbol, also = [] }) => [symbol, ...also]);
    return family.units.map(({ symbol }) => [symbol, all] as const);
  }),
);
const ALL_SYMBOLS = [...symbols.keys()];

export function textText(random: Random): string {
  return quote(random.oneOf(TEXTS));
}

/** A number of a setting: near a limit, usual, or of any size; with or without a point. */
function numberText(random: Random, type: { readonly min?: { at: number }; readonly max?: { at: number } }): string {
  const ends = [type.min?.at ?? 0, type.max?.at ?? 100];
  const kind = random.below(12);
  if (kind < 6) {
    const whole = random.between(
      Math.ceil(ends[0]!),
      Math.max(Math.ceil(ends[0]!), Math.min(1e9, Math.floor(ends[1]!))),
    );
    return random.onceIn(3) ? `${whole}.${random.below(100)}` : String(whole);
  }
  if (kind < 9) return String(random.oneOf(ends) + random.oneOf([-1, -0.001, 0, 0, 0.5, 1])).replace(/e.*/, "");
  return random.oneOf([
    "0",
    "-0",
    "0.0",
    "007",
    "1.50",
    "-1",
    "0.0000001",
    "9".repeat(25),
    "1.".concat("3".repeat(30)),
    "4294967296",
  ]);
}

function unitText(random: Random, unit: string): string {
  const kind = random.below(20);
  if (kind === 0) return random.oneOf(ALL_SYMBOLS);
  if (kind === 1) return "";
  return kind < 14 ? unit : random.oneOf(symbols.get(unit) ?? [unit]);
}

function quantityText(random: Random, type: QuantityType): string {
  const unit = unitText(random, type.unit);
  return numberText(random, type) + (unit === "" ? "" : random.oneOf([" ", " ", "", "  ", "\t"]) + unit);
}

function simpleText(random: Random, type: SimpleType): string {
  switch (type.is) {
    case "quantity":
      return quantityText(random, type);
    case "integer":
      return numberText(random, type);
    case "choice":
      return random.oneOf(type.choices).word;
    case "yes-no":
      return random.oneOf(["yes", "no", "yes", "no", "true", "on"]);
    case "text":
      return textText(random);
    case "date":
      return random.oneOf(["2026-04-18", "2024-02-29", "2025-02-29", "0000-00-00", "9999-12-31", "2026-4-1"]);
    case "order":
      return random.some(random.between(1, type.words.length), () => random.oneOf(type.words)).join(" ");
    case "range":
      return `${quantityText(random, type.of)}${random.oneOf([" to ", " to ", "  to\t"])}${quantityText(random, type.of)}`;
    case "size":
      return `${random.between(0, 70)}${random.oneOf([" x ", "x", " x"])}${random.oneOf([20, 16, 13, 0, 99_999])}`;
    case "cell":
      return placeText(random);
    case "colour":
      return random.onceIn(2) ? random.oneOf(COLOURS) : random.oneOf(['"#ff8800"', '"#FF8800"', '"#f80"', '"red"']);
    case "list": {
      const of: SimpleType = type.of;
      const count = random.between(Math.max(1, type.fewest - 1), Math.min(9, type.most + 1));
      return random.some(count, () => simpleText(random, of)).join(random.oneOf([", ", ",", " , "]));
    }
  }
}

/** A value of one of the types, in a spelling of its own. */
export function valueText(random: Random, types: readonly ValueType[]): string {
  const type = random.oneOf(types);
  if (type.is !== "fields") return simpleText(random, type);
  const fields = type.fields.filter(({ required }) => (required ? !random.onceIn(20) : random.onceIn(3)));
  const chosen = fields.length > 0 ? fields : [random.oneOf(type.fields)];
  return chosen
    .map(({ name, types }) => `${name} ${simpleText(random, random.oneOf(types))}`)
    .join(random.oneOf([" ", "  "]));
}

const MOVABLE = catalogue.sections.flatMap(({ settings }) => settings.filter(({ adjustable }) => adjustable));

/** The names that a section can hold. */
export function headIn(random: Random, spec: SectionSpec): string {
  switch (spec.holds) {
    case "modes":
      return random.oneOf(catalogue.modes).name;
    case "outputs":
      return random.oneOf(["lamp", "nose-light", "x", "drop-lamp"]);
    case "controls":
      return random.oneOf(["TL", "TR", "PB", "KN", "SX", "K1"]);
    case "follows":
      return random.oneOf(MOVABLE).name;
    case "kept":
      return "|";
    case "places":
      if (random.onceIn(2)) return random.oneOf(catalogue.elements).name;
  }
  const settings = catalogue.settingsOf(spec.name);
  return settings.length > 0 ? random.oneOf(settings).name : "x";
}

/** What follows a name in a section. */
export function restIn(random: Random, spec: SectionSpec, head: string): string {
  if (spec.holds === "modes" || spec.holds === "outputs")
    return `when ${conditionText(random, random.oneOf([0, 1, 2, 2, 3]))}`;
  if (spec.holds === "controls") return controlText(random);
  if (spec.holds === "kept") return textText(random);
  if (spec.holds === "follows") {
    const { types } = MOVABLE.find(({ name }) => name === head)!;
    return `follows ${random.oneOf(["KN", "SX", "TL"])} from ${valueText(random, types)} to ${valueText(random, types)}`;
  }
  const setting = catalogue.setting(spec.name, head);
  if (setting) return valueText(random, setting.types);
  return spec.holds === "places" ? `at ${placeText(random)}` : positionText(random);
}

/** An entry, a line that takes some back, a kept line or a comment. */
export function entryLine(random: Random, spec: SectionSpec): string {
  const indent = random.oneOf(["  ", "  ", "  ", " ", "\t", "    "]);
  const kind = random.below(30);
  if (kind === 0) return random.oneOf(["", "  ", "# a note", "  # a note", "  # cells 6", "  #"]);
  if (kind === 1) return `${indent}# allow ${random.oneOf(CODES)}${random.oneOf([": so be it", ":", "", "  :  x"])}`;
  if (kind === 2) {
    const names = random.some(random.between(1, 2), () => headIn(random, spec));
    return `${indent}drop ${random.onceIn(3) ? "all" : names.join(" ")}`;
  }
  if (spec.holds === "kept") return `${indent}|${random.oneOf(["", " ", " set x = 4 # no", "\tx\\"])}`;
  const head = headIn(random, spec);
  const behind = random.onceIn(8) ? random.oneOf(["  # worn", " # allow arm-missing: so", "#", '  # "', "  "]) : "";
  return `${indent}${head}${random.oneOf([" ", " ", "  ", "\t"])}${restIn(random, spec, head)}${behind}`;
}

function headingOf(random: Random, { name, title }: SectionSpec): string {
  if (title === "required" || (title === "optional" && random.onceIn(2)))
    return `${name} ${random.oneOf(['"Winter"', '"kiln"', '"a \\"b\\""', '""'])}`;
  return name;
}

const KINDS = ["craft", "craft", "craft", "craft", "layer", "layer", "handset"];

/** A whole script, of so many sections at most, as somebody might write one, with a slip here and there. */
export function scriptText(random: Random, mostSections = 4): string {
  const kind = random.oneOf(KINDS);
  const lines = [`${kind} ${random.onceIn(4) ? textText(random) : '"Jug"'}${random.onceIn(30) ? " edition 1" : ""}`];
  if (random.onceIn(2)) lines.push("");
  for (let i = random.below(3); i > 0; i--) lines.push(`use ${quote(random.oneOf(PATHS))}`);
  const may = random.onceIn(10)
    ? catalogue.sections
    : catalogue.sections.filter((each) => each.in.some((it) => it === kind));
  for (let i = random.between(0, mostSections); i > 0; i--) {
    const spec = random.oneOf(may);
    if (random.onceIn(2)) lines.push("");
    if (random.onceIn(10)) lines.push(random.oneOf(["# a note", `# allow ${random.oneOf(CODES)}: so`, "#"]));
    lines.push(headingOf(random, spec));
    for (let k = random.between(0, 4); k > 0; k--) lines.push(entryLine(random, spec));
  }
  const end = random.oneOf(["\n", "\n", "\n", "\n", "\r\n", "\r"]);
  return (random.onceIn(30) ? "\uFEFF" : "") + lines.join(end) + (random.onceIn(6) ? "" : end);
}
