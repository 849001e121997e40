/** Values outside what is usual: for a file, of the size that it says itself; for a craft, of its own size. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { IntegerType, QuantityType, Setting, ValueType } from "../catalogue/types.ts";
import { convert } from "../catalogue/units.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import type { Craft, Source } from "./craft.ts";
import { beyondUsual, type LimitIssue, type Size } from "./limits.ts";
import { adjustable, type EntryReading } from "./read-entry.ts";
import type { Entry, Issue } from "./script.ts";

/** What is unusual in a file by itself. A craft's own file is judged with all that the craft uses. */
export function unusualValues(entries: readonly Entry[], readings: readonly EntryReading[]): Issue[] {
  const sizeOf = sizesIn(entries);
  const issues: Issue[] = [];
  for (let i = 0; i < entries.length; i++) {
    const { section, line } = entries[i]!;
    const { value, setting } = readings[i]!;
    if (!value || !setting || !hasBands(setting)) continue;
    for (const { code, message, start, end } of unusualIn(value, setting, sizeOf(section)))
      issues.push({ code, message, span: spanAt(line, { start, end }) });
  }
  return issues;
}

/** An unusual value of an effective craft, in whichever file it stands. */
export interface Unusual extends Cols {
  readonly source: Source;
  readonly message: string;
}

/** What is unusual for the size of the whole craft, in every value that counts. */
export function unusualInCraft(craft: Craft, catalogue: Catalogue): Unusual[] {
  const sizeOf = sizesIn([...craft.settings.values()].flatMap((table) => [...table.values()]));
  const found: Unusual[] = [];
  const judge = (value: Value | null, setting: Setting, section: string, source: Source, key = value) => {
    if (!value || !key) return;
    for (const { message, start, end } of unusualIn(value, setting, sizeOf(section), key))
      found.push({ source, message, start, end });
  };
  for (const [section, table] of craft.settings) {
    const base = section.startsWith("pack/") ? "pack" : section;
    for (const said of table.values()) {
      const setting = catalogue.setting(base, said.name);
      if (!setting || !hasBands(setting)) continue;
      if (said.items) for (const { value, source } of said.items) judge(value, setting, section, source);
      else if (said.value?.kind !== "fields") judge(said.value, setting, section, said.source);
      // Each field by its own line: the columns of one line mean nothing on another.
      else
        for (const field of said.value.fields) {
          const alone = { ...said.value, fields: [field] };
          judge(alone, setting, section, said.fieldSources.get(field.name) ?? said.source, field.value);
        }
    }
  }
  for (const { name, value, source } of craft.adjust.values()) {
    const setting = adjustable(name, catalogue);
    if (setting && hasBands(setting)) judge(value, setting, "", source);
  }
  return found;
}

const judged = new WeakMap<Value, { size: Size; issues: readonly LimitIssue[] }>();

/** What is unusual in a value; remembered by `key`, because equal lines share one reading. */
function unusualIn(value: Value, setting: Setting, size: Size, key = value): readonly LimitIssue[] {
  const known = judged.get(key);
  if (known && known.size.cells === size.cells && known.size.propellerIn === size.propellerIn) return known.issues;
  const values = value.kind === "follows" ? [value.from, value.to] : [value];
  const issues = values.flatMap((each) => beyondUsual(each, setting, size));
  judged.set(key, { size, issues });
  return issues;
}

const bands = new WeakMap<Setting, boolean>();

/** Whether anything is said of what is usual for a setting; most lines need no closer look. */
function hasBands(setting: Setting): boolean {
  let has = bands.get(setting);
  if (has === undefined) {
    has = setting.types.some((type) => numbersOf(type).some(({ usual }) => usual !== undefined));
    bands.set(setting, has);
  }
  return has;
}

/** The numbers of which a type is made. */
function numbersOf(type: ValueType): (QuantityType | IntegerType)[] {
  switch (type.is) {
    case "quantity":
    case "integer":
      return [type];
    case "range":
    case "list":
      return numbersOf(type.of);
    case "fields":
      return type.fields.flatMap((field) => field.types.flatMap(numbersOf));
    default:
      return [];
  }
}

type Said = Pick<Entry, "section" | "name" | "value">;

/** The craft's size, as far as these entries say it, with the cells of the plain pack. */
export function sizeIn(entries: readonly Said[]): Size {
  return sizesIn(entries)("pack");
}

/** The size that counts in a section: a named pack may have cells of its own. */
function sizesIn(entries: readonly Said[]): (section: string) => Size {
  let propellerIn: number | undefined;
  const cells = new Map<string, number | undefined>();
  for (const { section, name, value } of entries) {
    if (name === "propeller-diameter" && section === "frame")
      propellerIn = value?.kind === "quantity" ? convert(value.number, value.unit, "in") : undefined;
    if (name === "cells" && section.startsWith("pack"))
      cells.set(section, value?.kind === "integer" ? value.number : undefined);
  }
  const plain: Size = { propellerIn, cells: cells.get("pack") };
  return (section) => (cells.has(section) ? { propellerIn, cells: cells.get(section) } : plain);
}
