/**
 * Looks up settings of a craft by SECTION.NAME, as its files set them: undefined if none does. Defaults are
 * not used.
 */
import { convert } from "../catalogue/units.ts";
import type { Craft, Setting } from "./craft.ts";

/** The effective setting, also one whose line has a fault. */
export function settingOf(craft: Craft, path: string): Setting | undefined {
  const [section = "", name = ""] = path.split(".");
  return craft.settings.get(section)?.get(name);
}

/**
 * The number of a setting, converted to `unit`; undefined also if it is no quantity, has a fault, or is of
 * another family.
 */
export function amountIn(setting: Setting | undefined, unit: string): number | undefined {
  return setting?.value?.kind === "quantity" ? convert(setting.value.number, setting.value.unit, unit) : undefined;
}

/** The same, by SECTION.NAME. */
export function quantityOf(craft: Craft, path: string, unit: string): number | undefined {
  return amountIn(settingOf(craft, path), unit);
}

/** The number of an integer setting; undefined also for a value of another kind. */
export function integerOf(craft: Craft, path: string): number | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "integer" ? value.number : undefined;
}

/** The word of a choice; undefined also for a value of another kind. */
export function choiceOf(craft: Craft, path: string): string | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "choice" ? value.word : undefined;
}

/** The words of a list of choices; undefined also for a value of another kind. */
export function choicesOf(craft: Craft, path: string): readonly string[] | undefined {
  const value = settingOf(craft, path)?.value;
  return value?.kind === "list"
    ? value.items.flatMap((item) => (item.kind === "choice" ? [item.word] : []))
    : undefined;
}
