/** Values outside the usual bands: in a file for what it says of the craft itself, in a craft for what the craft is. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { IntegerType, QuantityType, SettingSpec, UsualBand, ValueType } from "../catalogue/specs.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { baseOf, type Craft, type Source } from "./craft.ts";
import { traitsIn, traitsOfCraft } from "./craft-traits.ts";
import { answersByNamedPack } from "./each-table.ts";
import { type BandsOf, beyondUsual, isPlainlyUsual, type LimitIssue } from "./limits.ts";
import { perFile } from "./memo.ts";
import { adjustable } from "./read-entry.ts";
import type { Entry, Issue, Script } from "./script.ts";
import { type CraftTraits, possibleBands } from "./usual-band.ts";

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

/** What is unusual in one file, for craft of one kind. */
interface OfScript {
  readonly traits: string;
  readonly readings: Script["readings"];
  /** Of each section. */
  readonly found: readonly (readonly UnusualEntry[])[];
  readonly all: readonly UnusualEntry[];
}

const scriptCache = new WeakMap<Script, OfScript>();
/** What was found last in a craft's own file: with a key most of its sections stay. */
const lastOfFile = perFile((): { own: OfScript | null } => ({ own: null }));

/** The effective values that are unusual for a craft of this kind. */
export function unusualInCraft(craft: Craft, catalogue: Catalogue): Unusual[] {
  const traitsAt = traitsOfCraft(craft);
  const traits = traitsText(craft, traitsAt);
  return craft.scripts.flatMap((script) => {
    // For an unchanged file in a craft of the same kind the last result is still right.
    let known = scriptCache.get(script);
    if (known?.traits !== traits) {
      const file = lastOfFile(craft);
      const isOwn = script.file === craft.file;
      known = ofScript(script, traits, isOwn ? file.own : null, traitsAt, catalogue);
      if (isOwn) file.own = known;
      scriptCache.set(script, known);
    }
    return known.all.flatMap(({ entry, issue: { message, start, end } }) => {
      const source = { file: script.file, line: entry.line };
      return isEffective(craft, entry, source, start) ? [{ source, message, start, end }] : [];
    });
  });
}

function ofScript(
  { readings }: Script,
  traits: string,
  last: OfScript | null,
  traitsAt: (section: string) => CraftTraits,
  catalogue: Catalogue,
): OfScript {
  const isSame = last?.traits === traits;
  const found = readings.map((reading, i) =>
    isSame && last.readings[i] === reading ? last.found[i]! : unusualIn(reading.entries, traitsAt, catalogue),
  );
  return { traits, readings, found, all: found.every(({ length }) => length === 0) ? NOTHING : found.flat() };
}

const otherPacks = answersByNamedPack<string>();
const lastText = perFile((): { plain: string; others: readonly string[]; text: string } => ({
  plain: "",
  others: [],
  text: "",
}));

/** The traits of a craft and of those of its packs that differ, as one text. */
function traitsText(craft: Craft, traitsAt: (section: string) => CraftTraits): string {
  const plainTraits = traitsAt("pack");
  const plain = Object.values(plainTraits).join();
  const others = otherPacks(craft, [], (section) => {
    const own = traitsAt(section);
    return own === plainTraits ? "" : `;${section} ${own.cells}`;
  });
  const last = lastText(craft);
  if (last.plain !== plain || last.others !== others)
    Object.assign(last, { plain, others, text: plain + others.join("") });
  return last.text;
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

const NOTHING: readonly UnusualEntry[] = [];
const NO_TRAITS: CraftTraits = {};

function unusualIn(
  entries: readonly Entry[],
  traitsAt: (section: string) => CraftTraits,
  catalogue: Catalogue,
): UnusualEntry[] {
  const unusual: UnusualEntry[] = [];
  let currentSection: string | null = null;
  let traits = NO_TRAITS;
  let banded = NO_SETTINGS;
  let bandsOf = bandsFor(traits);
  for (const entry of entries) {
    const { kind, section, name, value } = entry;
    if (!value || (kind !== "setting" && kind !== "follows")) continue;
    if (section !== currentSection) {
      const last = traits;
      traits = traitsAt(section);
      if (traits !== last) bandsOf = bandsFor(traits);
      banded = bandedIn(catalogue, baseOf(section));
      currentSection = section;
    }
    const setting = kind === "follows" ? adjustable(name, catalogue) : banded.get(name);
    if (!setting || isPlainlyUsual(value, setting.types, bandsOf)) continue;
    const last = issueCache.get(value);
    let issues = last && isSameKind(last.traits, traits) ? last.issues : undefined;
    if (!issues) {
      const values = value.kind === "follows" ? [value.from, value.to] : [value];
      issues = values.flatMap((each) => beyondUsual(each, setting, traits));
      issueCache.set(value, { traits, issues });
    }
    for (const issue of issues) unusual.push({ entry, issue });
  }
  return unusual;
}

/** By the kind of craft: a shelf of packs has a few. */
const bandsKnown = new WeakMap<CraftTraits, BandsOf>();

/** Which bands may apply to craft of a kind, worked out once for each type of a value. */
function bandsFor(traits: CraftTraits): BandsOf {
  let bandsOf = bandsKnown.get(traits);
  if (!bandsOf) {
    const known = new Map<QuantityType | IntegerType, readonly UsualBand[]>();
    bandsOf = (type) => {
      let bands = known.get(type);
      if (!bands) {
        bands = possibleBands(type.usual ?? [], traits);
        known.set(type, bands);
      }
      return bands;
    };
    bandsKnown.set(traits, bandsOf);
  }
  return bandsOf;
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

/** By value: equal lines share one value object. */
const issueCache = new WeakMap<Value, { traits: CraftTraits; issues: readonly LimitIssue[] }>();

type Settings = ReadonlyMap<string, SettingSpec>;
const NO_SETTINGS: Settings = new Map();
const bandedKnown = new WeakMap<Catalogue, Map<string, Settings>>();

/** The settings of a section that have a usual band, by name; most have none, so that their values need no check. */
function bandedIn(catalogue: Catalogue, section: string): Settings {
  let known = bandedKnown.get(catalogue);
  if (!known) {
    known = new Map();
    bandedKnown.set(catalogue, known);
  }
  let banded = known.get(section);
  if (!banded) {
    const settings = catalogue.settingsOf(section).filter(hasBands);
    banded = new Map(settings.map((setting) => [setting.name, setting]));
    known.set(section, banded);
  }
  return banded;
}

function hasBands({ types }: SettingSpec): boolean {
  return types.some((type) => numericTypesOf(type).some(({ usual }) => usual !== undefined));
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
