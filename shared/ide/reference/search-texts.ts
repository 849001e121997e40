/** The texts by which a name is found, besides the name and its summary. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SettingSpec } from "../../catalogue/specs.ts";
import { unitFamily } from "../../catalogue/units.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { languageWord } from "./language-words.ts";
import type { PageName } from "./page-names.ts";

/** The plain words by which a name is found. */
export function searchWords(catalogue: Catalogue, name: string, kind: PageName["kind"]): readonly string[] {
  switch (kind) {
    case "setting":
      return settingNamed(catalogue, name)?.words ?? [];
    case "mode":
      return catalogue.mode(name)?.words ?? [];
    case "element":
      return catalogue.element(name)?.words ?? [];
    case "section":
      return catalogue.section(name)?.words ?? [];
    case "unit": {
      const unit = unitFamily(name)?.units.find(({ symbol }) => symbol === name);
      return [unit?.name ?? name, ...(unit?.also ?? [])];
    }
    case "word":
      return languageWord(name)?.also ?? [];
    case "rule":
      return [];
  }
}

/** Why one would change it, or what is wrong where a rule fires. */
export function whyOf(catalogue: Catalogue, { name, kind }: PageName): string {
  switch (kind) {
    case "setting":
      return settingNamed(catalogue, name)?.why ?? "";
    case "mode":
      return catalogue.mode(name)?.why ?? "";
    case "element":
      return catalogue.element(name)?.why ?? "";
    case "section":
      return catalogue.section(name)?.why ?? "";
    case "rule":
      return rules.find((rule) => rule.code === name)?.prose ?? "";
    case "unit":
    case "word":
      return "";
  }
}

/** The setting of a name, SECTION.NAME. */
export function settingNamed(catalogue: Catalogue, name: string): SettingSpec | undefined {
  const dot = name.indexOf(".");
  return catalogue.setting(name.slice(0, dot), name.slice(dot + 1));
}
