/** All names that have a reference page, each with its kind and a one-sentence summary. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { rules } from "../../rules/engine/registry.generated.ts";

export type NameKind = "setting" | "mode" | "element" | "rule" | "unit" | "section";

export interface NamedPage {
  /** A setting as SECTION.NAME. */
  readonly name: string;
  readonly kind: NameKind;
  readonly summary: string;
}

/** All names, in the catalogue's order: sections with their settings, modes, elements, units, rules. */
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
