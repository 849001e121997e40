/** What a craft says of a name, in the form in which a script would say it. */
import type { Craft, Mode, Setting } from "../../model/craft.ts";
import type { Condition } from "../../syntax/condition.ts";
import { printCondition, printValue } from "../../syntax/print-value.ts";
import type { Field } from "../../syntax/value.ts";
import { meaningOf } from "../compare/meaning.ts";

export type Stated =
  /** One line says it whole. `rest` is what follows the name; `meaning` is equal where the same is said. */
  | { readonly kind: "line"; readonly rest: string; readonly meaning: string }
  /** Several lines say it together, in order. `ways` are other lines that say the same. */
  | {
      readonly kind: "lines";
      readonly rests: readonly string[];
      readonly meanings: readonly string[];
      readonly ways: readonly (readonly string[])[];
    }
  /** Several lines and files may each say a part of it. */
  | { readonly kind: "fields"; readonly fields: readonly Field[] }
  /** The line that says it has a fault. */
  | { readonly kind: "faulty" };

/** What a craft says of an entry of a section; null where it says nothing. Board text is no entry. */
export function statedIn(craft: Craft, section: string, name: string): Stated | null {
  if (section === "modes" || section === "outputs") return ofMode(craft[section].get(name));
  if (section === "controls") return ofLine(craft.controls.get(name), "");
  if (section === "adjust") return ofLine(craft.adjust.get(name), "");
  const placed = section === "osd" ? craft.osd.get(name) : section === "osd-second" ? craft.osdSecond.get(name) : null;
  return placed ? ofLine(placed, "at ") : ofSetting(craft.settings.get(section)?.get(name));
}

/** True where both say the same. */
export function saysTheSame(a: Stated | null, b: Stated | null): boolean {
  if (a === null || b === null) return a === b;
  if (a.kind === "line" && b.kind === "line") return a.meaning === b.meaning;
  if (a.kind === "lines" && b.kind === "lines") return a.meanings.join("\n") === b.meanings.join("\n");
  if (a.kind !== "fields" || b.kind !== "fields" || a.fields.length !== b.fields.length) return false;
  const others = new Map(b.fields.map((field) => [field.name, meaningOfField(field)]));
  return a.fields.every((field) => others.get(field.name) === meaningOfField(field));
}

export function meaningOfField({ value }: Field): string {
  return meaningOf(value, "");
}

type OneLine = { readonly value: Parameters<typeof meaningOf>[0]; readonly text: string };

function ofLine(entry: OneLine | undefined, before: string): Stated | null {
  if (!entry) return null;
  const { value, text } = entry;
  return value ? { kind: "line", rest: before + text, meaning: meaningOf(value, text) } : { kind: "faulty" };
}

function ofMode(mode: Mode | undefined): Stated | null {
  if (!mode) return null;
  const conditions = mode.lines.flatMap(({ condition }) => condition ?? []);
  if (conditions.length < mode.lines.length) return { kind: "faulty" };
  const when = (condition: Condition) => `when ${printCondition(condition)}`;
  const rests = conditions.map(when);
  const parted = conditions.flatMap((each) => (each.kind === "or" ? each.parts.map(when) : when(each)));
  return { kind: "lines", rests, meanings: rests, ways: [parted, [`when ${mode.text}`]] };
}

function ofSetting(setting: Setting | undefined): Stated | null {
  if (!setting) return null;
  const { value, items } = setting;
  if (items) {
    const values = items.flatMap((item) => item.value ?? []);
    if (values.length < items.length) return { kind: "faulty" };
    const rests = values.map(printValue);
    return { kind: "lines", rests, meanings: values.map((each) => meaningOf(each, "")), ways: [] };
  }
  return value?.kind === "fields" ? { kind: "fields", fields: value.fields } : ofLine(setting, "");
}
