/** Values by which to try whether anything hangs on a setting: both ends of its limits, what is usual, each choice. */
import type { FieldsType, IntegerType, QuantityType, SettingSpec, SimpleType } from "../../shared/catalogue/types.ts";

/** As a script would say them. */
export function valuesOf({ types }: SettingSpec): string[] {
  return types.flatMap((type) => (type.is === "fields" ? fieldsValues(type) : simpleValues(type)));
}

/** One field at a time, and all of them at once. */
function fieldsValues({ fields }: FieldsType): string[] {
  const each = fields.map(({ name, types }) => types.flatMap(simpleValues).map((value) => `${name} ${value}`));
  const most = Math.max(...each.map(({ length }) => length));
  const together = Array.from({ length: most }, (_, i) => each.map((values) => values[i % values.length]).join(" "));
  return [...each.flat(), ...together];
}

function simpleValues(type: SimpleType): string[] {
  switch (type.is) {
    case "quantity":
      return numbersOf(type).map((number) => withUnit(number, type.unit));
    case "integer":
      return numbersOf(type).map((number) => String(Math.round(number)));
    case "choice":
      return type.choices.map(({ word }) => word);
    case "yes-no":
      return ["yes", "no"];
    case "text":
      return ['"x"'];
    case "date":
      return ["2026-05-01"];
    case "order":
      return [type.words.join(" "), type.words.toReversed().join(" ")];
    case "range": {
      const numbers = numbersOf(type.of).sort((a, b) => a - b);
      return numbers.slice(1).map((to, i) => `${numbers[i]} to ${withUnit(to, type.of.unit)}`);
    }
    case "size":
      return ["20 x 10", "30 x 16", "60 x 22"];
    case "cell":
      return ["0, 0"];
    case "colour":
      return ["teal"];
    case "list":
      return simpleValues(type.of);
  }
}

function numbersOf({ min, max, usual = [] }: QuantityType | IntegerType): number[] {
  const bounds = [min?.at, max?.at, usual[0]?.from, usual[0]?.to].filter((each) => each !== undefined);
  const between = bounds.length < 2 ? [] : [(Math.min(...bounds) + Math.max(...bounds)) / 2];
  return [...new Set([...bounds, ...between, ...(bounds.length === 0 ? [1, 100] : [])])].map((number) =>
    Number(number.toPrecision(6)),
  );
}

function withUnit(number: number, unit: string): string {
  return unit === "" ? String(number) : `${number} ${unit}`;
}
