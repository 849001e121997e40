/** Settings as the scenarios ask for them: a number in one unit, or a word; undefined where the craft does not say it. */
import { convert } from "../catalogue/units.ts";
import type { Craft } from "../model/craft.ts";
import type { Value } from "../syntax/value.ts";

/** The number of a quantity in `unit`; undefined where it is not said, has a fault, or is of another family. */
export function quantityOf(craft: Craft, path: string, unit: string): number | undefined {
  const value = saidValue(craft, path);
  return value?.kind === "quantity" ? convert(value.number, value.unit, unit) : undefined;
}

export function integerOf(craft: Craft, path: string): number | undefined {
  const value = saidValue(craft, path);
  return value?.kind === "integer" ? value.number : undefined;
}

export function wordOf(craft: Craft, path: string): string | undefined {
  const value = saidValue(craft, path);
  return value?.kind === "choice" ? value.word : undefined;
}

/** The words of a list of choices. */
export function wordsOf(craft: Craft, path: string): readonly string[] | undefined {
  const value = saidValue(craft, path);
  return value?.kind === "list"
    ? value.items.flatMap((item) => (item.kind === "choice" ? [item.word] : []))
    : undefined;
}

function saidValue(craft: Craft, path: string): Value | null | undefined {
  const [section = "", name = ""] = path.split(".");
  return craft.settings.get(section)?.get(name)?.value;
}
