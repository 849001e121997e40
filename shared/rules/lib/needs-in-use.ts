/** Everything of a craft, modes apart, that is in use and lacks what it needs. */
import type { Need } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { NameGroup } from "../engine/rule.ts";
import { isIdle, meetsNeed, wordsOf } from "./met-needs.ts";

/** What lacks something: a setting or one of its words, or an element. */
export interface InNeed {
  readonly what: string;
  readonly source: Source;
  readonly need: Need;
}

/** By the setting's or the element's line, in the order of the sections; a need that a named pack inherits comes once. */
export function unmetNeeds(craft: Craft, { catalogue }: Workspace): InNeed[] {
  const found: InNeed[] = [];
  const unmet = (needs: readonly Need[]) => needs.filter((need) => !meetsNeed(craft, need));
  for (const [section, settings] of craft.settings) {
    for (const { name, value, source } of settings.values()) {
      const needs = catalogue.setting(baseOf(section), name)?.needs;
      if (!needs || value === null) continue;
      const words = wordsOf(value);
      const idle = isIdle(value);
      for (const need of unmet(needs)) {
        if (need.word === undefined ? idle : !words.includes(need.word)) continue;
        // A setting of a layer that lies idle on this craft may serve another.
        if (!need.evenFromLayer && need.port === undefined && source.file !== craft.file) continue;
        const ofList = need.word !== undefined && value.kind === "list";
        found.push({
          what: ofList ? `${need.word} of ${name}` : need.word ? `${name} ${need.word}` : name,
          source,
          need,
        });
      }
    }
  }
  for (const page of [craft.osd, craft.osdSecond])
    for (const { name, value, source } of page.values())
      if (value)
        for (const need of unmet(catalogue.element(name)?.needs ?? [])) found.push({ what: name, source, need });
  return found;
}

/** Every setting that needs something, and every setting that something needs. */
export const NEEDING_SETTINGS: NameGroup = {
  words: "every setting that needs something, or that something needs",
  names: (catalogue) =>
    catalogue.sections
      .flatMap((section) =>
        section.settings.flatMap(({ name, needs = [] }) =>
          needs.length === 0 ? [] : [`${section.name}.${name}`, ...needs.flatMap(settingsOfNeed)],
        ),
      )
      .concat(catalogue.elements.flatMap(({ needs = [] }) => needs.flatMap(settingsOfNeed))),
};

/** Every element that needs something. */
export const NEEDING_ELEMENTS: NameGroup = {
  words: "every element that needs something",
  names: ({ elements }) => elements.flatMap(({ name, needs }) => (needs ? name : [])),
};

/** Every mode that a setting or an element needs. */
export const MODES_NEEDED_BY_SETTINGS: NameGroup = {
  words: "every mode that a setting needs",
  names: (catalogue) =>
    catalogue.sections.flatMap(({ settings }) =>
      settings.flatMap(({ needs = [] }) => needs.flatMap((need) => havings(need).flatMap(({ mode }) => mode ?? []))),
    ),
};

function settingsOfNeed(need: Need): string[] {
  return havings(need).flatMap(({ setting }) => setting ?? []);
}

/** A need, what it holds for, and its alternatives. */
function havings(need: Need) {
  return [need, ...(need.or ?? []), ...(need.while ?? [])];
}
