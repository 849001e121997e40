/** The names whose history can be asked for, as people write them. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import { exactly } from "../reference/page.ts";
import { GUESS, SURE, searchNames } from "../reference/search.ts";
import type { ValueName } from "./past-value.ts";

/** What was meant: one name, one of several, or none. */
export type NamedValue =
  | { readonly kind: "one"; readonly name: ValueName }
  | { readonly kind: "several"; readonly names: readonly string[] }
  | { readonly kind: "none"; readonly near: readonly string[] };

/**
 * SECTION.NAME, SECTION.NAME.FIELD, a name alone, or plain words for it, as something of a craft. Of several that have
 * the name those count that the craft says. `craft` is null where there is none now.
 */
export function valueNamed(asked: string, craft: Craft | null, catalogue: Catalogue): NamedValue {
  const typed = asked.trim();
  const whole = wholeName(typed, craft, catalogue);
  if (whole) return { kind: "one", name: whole };
  for (const find of [byName, byFieldOf, byWords]) {
    const found = [...new Set(find(typed, craft, catalogue))];
    const said = craft ? found.filter((each) => isSaid(craft, parts(each, catalogue))) : [];
    const meant = said.length > 0 ? said : found;
    if (meant.length === 1) return { kind: "one", name: parts(meant[0]!, catalogue) };
    if (meant.length > 1) return { kind: "several", names: meant };
  }
  const near = searchNames(catalogue, typed, 3)
    .filter(({ cost }) => cost < GUESS)
    .map(({ page }) => page)
    .flatMap(({ name, kind }) => (isValue(kind) ? withSection(name, kind) : []));
  return { kind: "none", near };
}

/** SECTION.NAME, and for a field SECTION.NAME.FIELD; of kept board text `verbatim/DIALECT`. */
export function wordsOfName({ section, name, field }: ValueName): string {
  if (name === "") return section;
  return [section, name, ...(field === null ? [] : [field])].join(".");
}

function isValue(kind: string): boolean {
  return kind === "setting" || kind === "mode" || kind === "element";
}

function withSection(name: string, kind: string): string[] {
  if (kind === "mode") return [`modes.${name}`];
  if (kind === "element") return [`osd.${name}`];
  return [name];
}

/** A name with its section, where the section is one that there is and may hold the name. */
function wholeName(typed: string, craft: Craft | null, catalogue: Catalogue): ValueName | null {
  if (typed.startsWith("verbatim/")) return { section: typed, name: "", field: null };
  if (typed === "handset" || typed === "handset.name") return { section: "handset", name: "name", field: null };
  if (!typed.includes(".")) return null;
  const name = parts(typed, catalogue);
  return mayBe(name, craft, catalogue) ? name : null;
}

/** Reads SECTION.NAME and SECTION.NAME.FIELD; the name of a pack may hold points, and no name of an entry does. */
function parts(typed: string, catalogue: Catalogue): ValueName {
  if (typed.startsWith("pack/")) {
    const dot = typed.lastIndexOf(".");
    return { section: typed.slice(0, dot), name: typed.slice(dot + 1), field: null };
  }
  const [section = "", name = "", field] = typed.split(".");
  const isFields = field !== undefined && fieldsOf(catalogue, section, name).includes(field);
  return { section, name: isFields || field === undefined ? name : `${name}.${field}`, field: isFields ? field : null };
}

function fieldsOf(catalogue: Catalogue, section: string, name: string): string[] {
  const types = catalogue.setting(baseOf(section), name)?.types ?? [];
  return types.flatMap((type) => (type.is === "fields" ? type.fields.map((field) => field.name) : []));
}

function mayBe({ section, name }: ValueName, craft: Craft | null, catalogue: Catalogue): boolean {
  const spec = catalogue.section(baseOf(section));
  if (!spec) return false;
  if (catalogue.setting(spec.name, name)) return true;
  if (spec.holds === "modes") return catalogue.mode(name) !== undefined;
  if (spec.holds === "places") return catalogue.element(name) !== undefined;
  if (section === "outputs" || section === "controls") return /^[A-Za-z][A-Za-z0-9-]*$/.test(name);
  return section === "adjust"
    ? catalogue.sections.some((each) => catalogue.setting(each.name, name))
    : isSaid(craft, { section, name, field: null });
}

function isSaid(craft: Craft | null, { section, name }: ValueName): boolean {
  if (!craft) return false;
  if (craft.settings.get(section)?.has(name)) return true;
  const own = {
    modes: craft.modes,
    outputs: craft.outputs,
    controls: craft.controls,
    osd: craft.osd,
    "osd-second": craft.osdSecond,
    adjust: craft.adjust,
  }[section];
  return own?.has(name) ?? false;
}

/** Everything of this name: of the catalogue, and what the craft calls so itself. */
function byName(typed: string, craft: Craft | null, catalogue: Catalogue): string[] {
  const known = exactly(catalogue, typed).named.flatMap(({ name, kind }) =>
    isValue(kind) ? withSection(name, kind) : [],
  );
  const sections = craft
    ? [...craft.settings.keys(), "modes", "outputs", "controls", "osd", "osd-second", "adjust"]
    : [];
  const own = sections.flatMap((section) =>
    isSaid(craft, { section, name: typed, field: null }) ? `${section}.${typed}` : [],
  );
  return [...own, ...known];
}

/** NAME.FIELD without its section. */
function byFieldOf(typed: string, craft: Craft | null, catalogue: Catalogue): string[] {
  const [name = "", field, more] = typed.split(".");
  if (field === undefined || more !== undefined) return [];
  return byName(name, craft, catalogue)
    .filter((each) => {
      const { section, name: own } = parts(each, catalogue);
      return fieldsOf(catalogue, section, own).includes(field);
    })
    .map((each) => `${each}.${field}`);
}

/** Plain words, as `explain` takes them: the best of what they find, where that is sure. */
function byWords(typed: string, _craft: Craft | null, catalogue: Catalogue): string[] {
  return exactly(catalogue, typed).named.length > 0 ? [] : sureNames(catalogue, typed);
}

function sureNames(catalogue: Catalogue, typed: string): string[] {
  return searchNames(catalogue, typed, 4)
    .filter(({ cost, page }) => cost < SURE && isValue(page.kind))
    .flatMap(({ page }) => withSection(page.name, page.kind));
}
