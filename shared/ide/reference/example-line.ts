/** Example lines of a script for names of the catalogue. */
import type {
  ElementSpec,
  FieldSpec,
  IntegerType,
  ModeSpec,
  QuantityType,
  SectionSpec,
  SettingSpec,
  SimpleType,
} from "../../catalogue/specs.ts";

/**
 * The section with one entry for the setting: its example; of a pilot's own setting without one its default, else a
 * usual value.
 */
export function exampleOfSetting(section: SectionSpec, setting: SettingSpec): string {
  const value = setting.example ?? setting.default ?? exampleOfType(setting);
  return section.title === "required" ? "" : `${section.name}\n  ${setting.name}  ${value}`;
}

/** The section with one entry for the mode. */
export function exampleOfMode({ name, example }: ModeSpec): string {
  return `modes\n  ${name}  when ${example ?? "TL is down"}`;
}

/** The section with one entry for the element. */
export function exampleOfElement({ name, example }: ElementSpec): string {
  return `osd\n  ${name}  at ${example ?? "left+1, top+1"}`;
}

function exampleOfType({ types }: SettingSpec): string {
  const [type] = types;
  if (!type) return "";
  if (type.is !== "fields") return exampleOfSimple(type);
  const required = type.fields.filter((field) => field.required);
  const shown = required.length > 0 ? required : type.fields.slice(0, 3);
  return shown.map((field) => `${field.name} ${exampleOfField(field)}`).join("  ");
}

function exampleOfField({ default: said, types }: FieldSpec): string {
  return said ?? (types[0] ? exampleOfSimple(types[0]) : "");
}

function exampleOfSimple(type: SimpleType): string {
  switch (type.is) {
    case "quantity":
      return withUnit(exampleNumber(type), type.unit);
    case "integer":
      return String(Math.round(exampleNumber(type)));
    case "choice":
      return type.choices[0]!.word;
    case "yes-no":
      return "yes";
    case "text":
      return `"${"as on the label".slice(0, type.longest).trim()}"`;
    case "date":
      return "2026-05-01";
    case "order":
      return type.words.join(" ");
    case "range": {
      const { from, to } = span(type.of);
      return `${round(from + (to - from) / 4)} to ${withUnit(round(to - (to - from) / 4), type.of.unit)}`;
    }
    case "size":
      return `${Math.min(53, type.mostColumns)} x ${Math.min(20, type.mostRows)}`;
    case "cell":
      return "left+1, top+1";
    case "colour":
      return "teal";
    case "list":
      return listOf(type);
  }
}

/** The least number of different items, but two if the list may have two. */
function listOf({ of, fewest, most }: SimpleType & { is: "list" }): string {
  const count = Math.min(Math.max(2, fewest), most);
  if (of.is === "choice")
    return of.choices
      .slice(0, count)
      .map(({ word }) => word)
      .join(", ");
  if (of.is === "order") return of.words.join(" ");
  const { from, to } = span(of);
  const numbers = Array.from({ length: count }, (_, i) => round(from + ((i + 1) * (to - from)) / (count + 1)));
  const whole = of.is === "integer" ? numbers.map(Math.round) : numbers;
  return of.is === "quantity" ? withUnit(whole.join(", "), of.unit) : whole.join(", ");
}

function exampleNumber(type: QuantityType | IntegerType): number {
  const { from, to } = span(type);
  // The middle of a wide range, by ratio or by difference: if its ends differ by more than a factor of 20, the geometric mean.
  return round(from > 0 && to / from > 20 ? Math.sqrt(from * to) : (from + to) / 2);
}

/** The range that is usual on craft of any size, else the range of the limits. */
function span({ usual, min, max }: QuantityType | IntegerType): { from: number; to: number } {
  const from = Math.max(...(usual ?? []).map((band) => band.from ?? Number.NEGATIVE_INFINITY), min?.at ?? 0);
  const to = Math.min(...(usual ?? []).map((band) => band.to ?? Number.POSITIVE_INFINITY), max?.at ?? from + 1);
  if (from <= to) return { from, to };
  const last = usual?.at(-1);
  return { from: last?.from ?? min?.at ?? 0, to: last?.to ?? max?.at ?? 1 };
}

/** Rounds to two significant digits, as a pilot writes a value that was not measured. */
function round(number: number): number {
  return Number(number.toPrecision(2));
}

function withUnit(number: number | string, unit: string): string {
  return unit === "" ? String(number) : `${number} ${unit}`;
}
