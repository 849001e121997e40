/** The entries of an effective craft, section by section, as they are written. */
import { baseOf, type Craft, type Mode, type Placed, type Setting, type Source } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";

/** One entry, or one line of it where several join. */
export interface Row {
  readonly name: string;
  /** What follows the name; of kept text the whole line. */
  readonly text: string;
  readonly sources: readonly Source[];
  /** Board text, in which nothing is a comment. */
  readonly isKept?: boolean;
  /** Nothing may follow it: a comment there would count as its note. */
  readonly isBare?: boolean;
}

export interface EffectiveSection {
  /** As resolved: `pack/NAME` for a named pack. */
  readonly section: string;
  readonly title: string | null;
  readonly rows: readonly Row[];
}

/** The controls that are written: those that the craft and its layers say themselves, or those of the handset too. */
export type WrittenControls = "own" | "all";

/** Every section that the craft has, in the order of the catalogue, named packs and kept text in their own. */
export function effectiveRows(
  craft: Craft,
  workspace: Workspace,
  controls: WrittenControls = "own",
): EffectiveSection[] {
  return workspace.catalogue.sections.flatMap(({ name }): EffectiveSection[] => {
    if (name === "verbatim") return keptSections(craft);
    if (name === "transmitter") return [];
    const own = sectionOf(craft, workspace, name, controls);
    const named = [...new Set([...craft.settings.keys(), ...craft.sections.keys()])]
      .filter((each) => each.startsWith(`${name}/`))
      .map(
        (section): EffectiveSection => ({
          section,
          title: section.slice(name.length + 1),
          rows: settingRows(craft, section, workspace),
        }),
      );
    // The handset's own section of controls is no section of the craft.
    const isHeaded = craft.sections.has(name) && name !== "controls";
    return own.rows.length > 0 || isHeaded ? [own, ...named] : named;
  });
}

function sectionOf(craft: Craft, workspace: Workspace, section: string, controls: WrittenControls): EffectiveSection {
  return {
    section,
    title: null,
    rows: [
      ...settingRows(craft, section, workspace),
      ...(section === "modes" ? modeRows(craft.modes, workspace) : []),
      ...(section === "outputs" ? modeRows(craft.outputs, workspace) : []),
      ...(section === "controls"
        ? [...craft.controls.values()].filter((each) => controls === "all" || !each.fromHandset).map(plainRow)
        : []),
      ...(section === "osd" ? [...craft.osd.values()].map(placeRow) : []),
      ...(section === "osd-second" ? [...craft.osdSecond.values()].map(placeRow) : []),
      ...(section === "adjust" ? [...craft.adjust.values()].map(plainRow) : []),
    ],
  };
}

function plainRow({
  name,
  text,
  source,
}: {
  readonly name: string;
  readonly text: string;
  readonly source: Source;
}): Row {
  return { name, text, sources: [source] };
}

function placeRow({ name, value, text, source }: Placed): Row {
  return { name, text: value ? `at ${text}` : text, sources: [source] };
}

function settingRows(craft: Craft, section: string, workspace: Workspace): Row[] {
  const { catalogue } = workspace;
  const own = craft.settings.get(section);
  if (!own) return [];
  const known = catalogue.settingsOf(baseOf(section)).flatMap(({ name }) => own.get(name) ?? []);
  const rest = [...own.values()].filter((setting) => !known.includes(setting));
  return [...known, ...rest].flatMap((setting) => rowsOfSetting(setting, workspace));
}

function rowsOfSetting({ name, text, items, source, fieldSources }: Setting, workspace: Workspace): Row[] {
  if (items) {
    return items.map((item) => ({ name, text: entryOf(item.source, workspace)?.text ?? "", sources: [item.source] }));
  }
  const sources = [...fieldSources.values(), source];
  return [{ name, text, sources: distinct(sources) }];
}

function modeRows(modes: ReadonlyMap<string, Mode>, workspace: Workspace): Row[] {
  return [...modes.values()].flatMap(({ name, lines }) =>
    lines.map(({ source }): Row => {
      const entry = entryOf(source, workspace);
      const text = entry?.value?.kind === "condition" ? `when ${entry.text}` : (entry?.text ?? "");
      const isBare = entry?.kind === "output" && workspace.script(source.file)?.noteOf(source.line).text === "";
      return { name, text, sources: [source], isBare };
    }),
  );
}

function entryOf({ file, line }: Source, workspace: Workspace): Entry | undefined {
  return workspace.script(file)?.entries.find((each) => each.line === line);
}

/** Kept text by its dialect, each in one section. */
function keptSections({ kept }: Craft): EffectiveSection[] {
  return [...new Set(kept.map(({ dialect }) => dialect))].map((dialect) => ({
    section: "verbatim",
    title: dialect,
    rows: kept
      .filter((line) => line.dialect === dialect)
      .map(({ text, source }) => ({ name: "", text, sources: [source], isKept: true })),
  }));
}

function distinct(sources: readonly Source[]): Source[] {
  const seen = new Map(sources.map((source) => [`${source.line}:${source.file}`, source]));
  return [...seen.values()];
}
