/** Settings of a craft as some file says them, by SECTION.NAME: no default stands in. Undefined where nobody did. */
import { convert } from "../catalogue/units.ts";
import type { Craft, Setting } from "./craft.ts";

/** The line that counts, also one with a fault. */
export function settingOf(craft: Craft, path: string): Setting | undefined {
  const [section = "", name = ""] = path.split(".");
  return craft.settings.get(section)?.get(name);
}

/** The number of a setting in a unit; undefined also where it is no quantity, has a fault, or has no such unit. */
export function amountIn(setting: Setting | undefined, unit: string): number | undefined {
  return setting?.value?.kind === "quantity" ? convert(setting.value.number, setting.value.unit, unit) : undefined;
}

/** The same, by the setting's name. */
export function quantityOf(craft: Craft, path: string, unit: string): number | undefined {
  return amountIn(settingOf(craft, path), unit);
}

/** A whole number. */
export function integerOf(craft: Craft, path: string): number | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "integer" ? value.number : undefined;
}

/** The word that was chosen. */
export function choiceOf(craft: Craft, path: string): string | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "choice" ? value.word : undefined;
}

/** The words of a list of choices. */
export function choicesOf(craft: Craft, path: string): readonly string[] | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "list"
    ? value.items.flatMap((item) => (item.kind === "choice" ? [item.word] : []))
    : undefined;
}
