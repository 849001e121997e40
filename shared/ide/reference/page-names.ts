/** The names that have a reference page: all of them, each with its kind and a one-sentence summary. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { NamedPage, NameKind } from "../../protocol/pages.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { languageWords } from "./language-words.ts";

export type { NamedPage, NameKind } from "../../protocol/pages.ts";

/** The names of the catalogue and the rules, in order: sections with their settings, modes, elements, units, rules. */
export function listNames(catalogue: Catalogue): NamedPage[] {
  return [
    ...catalogue.sections.flatMap((section): NamedPage[] => [
      { name: section.name, kind: "section", summary: section.what },
      ...catalogue
        .settingsOf(section.name)
        .map(
          (setting): NamedPage => ({ name: `${section.name}.${setting.name}`, kind: "setting", summary: setting.what }),
        ),
    ]),
    ...catalogue.modes.map((mode): NamedPage => ({ name: mode.name, kind: "mode", summary: mode.what })),
    ...catalogue.elements.map((element): NamedPage => ({ name: element.name, kind: "element", summary: element.what })),
    ...catalogue.unitFamilies.flatMap((family) =>
      family.units.map(
        (unit): NamedPage => ({ name: unit.symbol, kind: "unit", summary: `${unit.name}. ${family.what}` }),
      ),
    ),
    ...rules.map((rule): NamedPage => ({ name: rule.code, kind: "rule", summary: rule.summary })),
  ];
}

/** Every name that can be explained: those of `listNames`, then the words of the language. */
export function everyName(catalogue: Catalogue): NamedPage[] {
  return [
    ...listNames(catalogue),
    ...languageWords.map(({ word, summary }): NamedPage => ({ name: word, kind: "word", summary })),
  ];
}

export type PageName = Pick<NamedPage, "name" | "kind">;

const ADDRESS = /^(setting|mode|element|rule|unit|section|word)[/ ](.+)$/;

/** The address of a page, `KIND/NAME`. */
export function pageAddress({ kind, name }: PageName): string {
  return `${kind}/${name}`;
}

/**
 * What is asked for: a name alone, or `KIND/NAME` (a blank does as well), or a finding's code as editors copy it,
 * `fettle(CODE)`.
 */
export function parseAddress(asked: string): { readonly kind: NameKind | null; readonly name: string } {
  const code = /^fettle\(([a-z-]+)\)$/.exec(asked)?.[1];
  if (code !== undefined) return { kind: "rule", name: code };
  const [, kind, name] = ADDRESS.exec(asked) ?? [];
  return kind === undefined ? { kind: null, name: asked } : { kind: kind as NameKind, name: name! };
}
