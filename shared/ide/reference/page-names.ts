/** The names that have a reference page: all of them, each with its kind and a one-sentence summary, and the one at a position. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import type { Position } from "../../syntax/span.ts";
import { allowanceAt, coversColumn, cursorContextAt } from "../context/cursor-context.ts";

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

export type PageName = Pick<NamedPage, "name" | "kind">;

/** The section, setting, mode, element or accepted rule at a position, as its page is named; null if there is none. */
export function pageNameAt(workspace: Workspace, file: string, at: Position): PageName | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, column, spec, section, entry, piece, text } = cursor;
  const { catalogue } = workspace;
  const inSection = (name: string): PageName | null => {
    const base = section === null ? "" : baseOf(section);
    if (spec?.holds === "modes") return modeNamed(name);
    if (spec?.holds === "places" && catalogue.element(name)) return { name, kind: "element" };
    return catalogue.setting(base, name) ? { name: `${base}.${name}`, kind: "setting" } : null;
  };
  const modeNamed = (name: string): PageName | null => (catalogue.mode(name) ? { name, kind: "mode" } : null);
  const code = allowanceAt(cursor)?.code;
  if (code !== undefined) return rules.some((rule) => rule.code === code) ? { name: code, kind: "rule" } : null;
  switch (node.kind) {
    case "section":
      return spec && coversColumn(node.name, column) ? { name: spec.name, kind: "section" } : null;
    case "drop": {
      const word = node.names.find((each) => coversColumn(each, column));
      return word ? inSection(word.text) : null;
    }
    case "entry":
      if (coversColumn(node.head, column)) return inSection(node.head.text);
      if (piece?.kind === "mode") return modeNamed(text.slice(piece.start, piece.end));
      return entry?.kind === "setting" && piece ? inSection(entry.name) : null;
    default:
      return null;
  }
}
