/** Quantities in the other units of their family. */
import { convert, unitFamily } from "../../catalogue/units.ts";
import type { Quantity, Value } from "../../syntax/value.ts";

/** Each quantity of a value in every other unit that gives a readable figure: `1100 mAh = 1.1 Ah`. */
export function conversionsOf(value: Value): string[] {
  return [...new Set(quantitiesOf(value).flatMap((quantity) => conversionsOfOne(quantity)))];
}

function conversionsOfOne({ number, unit }: Quantity): string[] {
  const converted = (unitFamily(unit)?.units ?? []).flatMap(({ symbol }) => {
    const other = symbol === unit ? undefined : convert(number, unit, symbol);
    return other !== undefined && readable(other) ? [`${fourDigits(other)} ${symbol}`] : [];
  });
  return converted.length > 0 ? [`${number} ${unit} = ${converted.join(" = ")}`] : [];
}

function quantitiesOf(value: Value): Quantity[] {
  switch (value.kind) {
    case "quantity":
      return [value];
    case "range":
      return [value.from, value.to];
    case "list":
      return value.items.flatMap(quantitiesOf);
    case "fields":
      return value.fields.flatMap((field) => quantitiesOf(field.value));
    case "follows":
      return [value.from, value.to].flatMap(quantitiesOf);
    default:
      return [];
  }
}

/** Very small and very large numbers, such as 0.0000012 min, help nobody. */
function readable(number: number): boolean {
  const size = Math.abs(number);
  return number === 0 || (size >= 0.001 && size < 100_000);
}

function fourDigits(number: number): number {
  return Number(number.toPrecision(4));
}
