/** What is certain of a craft some of whose files could not be read. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import {
  baseOf,
  type Control,
  type Craft,
  type FollowingSetting,
  type Mode,
  type Placed,
  type Setting,
  type Source,
} from "./craft.ts";
import type { Gap } from "./gaps.ts";
import { copyOf } from "./listened-craft.ts";
import { oncePer } from "./memo.ts";

/**
 * The craft with everything without value that a missing file may have said, or said otherwise: what no later file
 * says, and what only files say that the missing one would have come after. As of a line with a fault, nothing is then
 * known of it. A handset that is there is taken at its word, though a missing layer could restate a control. The craft
 * itself where nothing is missing.
 */
export const knownPart = oncePer(
  (craft: Craft, catalogue: Catalogue): Craft => (craft.gaps.length === 0 ? craft : withUnknowns(craft, catalogue)),
);

function withUnknowns(craft: Craft, catalogue: Catalogue): Craft {
  const openness = opennessOf(craft);
  const elements = catalogue.elements.map(({ name }) => name);
  const placed = <T extends Placed | FollowingSetting>(section: string, said: ReadonlyMap<string, T>, names: Names) =>
    filled<Placed | FollowingSetting>(openness, section, said, names, (name, source) => ({
      name,
      value: null,
      text: "",
      source,
    }));
  return {
    ...copyOf(craft),
    memo: new Map(),
    settings: settingsOf(craft, catalogue, openness),
    sections: sectionsOf(craft, catalogue, openness),
    modes: filled(
      openness,
      "modes",
      craft.modes,
      catalogue.modes.map(({ name }) => name),
      unknownMode,
    ),
    outputs: filled(openness, "outputs", craft.outputs, [], unknownMode),
    controls: filled(openness, "controls", craft.controls, controlsNamed(craft), unknownControl),
    osd: placed("osd", craft.osd, elements),
    osdSecond: placed("osd-second", craft.osdSecond, elements),
    adjust: placed("adjust", craft.adjust, []),
    droppedNothing: craft.droppedNothing.filter(({ section, name, source }) =>
      openness.allSaidBefore(section, name === "all" ? null : name, source),
    ),
  };
}

type Names = readonly string[];

/** What the gaps of a craft leave open. */
interface Openness {
  /**
   * Where a name counts as said with nothing known of it: on the line that says it (null: no file does), else where the
   * file that may say it is used. Undefined where what the craft has is certain.
   */
  openAt(section: string, name: string | null, said: Source | null): Source | undefined;
  /** Whether all that files before a line say of a name is known. */
  allSaidBefore(section: string, name: string | null, line: Source): boolean;
}

function opennessOf(craft: Craft): Openness {
  const { gaps, scripts } = craft;
  const partOf = new Map(scripts.map(({ file }, i) => [file, i]));
  const handset = new Set(scripts.filter(({ kind }) => kind === "handset").map(({ file }) => file));
  const dropped = lastDrops(craft);
  const concerns = (gap: Gap, section: string, name: string | null) =>
    (gap.sections === null || gap.sections.includes(section)) && (gap.name === null || gap.name === name);
  return {
    openAt(section, name, said) {
      const part = said
        ? partOf.get(said.file)!
        : Math.max(dropped.get(section) ?? -1, dropped.get(`${section} ${name}`) ?? -1);
      const ofHandset = said !== null && handset.has(said.file);
      const gap = gaps.find(
        (each) => each.before > part && concerns(each, section, name) && (!ofHandset || handset.has(each.source.file)),
      );
      return gap && (said ?? craft.answersFor(gap.source));
    },
    allSaidBefore: (section, name, line) =>
      !gaps.some((each) => each.before <= partOf.get(line.file)! && concerns(each, section, name)),
  };
}

/** By section, and by section and name: the last file, by its number, that drops it. */
function lastDrops({ scripts }: Craft): ReadonlyMap<string, number> {
  const last = new Map<string, number>();
  for (const [part, { drops }] of scripts.entries())
    for (const { section, all, names } of drops)
      for (const key of all ? [section] : names.map(({ text }) => `${section} ${text}`)) last.set(key, part);
  return last;
}

function settingsOf(craft: Craft, catalogue: Catalogue, openness: Openness): Craft["settings"] {
  const sections = new Set([...catalogue.sections.map(({ name }) => name), ...craft.settings.keys()]);
  const settings = new Map<string, ReadonlyMap<string, Setting>>();
  for (const section of sections) {
    const said = craft.settings.get(section);
    const names = catalogue.settingsOf(baseOf(section)).map(({ name }) => name);
    const table = filled(openness, section, said ?? new Map<string, Setting>(), names, (name, source) =>
      unknownSetting(section, name, source),
    );
    if (table.size > 0 || said) settings.set(section, withKnownFields(table, openness));
  }
  return settings;
}

/** Of values of several fields those fields alone that no missing file can have said otherwise. */
function withKnownFields(table: ReadonlyMap<string, Setting>, openness: Openness): ReadonlyMap<string, Setting> {
  const known = new Map<string, Setting>();
  for (const [name, setting] of table) {
    const { section, value, source, fieldSources } = setting;
    if (value?.kind !== "fields") known.set(name, setting);
    else {
      const isKnown = (field: string) => !openness.openAt(section, name, fieldSources.get(field) ?? source);
      known.set(name, { ...setting, value: { ...value, fields: value.fields.filter((each) => isKnown(each.name)) } });
    }
  }
  return known;
}

function sectionsOf(craft: Craft, catalogue: Catalogue, openness: Openness): Craft["sections"] {
  const sections = new Map(craft.sections);
  for (const { name } of catalogue.sections) {
    const source = sections.has(name) ? undefined : openness.openAt(name, null, null);
    if (source) sections.set(name, source);
  }
  return sections;
}

/** What is said, and the other names that may be said: with `unknown` in the place of what is open. */
function filled<T extends { readonly source: Source } | Mode>(
  { openAt }: Openness,
  section: string,
  said: ReadonlyMap<string, T>,
  names: Names,
  unknown: (name: string, source: Source) => T,
): ReadonlyMap<string, T> {
  const all = new Map<string, T>();
  for (const name of new Set([...said.keys(), ...names])) {
    const known = said.get(name);
    const source = openAt(section, name, known ? sourceOf(known) : null);
    if (source) all.set(name, unknown(name, source));
    else if (known) all.set(name, known);
  }
  return all;
}

/** All lines of a mode stand in one file. */
function sourceOf(said: { readonly source: Source } | Mode): Source {
  return "source" in said ? said.source : said.lines[0]!.source;
}

function unknownSetting(section: string, name: string, source: Source): Setting {
  return { section, name, value: null, text: "", source, fieldSources: new Map(), items: null, before: null };
}

function unknownMode(name: string, source: Source): Mode {
  return { name, condition: null, text: "", lines: [{ source, condition: null }] };
}

function unknownControl(name: string, source: Source): Control {
  return { name, value: null, text: "", source, fromHandset: false };
}

/** The controls that conditions and settings name, by what the words of the lines are. */
function controlsNamed({ scripts }: Craft): Names {
  return scripts.flatMap(({ entries, tree }) =>
    entries.flatMap(({ line, pieces }) =>
      pieces.flatMap((piece) =>
        piece.kind === "control" ? [tree.lines[line]!.text.slice(piece.start, piece.end)] : [],
      ),
    ),
  );
}
