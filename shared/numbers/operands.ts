/** The ends of the catalogue's comparisons, as numbers of a craft. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { convert } from "../catalogue/units.ts";
import { baseOf, type Craft, type Setting } from "../model/craft.ts";
import type { Value } from "../syntax/value.ts";
import { figureIn } from "./figures-of.ts";
import { packsOf } from "./pack-of.ts";
import { defaultField, fieldOf, numberOf, settingIn, valueIn } from "./values.ts";

/** One end of a comparison. A list, and a repeatable setting, give several numbers. */
export interface Operand {
  /** In the unit of the comparison. */
  readonly numbers: readonly number[];
  /** As in a message: the setting's name, or what the figure is. */
  readonly words: string;
  /** The settings that it rests on; empty for an amount, and where only defaults stand in. */
  readonly settings: readonly Setting[];
}

/** `SECTION.NAME` and `SECTION.NAME.FIELD` in parts. */
export function operandPath(operand: string): { section: string; name: string; part: string | undefined } {
  const [section = "", name = "", part] = operand.split(".");
  return { section, name, part };
}

/** The settings, as SECTION.NAME, on which an operand rests. */
export function settingsOfOperand(operand: string, catalogue: Catalogue): readonly string[] {
  if (operand.startsWith("=")) return catalogue.figures.find(({ name }) => name === operand.slice(1))?.from ?? [];
  if (/^\d/.test(operand)) return [];
  const { section, name } = operandPath(operand);
  return [`${section}.${name}`];
}

/**
 * An end of a comparison in `unit`; null if it is not known. `sectionOf` gives, for a section of the catalogue, the
 * one to look at: a named pack, or a second set.
 */
export function operandIn(
  craft: Craft,
  catalogue: Catalogue,
  operand: string,
  unit: string,
  sectionOf: (section: string) => string,
): Operand | null {
  const settings = settingsOfOperand(operand, catalogue).flatMap((path) => {
    const { section, name } = operandPath(path);
    return settingIn(craft, sectionOf(section), name) ?? [];
  });
  if (operand.startsWith("=")) {
    const figure = operand.slice(1);
    const number = figureIn(craft, catalogue, figure, sectionOf("pack"));
    const words = catalogue.figures.find(({ name }) => name === figure)?.what ?? figure;
    return number === null ? null : { numbers: [number], words, settings };
  }
  if (/^\d/.test(operand)) {
    const [digits = "", symbol = ""] = operand.split(" ");
    const number = convert(Number(digits), symbol, unit);
    return number === undefined ? null : { numbers: [number], words: operand, settings };
  }
  const { section, name, part } = operandPath(operand);
  const numbers = numbersIn(craft, catalogue, sectionOf(section), name, part, unit);
  return numbers.length === 0 ? null : { numbers, words: part ? `${name} ${part}` : name, settings };
}

function numbersIn(
  craft: Craft,
  catalogue: Catalogue,
  section: string,
  name: string,
  part: string | undefined,
  unit: string,
): number[] {
  const items = settingIn(craft, section, name)?.items;
  if (items) return items.flatMap(({ value }) => numberIn(partOf(value, part), unit));
  const value = valueIn(craft, catalogue, section, name);
  // A share of the capacity is charge.
  const percent = unit === "mAh" ? numberOf(value, "%") : null;
  if (percent !== null) {
    const capacityMah = packsOf(craft, catalogue).find((pack) => pack.section === section)?.capacityMah ?? null;
    return capacityMah === null ? [] : [(capacityMah * percent) / 100];
  }
  const found = numberIn(partOf(value, part), unit);
  if (found.length > 0 || part === undefined) return found;
  // A field of a second set falls back to the first, and then to the field's default.
  const first = section.endsWith("-second") ? section.slice(0, -"-second".length) : null;
  if (first !== null) return numbersIn(craft, catalogue, first, name, part, unit);
  const standIn = value === null ? null : defaultField(catalogue.setting(baseOf(section), name), part, unit);
  return standIn === null ? [] : [standIn];
}

/** A field of a value, or an end of a range. */
function partOf(value: Value | null, part: string | undefined): Value | null {
  if (part === undefined || value === null) return value;
  if (value.kind === "range") return part === "from" ? value.from : part === "to" ? value.to : null;
  return fieldOf(value, part) ?? null;
}

function numberIn(value: Value | null, unit: string): number[] {
  if (value?.kind === "list") return value.items.flatMap((item) => numberIn(item, unit));
  const number = numberOf(value, unit);
  return number === null ? [] : [number];
}
