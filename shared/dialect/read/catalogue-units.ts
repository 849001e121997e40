/** Values in the units of the catalogue, with exact decimals; six figures where decimals do not end. */
import type { QuantityType, SettingSpec, ValueType } from "../../catalogue/specs.ts";
import { convert } from "../../catalogue/units.ts";
import type { Quantity, Value } from "../../syntax/value.ts";
import { exactIn } from "../codes/held.ts";
import { decimalOf, exactOf, numberOf } from "../exact.ts";

/** The value with each of its quantities in the unit that its setting has. */
export function inCatalogueUnits(value: Value, setting: SettingSpec): Value {
  return converted(value, setting.types);
}

function converted(value: Value, types: readonly ValueType[]): Value {
  switch (value.kind) {
    case "quantity": {
      const type = quantityFor(value, types);
      return type ? inUnit(value, type.unit) : value;
    }
    case "range": {
      const type = types.find((each) => each.is === "range");
      return type ? { ...value, from: inUnit(value.from, type.of.unit), to: inUnit(value.to, type.of.unit) } : value;
    }
    case "list": {
      const type = types.find((each) => each.is === "list");
      return type ? { ...value, items: value.items.map((item) => converted(item, [type.of])) } : value;
    }
    case "fields": {
      const type = types.find((each) => each.is === "fields");
      if (!type) return value;
      const fields = value.fields.map((field) => {
        const spec = type.fields.find(({ name }) => name === field.name);
        return spec ? { ...field, value: converted(field.value, spec.types) } : field;
      });
      return { ...value, fields };
    }
    case "follows":
      return { ...value, from: converted(value.from, types), to: converted(value.to, types) };
    default:
      return value;
  }
}

/** Of several quantities that a setting may be, the one of this unit, else of its family. */
function quantityFor({ unit }: Quantity, types: readonly ValueType[]): QuantityType | undefined {
  const quantities = types.filter((type) => type.is === "quantity");
  return (
    quantities.find((type) => type.unit === unit) ??
    quantities.find((type) => convert(1, unit, type.unit) !== undefined)
  );
}

/** A number as it is written at its shortest. */
const SHORTEST = /^-?(0|[1-9]\d*)(\.\d*[1-9])?$/;

function inUnit(quantity: Quantity, unit: string): Quantity {
  if (unit === quantity.unit && SHORTEST.test(quantity.digits)) return quantity;
  const exact = exactOf(quantity.digits);
  if (!exact) return quantity;
  const number = unit === quantity.unit ? exact : exactIn(exact, quantity.unit, unit);
  if (!number) return quantity;
  return { ...quantity, number: numberOf(number), digits: decimalOf(number), unit };
}
