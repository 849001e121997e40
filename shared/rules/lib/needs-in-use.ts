/** Everything of a craft, modes apart, that is in use and lacks what it needs. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Need } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Setting, type Source } from "../../model/craft.ts";
import { answersByTable } from "../../model/each-table.ts";
import { keptWhileSame } from "../../model/listened-craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Severity } from "../../protocol/findings.ts";
import type { NameGroup } from "../engine/rule.ts";
import { isIdle, meetsNeed, wordsOf } from "./met-needs.ts";

export interface InNeed {
  /** What lacks something, as in a message: a setting or one of its words, or an element. */
  readonly what: string;
  readonly source: Source;
  readonly need: Need;
}

/** Gives what is not met in a craft of the needs that `isLookedAt`: in the order of the sections, then of the OSD's pages. */
export function unmetNeeds(isLookedAt: (need: Need) => boolean): (craft: Craft, workspace: Workspace) => InNeed[] {
  const bySettings = unmetBySettings((need, at, craft) => isLookedAt(need) && !isIdleInLayer(need, at, craft));
  return (craft, { catalogue }) => {
    const found = [...bySettings(craft, catalogue)];
    for (const page of [craft.osd, craft.osdSecond])
      for (const { name, value, source } of page.values())
        for (const need of (value && catalogue.element(name)?.needs) ?? [])
          if (isLookedAt(need) && !meetsNeed(craft, need)) found.push({ what: name, source, need });
    return found;
  };
}

/** The lines of layers that lie idle on this craft, because what they need is missing: of those nothing is reported. */
export function idleLinesOfLayers(craft: Craft, { catalogue }: Workspace): Source[] {
  return idleOfLayers(craft, catalogue).map(({ source }) => source);
}

/** A setting of a layer that lies idle on this craft may serve another. */
function isIdleInLayer(need: Need, { file }: Source, craft: Craft): boolean {
  return !need.misleads && need.port === undefined && file !== craft.file;
}

/** Gone through anew only where a setting that needs something is another, or what was looked at for the needs. */
function unmetBySettings(
  isLookedAt: (need: Need, source: Source, craft: Craft) => boolean,
): (craft: Craft, catalogue: Catalogue) => readonly InNeed[] {
  const unmetOf = keptWhileSame((craft, needing: readonly (readonly Needy[])[]) => {
    const found: InNeed[] = [];
    /** By need, as all packs have the same ones. */
    const met = new Map<Need, boolean>();
    const isMet = (need: Need) => {
      const known = met.get(need) ?? meetsNeed(craft, need);
      met.set(need, known);
      return known;
    };
    for (const pairs of needing) {
      for (const { setting, need } of pairs) {
        const { name, value, source } = setting;
        if (!isLookedAt(need, source, craft) || isMet(need)) continue;
        const ofList = need.word !== undefined && value?.kind === "list";
        found.push({
          what: ofList ? `“${need.word}” in ${name}` : need.word ? `“${name} ${need.word}”` : name,
          source,
          need,
        });
      }
    }
    return found;
  });
  return (craft, catalogue) =>
    unmetOf(
      craft,
      needy(craft, [catalogue], (section, table) => needyIn(section, table, catalogue)),
    );
}

const idleOfLayers = unmetBySettings(isIdleInLayer);

interface Needy {
  readonly setting: Setting;
  readonly need: Need;
}

const needy = answersByTable<readonly Needy[]>(
  (a, b) =>
    a.length === b.length && a.every(({ setting, need }, i) => setting === b[i]!.setting && need === b[i]!.need),
);
const NOTHING: readonly Needy[] = [];

/** What the settings of a section need, by their values. */
function needyIn(section: string, table: ReadonlyMap<string, Setting>, catalogue: Catalogue): readonly Needy[] {
  const base = baseOf(section);
  let all: Needy[] | null = null;
  for (const setting of table.values()) {
    const needs = catalogue.setting(base, setting.name)?.needs;
    if (!needs) continue;
    for (const need of needs) {
      if (!isOfValue(need, setting)) continue;
      all ??= [];
      all.push({ setting, need });
    }
  }
  return all ?? NOTHING;
}

/** Whether a setting with that value has a need: one of its words, or any value that is not idle. */
function isOfValue({ word }: Need, { value, text }: Setting): boolean {
  if (value === null) return false;
  return word === undefined ? !isIdle(value) : text === word || wordsOf(value).includes(word);
}

/** A need that a port alone can meet, which is reported of all its users together. */
export function isForPort({ port, or }: Need): boolean {
  return port !== undefined && or === undefined;
}

/** How serious an unmet need of a setting or an element is. */
export function severityOfNeed(need: Need): Severity {
  return need.severity ?? (isForPort(need) ? "error" : need.misleads ? "warning" : "hint");
}

/** The settings that have such needs, and those that these needs name. */
export function settingsInNeed(words: string, isLookedAt: (need: Need) => boolean): NameGroup {
  return {
    words,
    names: (catalogue) => [
      ...catalogue.sections.flatMap((section) =>
        section.settings.flatMap(({ name, needs = [] }) => {
          const all = needs.filter(isLookedAt);
          return all.length === 0 ? [] : [`${section.name}.${name}`, ...all.flatMap(settingsOfNeed)];
        }),
      ),
      ...catalogue.elements.flatMap(({ needs = [] }) => needs.filter(isLookedAt).flatMap(settingsOfNeed)),
    ],
  };
}

/** The elements that have such needs. */
export function elementsInNeed(words: string, isLookedAt: (need: Need) => boolean): NameGroup {
  return {
    words,
    names: ({ elements }) => elements.flatMap(({ name, needs }) => (needs?.some(isLookedAt) ? name : [])),
  };
}

/** The modes that such needs of settings name. */
export function modesNeeded(words: string, isLookedAt: (need: Need) => boolean): NameGroup {
  return {
    words,
    names: ({ sections }) =>
      sections.flatMap(({ settings }) =>
        settings.flatMap(({ needs = [] }) =>
          needs.filter(isLookedAt).flatMap((need) => havings(need).flatMap(({ mode }) => mode ?? [])),
        ),
      ),
  };
}

function settingsOfNeed(need: Need): string[] {
  return havings(need).flatMap(({ setting }) => setting ?? []);
}

/** A need, what it holds for, and its alternatives. */
function havings(need: Need) {
  return [need, ...(need.or ?? []), ...(need.while ?? [])];
}
