/** The meaning of a value as a text: equal for values that say the same, however they are written. */
import colourNames from "color-name";
import { unitFamilies } from "../../catalogue/units.ts";
import type { Setting } from "../../model/craft.ts";
import { units } from "../../model/units.ts";
import { NAMED_GRIDS } from "../../protocol/osd.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { ControlValue, Quantity, Value, ValueOf } from "../../syntax/value.ts";

/** True where two settings say the same. One with a fault is the same only as another that is written alike. */
export function isSameSetting(a: Setting, b: Setting): boolean {
  return a.text === b.text || meaningOfSetting(a) === meaningOfSetting(b) || isSamePower(a.value, b.value);
}

/** Decibels are written to a whole or a tenth, so a power in them says no more than that: 14 dBm is 25 mW. */
const STEP_DB = 0.1;

/** Whether of two powers, or two lists of them, one is in decibels and is the other, rounded. */
function isSamePower(a: Value | null, b: Value | null): boolean {
  if (a?.kind === "list" && b?.kind === "list")
    return a.items.length === b.items.length && a.items.every((item, i) => isSamePower(item, b.items[i]!));
  if (a?.kind !== "quantity" || b?.kind !== "quantity" || (a.unit === "dBm") === (b.unit === "dBm")) return false;
  const [ofA, ofB] = [a, b].map(({ number, unit }) => units.convert(number, unit, "dBm"));
  return ofA != null && ofB != null && Math.abs(ofA - ofB) < STEP_DB / 2;
}

function meaningOfSetting({ value, text, items }: Setting): string {
  if (!items) return meaningOf(value, text);
  return items.some((item) => item.value === null)
    ? FAULTY + text
    : items.map((item) => meaningOf(item.value, text)).join("; ");
}

const FAULTY = "? ";

/**
 * The value without what does not count: units become the first of their family, fields, positions and words of a list
 * get an order, a colour becomes its numbers, and a grid its size. `text` stands for a value with a fault.
 */
export function meaningOf(value: Value | null, text: string): string {
  if (value === null) return FAULTY + text;
  switch (value.kind) {
    case "quantity":
      return amount(value);
    case "choice": {
      const grid = Object.hasOwn(NAMED_GRIDS, value.word) ? NAMED_GRIDS[value.word] : undefined;
      return grid ? `${grid.columns} x ${grid.rows}` : value.word;
    }
    case "range":
      return `${amount(value.from)} to ${amount(value.to)}`;
    case "list":
      return inOrder(value, (item) => meaningOf(item, text)).join(", ");
    case "fields":
      return value.fields
        .map((field) => `${field.name} ${meaningOf(field.value, text)}`)
        .sort()
        .join("  ");
    case "colour":
      return value.named ? hexOf(value.colour) : value.colour.toLowerCase();
    case "follows":
      return `${value.dial} from ${meaningOf(value.from, text)} to ${meaningOf(value.to, text)}`;
    case "control":
      return meaningOfControl(value);
    default:
      return printValue(value);
  }
}

/**
 * The items of a list as texts. Words and whole numbers, such as channels, are a set, so they get an order; amounts
 * stand each for its place, as the points of a curve do.
 */
export function inOrder({ items }: ValueOf<"list">, print: (item: Value) => string): string[] {
  const texts = items.map(print);
  return items.every(({ kind }) => kind === "choice" || kind === "integer") ? texts.sort() : texts;
}

/** Digits that are compared: more than scripts have, and few enough to hide what converting rounds off. */
const DIGITS = 12;

function amount({ number, unit }: Quantity): string {
  const base = BASE_UNITS.get(unit);
  if (base === undefined) return `${number} ${unit}`;
  return `${Number((units.convert(number, unit, base) ?? number).toPrecision(DIGITS))} ${base}`;
}

/** For each unit the first of its family. */
const BASE_UNITS: ReadonlyMap<string, string> = new Map(
  unitFamilies.flatMap((family) => family.units.map(({ symbol }) => [symbol, family.units[0]!.symbol] as const)),
);

function hexOf(name: string): string {
  const rgb = (colourNames as Readonly<Record<string, readonly number[]>>)[name];
  return rgb ? `#${rgb.map((part) => part.toString(16).padStart(2, "0")).join("")}` : name;
}

/** The positions in the order of their pulses, and the rest by its name: in which order a line names them is no matter. */
function meaningOfControl(value: ControlValue): string {
  const positions = [...value.positions].sort((a, b) => a.pulseUs - b.pulseUs || (a.name < b.name ? -1 : 1));
  return printValue({ ...value, positions }) + (value.rest === null ? "" : ` rests ${value.rest}`);
}
