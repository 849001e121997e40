/** The catalogue as one value, with its look-ups by name. */
import { ADJUSTABLE } from "./adjustable.ts";
import { elements as shippedElements } from "./elements.ts";
import { elementExamples } from "./examples/elements.ts";
import { settingExamples } from "./examples/index.ts";
import { modeExamples } from "./examples/modes.ts";
import { modes as shippedModes } from "./modes.ts";
import { PRIVATE } from "./private.ts";
import { readings } from "./readings.ts";
import { figures } from "./relations/figures.ts";
import { comparisons, needTables } from "./relations/index.ts";
import { modeRelations } from "./relations/of-modes.ts";
import { sections } from "./sections/index.ts";
import { byMeaning } from "./sources.ts";
import type {
  Comparison,
  ElementSpec,
  FigureSpec,
  ModeRelations,
  ModeSpec,
  Need,
  ReadingSpec,
  SectionSpec,
  SettingSpec,
  UnitFamily,
} from "./specs.ts";
import { unitFamilies } from "./units.ts";

export interface Catalogue {
  /** In the order in which reference pages and `show` list them. */
  readonly sections: readonly SectionSpec[];
  readonly modes: readonly ModeSpec[];
  readonly elements: readonly ElementSpec[];
  readonly modeRelations: ModeRelations;
  /** Pairs of values one of which must lie above the other, or stand to it in another way. */
  readonly comparisons: readonly Comparison[];
  /** Quantities that follow from several settings. */
  readonly figures: readonly FigureSpec[];
  readonly readings: readonly ReadingSpec[];
  readonly unitFamilies: readonly UnitFamily[];
  section(name: string): SectionSpec | undefined;
  /** A setting of a section; for a second set, also those of the set that it is `like`. */
  setting(section: string, name: string): SettingSpec | undefined;
  /** The same by name; empty for a section that it does not have. */
  tableOf(section: string): ReadonlyMap<string, SettingSpec>;
  /** Settings of a section in the catalogue's order, those of a second set included. */
  settingsOf(section: string): readonly SettingSpec[];
  mode(name: string): ModeSpec | undefined;
  element(name: string): ElementSpec | undefined;
}

/** A pilot's own word for a name of the catalogue; `name` is a name alone or SECTION.NAME. */
export interface Alias {
  readonly word: string;
  readonly name: string;
}

const NO_SETTINGS: ReadonlyMap<string, SettingSpec> = new Map();

let shipped: Catalogue | null = null;

/**
 * The built-in catalogue, with a pilot's own settings (`extra`) added; one of the same name replaces the
 * built-in one. The words of `aliases` are added to the search words of what they name. Without either it is always
 * the same object, so what is worked out of the catalogue alone is worked out once in a process.
 */
export function makeCatalogue(
  extra: readonly (SettingSpec & { section: string })[] = [],
  aliases: readonly Alias[] = [],
): Catalogue {
  if (extra.length > 0 || aliases.length > 0) return catalogueWith(extra, aliases);
  shipped ??= catalogueWith([], []);
  return shipped;
}

function catalogueWith(extra: readonly (SettingSpec & { section: string })[], aliases: readonly Alias[]): Catalogue {
  const aliasWords = wordsByName(aliases);
  const all = relatedSections.map((section) =>
    withWords(withSettings(withExtra(section, extra), aliasWords), aliasWords),
  );
  const modes = relatedModes.map((mode) => withWords(mode, aliasWords));
  const elements = relatedElements.map((element) => withWords(element, aliasWords));
  const byName = new Map(all.map((section) => [section.name, section]));
  const modeByName = new Map(modes.map((mode) => [mode.name, mode]));
  const elementByName = new Map(elements.map((element) => [element.name, element]));
  const lists = new Map(all.map((section) => [section.name, settingsOfSection(section, byName)]));
  const tables = new Map([...lists].map(([section, list]) => [section, new Map(list.map((s) => [s.name, s]))]));
  return {
    sections: all,
    modes,
    elements,
    modeRelations,
    comparisons,
    figures,
    readings,
    unitFamilies,
    section: (name) => byName.get(name),
    setting: (section, name) => tables.get(section)?.get(name),
    tableOf: (section) => tables.get(section) ?? NO_SETTINGS,
    settingsOf: (section) => lists.get(section) ?? [],
    mode: (name) => modeByName.get(name),
    element: (name) => elementByName.get(name),
  };
}

/** What needs something by the tables, as well as by what stands beside its own name. */
function withNeeds<T extends { readonly needs?: Need[] | undefined }>(thing: T, path: string): T {
  const all = [...(thing.needs ?? []), ...needTables.flatMap((table) => table[path] ?? [])];
  return all.length === 0 ? thing : { ...thing, needs: all.map((need) => ({ source: byMeaning, ...need })) };
}

function withExample<T>(thing: T, example: string | undefined): T {
  return example === undefined ? thing : { ...thing, example };
}

const relatedSections = sections.map((section) => ({
  ...section,
  settings: section.settings.map((setting) => {
    const path = `${section.name}.${setting.name}`;
    const shown = withExample(withNeeds(setting, path), settingExamples[section.name]?.[setting.name]);
    return {
      ...shown,
      ...(ADJUSTABLE.has(path) && { adjustable: true as const }),
      ...(PRIVATE[path] && { private: PRIVATE[path] }),
    };
  }),
}));
const relatedModes = shippedModes.map((mode) => withExample(withNeeds(mode, mode.name), modeExamples[mode.name]));
const relatedElements = shippedElements.map((element) =>
  withExample(withNeeds(element, element.name), elementExamples[element.name]),
);

function wordsByName(aliases: readonly Alias[]): ReadonlyMap<string, readonly string[]> {
  const aliasWords = new Map<string, string[]>();
  for (const { word, name } of aliases) aliasWords.set(name, [...(aliasWords.get(name) ?? []), word]);
  return aliasWords;
}

type WordsByName = ReadonlyMap<string, readonly string[]>;

/** An item of the catalogue with the alias words for its name, and for its `path` (SECTION.NAME) if it has one. */
function withWords<T extends { name: string; words: string[] }>(thing: T, aliasWords: WordsByName, path?: string): T {
  const more = [...(aliasWords.get(thing.name) ?? []), ...(aliasWords.get(path ?? "") ?? [])];
  return more.length === 0 ? thing : { ...thing, words: [...thing.words, ...more] };
}

function withSettings(section: SectionSpec, aliasWords: WordsByName): SectionSpec {
  if (aliasWords.size === 0) return section;
  return {
    ...section,
    settings: section.settings.map((setting) => withWords(setting, aliasWords, `${section.name}.${setting.name}`)),
  };
}

function withExtra(section: SectionSpec, extra: readonly (SettingSpec & { section: string })[]): SectionSpec {
  const added = extra.filter((setting) => setting.section === section.name);
  if (added.length === 0) return section;
  const names = new Set(added.map((setting) => setting.name));
  const plain = added.map(({ section: _, ...setting }) => setting);
  return { ...section, settings: [...section.settings.filter((setting) => !names.has(setting.name)), ...plain] };
}

function settingsOfSection(section: SectionSpec, byName: Map<string, SectionSpec>): readonly SettingSpec[] {
  const base = section.like ? byName.get(section.like) : undefined;
  if (!base) return section.settings;
  const without = new Set(section.without ?? []);
  return [...base.settings.filter((setting) => !without.has(setting.name)), ...section.settings];
}
