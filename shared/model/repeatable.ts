/** Which settings may be said on several lines that count together. */
import type { Catalogue } from "../catalogue/catalogue.ts";

const repeatableKnown = new WeakMap<Catalogue, Map<string, ReadonlySet<string>>>();

/** The names of the settings of a section of which several lines combine. */
export function repeatableIn(section: string, catalogue: Catalogue): ReadonlySet<string> {
  let known = repeatableKnown.get(catalogue);
  if (!known) {
    known = new Map();
    repeatableKnown.set(catalogue, known);
  }
  let names = known.get(section);
  if (!names) {
    names = new Set(catalogue.settingsOf(section).flatMap(({ name, repeatable }) => (repeatable ? name : [])));
    known.set(section, names);
  }
  return names;
}
