/** The ends of the catalogue's comparisons, as numbers of a craft. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { convert } from "../catalogue/units.ts";
import { baseOf, type Craft, type Setting } from "../model/craft.ts";
import type { Value } from "../syntax/value.ts";
import { figureIn, figureWith } from "./figures-of.ts";
import { type PackFigures, packIn } from "./pack-of.ts";
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

export interface OperandPath {
  readonly section: string;
  readonly name: string;
  readonly part: string | undefined;
}

/** As many as the catalogue has: operands are its own words. */
const paths = new Map<string, OperandPath>();

/** `SECTION.NAME` and `SECTION.NAME.FIELD` in parts. */
export function operandPath(operand: string): OperandPath {
  let path = paths.get(operand);
  if (!path) {
    const [section = "", name = "", part] = operand.split(".");
    path = { section, name, part };
    paths.set(operand, path);
  }
  return path;
}

/** The settings, as SECTION.NAME, on which an operand rests. */
export function settingsOfOperand(operand: string, catalogue: Catalogue): readonly string[] {
  if (operand.startsWith("=")) return catalogue.figures.find(({ name }) => name === operand.slice(1))?.from ?? [];
  if (/^\d/.test(operand)) return [];
  const { section, name } = operandPath(operand);
  return [`${section}.${name}`];
}

/** Gives, for a section of the catalogue, the one to look at: a named pack, or a second set. */
export type SectionChoice = (section: string) => string;

/** The numbers of an end of a comparison in `unit`; none if it is not known. */
export function numbersOfOperand(
  craft: Craft,
  catalogue: Catalogue,
  operand: string,
  unit: string,
  sectionOf: SectionChoice,
): readonly number[] {
  const { figure, amount, path } = endOf(operand);
  if (figure !== undefined) {
    const number = figureIn(craft, catalogue, figure, sectionOf("pack"));
    return number === null ? NONE : [number];
  }
  if (amount !== undefined) {
    const number = convert(amount.number, amount.symbol, unit);
    return number === undefined ? NONE : [number];
  }
  return numbersIn(craft, catalogue, sectionOf(path.section), path.name, path.part, unit);
}

const NONE: readonly number[] = [];

/** What an operand is: a figure by its name, an amount, or else the path of a setting. */
interface End {
  readonly figure: string | undefined;
  readonly amount: { readonly number: number; readonly symbol: string } | undefined;
  readonly path: OperandPath;
}

/** As many as the catalogue has. */
const ends = new Map<string, End>();

function endOf(operand: string): End {
  let end = ends.get(operand);
  if (!end) {
    const [digits = "", symbol = ""] = operand.split(" ");
    end = {
      figure: operand.startsWith("=") ? operand.slice(1) : undefined,
      amount: /^\d/.test(operand) ? { number: Number(digits), symbol } : undefined,
      path: operandPath(operand),
    };
    ends.set(operand, end);
  }
  return end;
}

/** A pack that is looked at; of the plain one both tables are the same. */
export interface PackAt {
  readonly figures: PackFigures | undefined;
  readonly own: ReadonlyMap<string, Setting>;
  readonly plain: ReadonlyMap<string, Setting>;
}

/**
 * The one number of an end of a comparison in `unit`, found in one step, as most are: null if it is not known,
 * undefined where more has to be looked at. Second sets do not count.
 */
export function oneNumberOf(
  craft: Craft,
  catalogue: Catalogue,
  operand: string,
  unit: string,
  { figures, own, plain }: PackAt,
): number | null | undefined {
  const { figure, amount, path } = endOf(operand);
  if (figure !== undefined) return figures ? figureWith(craft, catalogue, figure, figures) : null;
  if (amount !== undefined) return convert(amount.number, amount.symbol, unit) ?? null;
  const { section, name, part } = path;
  if (part !== undefined) return undefined;
  const setting = section === "pack" ? (own.get(name) ?? plain.get(name)) : craft.settings.get(section)?.get(name);
  const value = setting?.value;
  if (value?.kind !== "quantity" || setting!.items !== null) return undefined;
  // A share of the capacity is charge.
  return value.unit === unit ? value.number : value.unit === "%" ? undefined : numberOf(value, unit);
}

/** An end of a comparison whose numbers are known, as a message speaks of it. */
export function describedOperand(
  craft: Craft,
  catalogue: Catalogue,
  operand: string,
  numbers: readonly number[],
  sectionOf: SectionChoice,
): Operand {
  const settings = settingsOfOperand(operand, catalogue).flatMap((path) => {
    const { section, name } = operandPath(path);
    return settingIn(craft, sectionOf(section), name) ?? [];
  });
  return { numbers, words: wordsOfOperand(operand, catalogue), settings };
}

function wordsOfOperand(operand: string, catalogue: Catalogue): string {
  if (operand.startsWith("=")) {
    const figure = operand.slice(1);
    return catalogue.figures.find(({ name }) => name === figure)?.what ?? figure;
  }
  if (/^\d/.test(operand)) return operand;
  const { name, part } = operandPath(operand);
  return part ? `${name} ${part}` : name;
}

function numbersIn(
  craft: Craft,
  catalogue: Catalogue,
  section: string,
  name: string,
  part: string | undefined,
  unit: string,
): readonly number[] {
  const setting = settingIn(craft, section, name);
  if (setting?.items) return setting.items.flatMap(({ value }) => numberIn(partOf(value, part), unit));
  const value = setting ? setting.value : valueIn(craft, catalogue, section, name);
  // A share of the capacity is charge.
  const percent = unit === "mAh" ? numberOf(value, "%") : null;
  if (percent !== null) {
    const capacityMah = packIn(craft, catalogue, section)?.capacityMah ?? null;
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

function numberIn(value: Value | null, unit: string): readonly number[] {
  if (value?.kind === "list") return value.items.flatMap((item) => numberIn(item, unit));
  const number = numberOf(value, unit);
  return number === null ? NONE : [number];
}
