/** Values outside the usual bands: in a file for what it says of the craft itself, in a craft for what the craft is. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { IntegerType, QuantityType, SettingSpec, ValueType } from "../catalogue/specs.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { baseOf, type Craft, type Source } from "./craft.ts";
import { traitsIn, traitsOfCraft } from "./craft-traits.ts";
import { beyondUsual, type LimitIssue } from "./limits.ts";
import { adjustable } from "./read-entry.ts";
import type { Entry, Issue, Script } from "./script.ts";
import type { CraftTraits } from "./usual-band.ts";

/** The unusual values of a file on its own. A craft's own file is checked in its effective craft instead. */
export function unusualValues(entries: readonly Entry[], catalogue: Catalogue): Issue[] {
  return unusualIn(entries, traitsIn(entries), catalogue).map(({ entry, issue: { code, message, start, end } }) => ({
    code,
    message,
    span: spanAt(entry.line, { start, end }),
  }));
}

/** An unusual value of an effective craft, in the file that sets it. */
export interface Unusual extends Cols {
  readonly source: Source;
  readonly message: string;
}

const scriptCache = new WeakMap<Script, { traits: string; unusual: readonly UnusualEntry[] }>();

/** The effective values that are unusual for a craft of this kind. */
export function unusualInCraft(craft: Craft, catalogue: Catalogue): Unusual[] {
  const traitsAt = traitsOfCraft(craft);
  const traits = traitsText(craft, traitsAt);
  return craft.scripts.flatMap((script) => {
    // For an unchanged file in a craft of the same kind the last result is still right.
    let last = scriptCache.get(script);
    if (last?.traits !== traits) {
      last = { traits, unusual: unusualIn(script.entries, traitsAt, catalogue) };
      scriptCache.set(script, last);
    }
    return last.unusual.flatMap(({ entry, issue: { message, start, end } }) => {
      const source = { file: script.file, line: entry.line };
      return isEffective(craft, entry, source, start) ? [{ source, message, start, end }] : [];
    });
  });
}

/** The traits of a craft and of those of its packs that differ, as one text. */
function traitsText(craft: Craft, traitsAt: (section: string) => CraftTraits): string {
  const plain = traitsAt("pack");
  let text = Object.values(plain).join();
  for (const section of craft.settings.keys()) {
    if (!section.startsWith("pack/")) continue;
    const own = traitsAt(section);
    if (own !== plain) text += `;${section} ${own.cells}`;
  }
  return text;
}

/** Whether the value at a column of an entry's line is the effective one, not overridden by a later line. */
function isEffective(
  craft: Craft,
  { kind, section, name, value }: Entry,
  { file, line }: Source,
  column: number,
): boolean {
  const isHere = (source: Source | undefined) => source?.file === file && source.line === line;
  if (kind === "follows") return isHere(craft.adjust.get(name)?.source);
  const setting = craft.settings.get(section)?.get(name);
  if (setting?.items) return setting.items.some(({ source }) => isHere(source));
  if (value?.kind !== "fields") return isHere(setting?.source);
  const field = value.fields.find((each) => each.value.start <= column && column < each.value.end);
  return isHere(field && setting?.fieldSources.get(field.name));
}

interface UnusualEntry {
  readonly entry: Entry;
  readonly issue: LimitIssue;
}

function unusualIn(
  entries: readonly Entry[],
  traitsAt: (section: string) => CraftTraits,
  catalogue: Catalogue,
): UnusualEntry[] {
  const unusual: UnusualEntry[] = [];
  let currentSection: string | null = null;
  let traits: CraftTraits = {};
  for (const entry of entries) {
    const { kind, section, name, value } = entry;
    if (!value || (kind !== "setting" && kind !== "follows")) continue;
    if (section !== currentSection) traits = traitsAt(section);
    currentSection = section;
    const last = issueCache.get(value);
    let issues = last && isSameKind(last.traits, traits) ? last.issues : undefined;
    if (!issues) {
      const setting = kind === "follows" ? adjustable(name, catalogue) : catalogue.setting(baseOf(section), name);
      const values = value.kind === "follows" ? [value.from, value.to] : [value];
      issues = setting && hasBands(setting) ? values.flatMap((each) => beyondUsual(each, setting, traits)) : NO_ISSUES;
      issueCache.set(value, { traits, issues });
    }
    for (const issue of issues) unusual.push({ entry, issue });
  }
  return unusual;
}

function isSameKind(a: CraftTraits, b: CraftTraits): boolean {
  return (
    a.propellerIn === b.propellerIn &&
    a.cells === b.cells &&
    a.motors === b.motors &&
    a.throttle === b.throttle &&
    a.notches === b.notches
  );
}

const NO_ISSUES: readonly LimitIssue[] = [];
/** By value: equal lines share one value object. */
const issueCache = new WeakMap<Value, { traits: CraftTraits; issues: readonly LimitIssue[] }>();

const bandCache = new WeakMap<SettingSpec, boolean>();

/** Whether a setting has a usual band; most have none, so that their values need no check. */
function hasBands(setting: SettingSpec): boolean {
  let has = bandCache.get(setting);
  if (has === undefined) {
    has = setting.types.some((type) => numericTypesOf(type).some(({ usual }) => usual !== undefined));
    bandCache.set(setting, has);
  }
  return has;
}

/** The numeric types that a type is made of. */
function numericTypesOf(type: ValueType): (QuantityType | IntegerType)[] {
  switch (type.is) {
    case "quantity":
    case "integer":
      return [type];
    case "range":
    case "list":
      return numericTypesOf(type.of);
    case "fields":
      return type.fields.flatMap((field) => field.types.flatMap(numericTypesOf));
    default:
      return [];
  }
}
