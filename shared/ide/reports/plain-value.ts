/** Values as plain data, quantities in the catalogue's unit. */
import type { SettingSpec, SimpleType, ValueType } from "../../catalogue/specs.ts";
import { convert } from "../../catalogue/units.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Quantity, Value } from "../../syntax/value.ts";

/** A line of a script; both null for a default. */
export interface PlainSource {
  readonly file: string | null;
  readonly line: number | null;
}

export type PlainValue =
  | null
  | boolean
  | number
  | string
  | { readonly number: number; readonly unit: string }
  | { readonly from: number; readonly to: number; readonly unit: string }
  | { readonly columns: number; readonly rows: number }
  | readonly PlainValue[]
  | { readonly [field: string]: PlainValue | Readonly<Record<string, PlainSource>> };

/** Returns the line that a field comes from. */
export type SourceOfField = (field: string) => PlainSource;

/**
 * A setting's value: a quantity as `{ number, unit }`, a range as `{ from, to, unit }`, a size as
 * `{ columns, rows }`, fields as an object with their lines under `sources`, all else plain.
 */
export function plainValue(value: Value, setting: SettingSpec, sourceOf: SourceOfField): PlainValue {
  return plain(value, setting.types, sourceOf);
}

function plain(value: Value, types: readonly ValueType[], sourceOf: SourceOfField): PlainValue {
  switch (value.kind) {
    case "quantity":
      return inOwnUnit(value, types);
    case "range": {
      const unit = unitFor(value.to, types);
      return { from: converted(value.from, unit), to: converted(value.to, unit), unit };
    }
    case "integer":
      return value.number;
    case "yes-no":
      return value.yes;
    case "size":
      return { columns: value.columns, rows: value.rows };
    case "list":
      return value.items.map((item) => plain(item, types.flatMap(itemTypes), sourceOf));
    case "order":
      return [...value.words];
    case "fields": {
      const specs = types.flatMap((type) => (type.is === "fields" ? type.fields : []));
      const fields = value.fields.map(({ name, value: each }): [string, PlainValue] => [
        name,
        plain(each, specs.find((spec) => spec.name === name)?.types ?? [], sourceOf),
      ]);
      const sources = Object.fromEntries(value.fields.map(({ name }) => [name, sourceOf(name)]));
      return { ...Object.fromEntries(fields), sources };
    }
    case "choice":
      return value.word;
    case "text":
      return value.text;
    case "date":
      return value.date;
    case "colour":
      return value.colour;
    default:
      return printValue(value);
  }
}

function itemTypes(type: ValueType): SimpleType[] {
  return type.is === "list" ? [type.of as SimpleType] : [];
}

function inOwnUnit(quantity: Quantity, types: readonly ValueType[]): PlainValue {
  const unit = unitFor(quantity, types);
  return { number: converted(quantity, unit), unit };
}

/** The unit of the first type to which the quantity can be converted; its own where there is none. */
function unitFor({ number, unit }: Quantity, types: readonly ValueType[]): string {
  for (const type of types) {
    const quantity = type.is === "range" ? type.of : type;
    if (quantity.is === "quantity" && convert(number, unit, quantity.unit) !== undefined) return quantity.unit;
  }
  return unit;
}

/** Converts, rounded to twelve digits: more than scripts have, and few enough to hide rounding errors. */
function converted({ number, unit }: Quantity, to: string): number {
  return Number((convert(number, unit, to) ?? number).toPrecision(12));
}
