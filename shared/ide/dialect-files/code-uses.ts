/** Where a code of a dialect is used, and for what: as our name, or as a value. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SettingSpec } from "../../catalogue/specs.ts";
import type { Code, Dialect, Meaning } from "../../dialect/dialect.ts";

export interface CodeUse {
  readonly meaning: Meaning;
  readonly as: "name" | "value";
}

/** The meanings whose slots a code spells, also as the items of a list or as a part of bits. */
export function usesOfCode(dialect: Dialect, name: string): CodeUse[] {
  return dialect.meanings.flatMap((meaning): CodeUse[] => {
    const slots = new Set(
      meaning.lefts.flatMap(({ pattern }) =>
        [...pattern.slots.values()].filter(({ code }) => code && holds(code, name)).map((slot) => slot.name),
      ),
    );
    if (slots.size === 0) return [];
    const isName = meaning.right.name.some((part) => typeof part === "object" && slots.has(part.slot));
    return [{ meaning, as: isName ? "name" : "value" }];
  });
}

function holds(code: Code, name: string): boolean {
  if (code.name === name) return true;
  if (code.kind === "list") return holds(code.of, name);
  return code.kind === "bits" && code.parts.some((part) => part.code !== null && holds(part.code, name));
}

/** The settings that a line may be about: by its name, and where a slot is the name by what their values are made of. */
export function settingsMeant({ section, right }: Meaning, catalogue: Catalogue): readonly SettingSpec[] {
  const all = catalogue.settingsOf(section);
  const [only] = right.name;
  if (typeof only === "string" && right.name.length === 1) return all.filter(({ name }) => name === only);
  const wantsFields = right.value.kind === "fields" || right.value.kind === "curve";
  return all.filter(
    ({ name, types }) =>
      (typeof only !== "string" || name.startsWith(only)) && types.some(({ is }) => (is === "fields") === wantsFields),
  );
}
