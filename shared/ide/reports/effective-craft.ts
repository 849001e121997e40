/** The report of `show`: the effective craft, each value with the file and line that it comes from. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Mode, type Placed, type Setting, type Source } from "../../model/craft.ts";
import { readSetting } from "../../model/read-value.ts";
import { units } from "../../model/units.ts";
import type { Workspace } from "../../model/workspace.ts";
import { gridOf, layoutOf, sizeOf } from "../../osd/layout.ts";
import type { Page } from "../../osd/placed.ts";
import { canonicalText } from "../context/canonical-text.ts";
import { type PlainSource, type PlainValue, plainValue } from "./plain-value.ts";

export interface EffectiveSetting extends PlainSource {
  /** Null where the effective line has a fault. */
  readonly value: PlainValue;
  readonly text: string;
}

export interface EffectiveMode {
  readonly condition: string;
  readonly lines: readonly Source[];
  readonly note: string;
}

export interface EffectiveElement extends Source {
  /** Cells from 0 at the top left; null without a grid, or where the line has a fault. */
  readonly column: number | null;
  readonly row: number | null;
  readonly width: number;
  readonly height: number;
}

export interface EffectivePage {
  readonly columns: number | null;
  readonly rows: number | null;
  readonly elements: Readonly<Record<string, EffectiveElement>>;
}

export interface EffectiveCraft {
  readonly craft: string;
  readonly handset: { readonly name: string; readonly file: string } | null;
  readonly settings: Readonly<Record<string, EffectiveSetting>>;
  readonly modes: Readonly<Record<string, EffectiveMode>>;
  readonly outputs: Readonly<Record<string, EffectiveMode>>;
  readonly controls: Readonly<Record<string, Source & { readonly text: string }>>;
  readonly osd: EffectivePage;
  readonly osdSecond: EffectivePage;
  readonly verbatim: readonly (Source & { readonly dialect: string; readonly text: string })[];
}

type NameOf = (file: string) => string;

const NOWHERE: PlainSource = { file: null, line: null };

/**
 * The effective craft as plain data, in the catalogue's order. `nameOf` gives the name under
 * which a file is reported. A default has no file and line.
 */
export function effectiveCraft(craft: Craft, workspace: Workspace, nameOf: NameOf): EffectiveCraft {
  const { catalogue } = workspace;
  const at = ({ file, line }: Source): Source => ({ file: nameOf(file), line });
  const modes = (from: ReadonlyMap<string, Mode>) =>
    Object.fromEntries([...from].map(([name, mode]) => [name, effectiveMode(mode, workspace, at)]));
  const { handset } = craft;
  return {
    craft: craft.name,
    handset: handset && { name: handset.name, file: nameOf(handset.file) },
    settings: effectiveSettings(craft, catalogue, at),
    modes: modes(craft.modes),
    outputs: modes(craft.outputs),
    controls: Object.fromEntries(
      [...craft.controls].map(([name, { text, source }]) => [name, { text, ...at(source) }]),
    ),
    osd: effectivePage(craft, catalogue, "osd", at),
    osdSecond: effectivePage(craft, catalogue, "osd-second", at),
    verbatim: craft.kept.map(({ dialect, text, source }) => ({ dialect, text, ...at(source) })),
  };
}

type At = (source: Source) => Source;

function effectiveSettings(craft: Craft, catalogue: Catalogue, at: At): Record<string, EffectiveSetting> {
  const settings: Record<string, EffectiveSetting> = {};
  for (const section of catalogue.sections) {
    const own = craft.settings.get(section.name);
    for (const { name } of catalogue.settingsOf(section.name)) {
      const setting = own?.get(name);
      const shown = setting ? shownSetting(setting, catalogue, at) : shownDefault(section, name, catalogue);
      if (shown) settings[`${section.name}.${name}`] = shown;
    }
    if (section.name === "pack") Object.assign(settings, namedPacks(craft, catalogue, at));
    if (section.name === "adjust") {
      for (const { name, text, source } of craft.adjust.values())
        settings[`adjust.${name}`] = { value: text, text, ...at(source) };
    }
  }
  return settings;
}

function namedPacks(craft: Craft, catalogue: Catalogue, at: At): Record<string, EffectiveSetting> {
  const packs = [...craft.settings].filter(([section]) => section.startsWith("pack/"));
  return Object.fromEntries(
    packs.flatMap(([section, settings]) =>
      [...settings.values()].map((setting) => [`${section}.${setting.name}`, shownSetting(setting, catalogue, at)]),
    ),
  );
}

function shownSetting(setting: Setting, catalogue: Catalogue, at: At): EffectiveSetting {
  const { section, name, value, items } = setting;
  const spec = catalogue.setting(baseOf(section), name);
  const own = at(setting.source);
  const text = canonicalText(setting, spec);
  if (!spec) return { value: null, text, ...own };
  if (items) {
    const values = items.map((item) => (item.value ? plainValue(item.value, spec, () => at(item.source)) : null));
    return { value: values, text, ...own };
  }
  const sourceOf = (field: string) => at(setting.fieldSources.get(field) ?? setting.source);
  return { value: value && plainValue(value, spec, sourceOf), text, ...own };
}

/** The default of a setting. A second set has none of its own, since it falls back to the first. */
function shownDefault(section: SectionSpec, name: string, catalogue: Catalogue): EffectiveSetting | null {
  const spec = catalogue.setting(section.name, name);
  if (section.like !== undefined || spec?.default === undefined) return null;
  const text = spec.default;
  const { value } = readSetting(text, { start: 0, end: text.length }, spec, units);
  return { value: value && plainValue(value, spec, () => NOWHERE), text, ...NOWHERE };
}

function effectiveMode({ text, lines }: Mode, workspace: Workspace, at: At): EffectiveMode {
  const notes = lines.map(({ source }) => workspace.script(source.file)?.noteOf(source.line).text ?? "");
  return {
    condition: text,
    lines: lines.map(({ source }) => at(source)),
    note: notes.filter((note) => note !== "").join("\n"),
  };
}

function effectivePage(craft: Craft, catalogue: Catalogue, page: Page, at: At): EffectivePage {
  const grid = gridOf(craft);
  const placed = new Map(layoutOf(craft, catalogue, page)?.elements.map((each) => [each.name, each]));
  const elements = [...(page === "osd" ? craft.osd : craft.osdSecond).values()].flatMap((each: Placed) => {
    const element = catalogue.element(each.name);
    if (!element) return [];
    const { column = null, row = null } = placed.get(each.name) ?? {};
    return [[each.name, { column, row, ...sizeOf(element, craft), ...at(each.source) }] as const];
  });
  return { columns: grid?.columns ?? null, rows: grid?.rows ?? null, elements: Object.fromEntries(elements) };
}
