/** Checks a pilot's own settings and words against the catalogue and against each other; their shape is checked before. */
import { type Alias, type Catalogue, makeCatalogue } from "../../catalogue/catalogue.ts";
import type { ShapeProblem } from "../../catalogue/own-files.ts";
import type { FieldSpec, IntegerType, Need, OwnSetting, SettingSpec, ValueType } from "../../catalogue/specs.ts";
import { beyondLimits } from "../../model/limits.ts";
import { readSetting } from "../../model/read-value.ts";
import { didYouMean, similarNames } from "../../model/similar-names.ts";
import { units } from "../../model/units.ts";
import { RESERVED } from "../../syntax/read-context.ts";
import type { JsonPath } from "./json-text.ts";

/** Reports a problem in one part of a file. */
export type ReportProblem = (severity: "error" | "warning", problem: ShapeProblem) => void;

interface SettingToCheck<T> {
  readonly report: ReportProblem;
  readonly setting: T;
}

/** The valid settings, in order. Those with an error are reported and left out. */
export function settingProblems(given: readonly SettingToCheck<OwnSetting>[]): OwnSetting[] {
  const shipped = makeCatalogue();
  const kept: SettingToCheck<OwnSetting>[] = [];
  const taken = new Set<string>();
  for (const each of given) {
    const { setting, report } = each;
    let isValid = true;
    const fault = (path: JsonPath, message: string) => {
      isValid = false;
      report("error", { path, ofName: false, message });
    };
    const key = `${setting.section}.${setting.name}`;
    homeOf(setting, shipped, fault);
    if (taken.has(key))
      fault(["name"], `“${key}” is set up twice in your own catalogues, and this one is left out: keep one.`);
    if (setting.name === "drop" || RESERVED.has(setting.name) || units.symbol(setting.name))
      fault(["name"], `“${setting.name}” is a word of the language or a unit: choose another name.`);
    for (const [i, type] of setting.types.entries()) typeFaults(type, ["types", i], fault);
    if (isValid) for (const member of ["default", "example"] as const) valueFaults(setting, member, fault);
    taken.add(key);
    if (isValid) kept.push(each);
  }
  const settings = kept.map(({ setting }) => setting);
  const all = makeCatalogue(settings);
  for (const { setting, report } of kept) linkWarnings(setting, all, report);
  return settings;
}

/** Names that were meant are looked for while there are no more unknown ones than these. */
const MOST_GUESSED = 50;

/** The words that stand for an existing name, in order. The others are reported and left out. */
export function aliasProblems(
  given: readonly { readonly alias: Alias; readonly report: ReportProblem }[],
  catalogue: Catalogue,
): Alias[] {
  const names = namesIn(catalogue);
  const known = new Set(names.map((each) => each.name));
  const nameByWord = new Map<string, string>();
  let unknown = 0;
  return given.flatMap(({ alias, report }) => {
    const { word, name } = alias;
    if (!known.has(name)) {
      const meant = unknown++ < MOST_GUESSED ? question(name, names) : " Look at its spelling.";
      report("error", { path: [], ofName: false, message: `Nothing is called “${name}”.${meant}` });
      return [];
    }
    const plain = word.toLowerCase().replaceAll("-", " ");
    const before = nameByWord.get(plain);
    if (before !== undefined && before !== name)
      report("warning", {
        path: [],
        ofName: false,
        message: `“${word}” also stands for “${before}”: both are offered.`,
      });
    if (known.has(word) && word !== name)
      report("warning", {
        path: [],
        ofName: true,
        message: `“${word}” is itself a name, and a script that has it means that one: choose another word.`,
      });
    nameByWord.set(plain, name);
    return [alias];
  });
}

type ReportFault = (path: JsonPath, message: string) => void;

function homeOf({ section, name }: OwnSetting, shipped: Catalogue, fault: ReportFault): void {
  const spec = shipped.section(section);
  const open = shipped.sections.filter(({ holds, like }) => !like && (holds === "settings" || holds === "places"));
  if (!spec) fault(["section"], `There is no section “${section}”.${question(section, open)}`);
  else if (spec.like)
    fault(["section"], `“${section}” takes its settings from “${spec.like}”: put this one there, and both have it.`);
  else if (!open.includes(spec))
    fault(["section"], `“${section}” holds no settings: take one of ${open.map((each) => each.name).join(", ")}.`);
  else if (shipped.setting(section, name) || (spec.holds === "places" && shipped.element(name)))
    fault(["name"], `“${section}.${name}” is in the catalogue already, and its meaning stays: choose another name.`);
}

function typeFaults(type: ValueType, path: JsonPath, fault: ReportFault): void {
  switch (type.is) {
    case "quantity":
      if (type.unit !== "" && units.symbol(type.unit) !== type.unit)
        fault([...path, "unit"], `“${type.unit}” is no unit.${question(type.unit, units.all)}`);
      numberFaults(type, path, fault);
      break;
    case "integer":
      numberFaults(type, path, fault);
      break;
    case "range":
      typeFaults(type.of, [...path, "of"], fault);
      break;
    case "list":
      typeFaults(type.of, [...path, "of"], fault);
      if (type.fewest < 1 || type.most < type.fewest)
        fault([...path, "most"], "A list has at least 1 item, and “most” is not below “fewest”.");
      break;
    case "choice":
      type.choices.forEach(({ word }, i) => {
        if (type.choices.findIndex((each) => each.word === word) < i)
          fault([...path, "choices", i, "word"], `“${word}” is a choice already: remove one of the two.`);
      });
      break;
    case "fields":
      for (const [i, field] of type.fields.entries()) fieldFaults(field, i, type.fields, [...path, "fields", i], fault);
      break;
  }
}

function numberFaults(
  { min, max, usual }: Pick<IntegerType, "min" | "max" | "usual">,
  path: JsonPath,
  fault: ReportFault,
): void {
  const least = min?.at ?? Number.NEGATIVE_INFINITY;
  const most = max?.at ?? Number.POSITIVE_INFINITY;
  if (least >= most) fault([...path, "max"], `The upper limit, ${most}, should be above the lower, ${least}.`);
  usual?.forEach(({ from = least, to = most }, i) => {
    if (from > to || from < least || to > most)
      fault(
        [...path, "usual", i],
        "What is usual should rise and lie inside the limits: no value could be usual otherwise.",
      );
  });
}

function fieldFaults(
  field: FieldSpec,
  at: number,
  all: readonly FieldSpec[],
  path: JsonPath,
  fault: ReportFault,
): void {
  if (all.findIndex(({ name }) => name === field.name) < at)
    fault([...path, "name"], `“${field.name}” is a field already: give this one another name.`);
  if (RESERVED.has(field.name) || units.symbol(field.name))
    fault(
      [...path, "name"],
      `“${field.name}” is a word of the language or a unit, so no line could be read: choose another name.`,
    );
  for (const [i, type] of field.types.entries()) typeFaults(type, [...path, "types", i], fault);
}

/** Faults of the values that stand in the file beside a setting. */
function valueFaults(setting: SettingSpec, member: "default" | "example", fault: ReportFault): void {
  const text = setting[member];
  if (text === undefined) return;
  const { value, fault: unread } = readSetting(text, { start: 0, end: text.length }, setting, units);
  if (unread) fault([member], `The ${member} does not fit its own setting: ${unread.message}`);
  else if (value && beyondLimits(value, setting).length > 0)
    fault([member], `The ${member} lies outside the limits of its own setting: correct one or the other.`);
}

/** Warns of links to names that do not exist; the setting itself is still valid. */
function linkWarnings({ related, excludes, needs }: OwnSetting, catalogue: Catalogue, report: ReportProblem): void {
  const names = namesIn(catalogue);
  const warn = (path: JsonPath, name: string | undefined, known: boolean) => {
    if (name === undefined || known) return;
    report("warning", { path, ofName: false, message: `Nothing is called “${name}”.${question(name, names)}` });
  };
  const isSetting = (path = "") => catalogue.setting(path.split(".")[0] ?? "", path.split(".")[1] ?? "") !== undefined;
  const isName = (name: string) => names.some((each) => each.name === name);
  for (const [i, name] of (related ?? []).entries()) warn(["related", i], name, isName(name));
  for (const [i, { setting }] of (excludes ?? []).entries())
    warn(["excludes", i, "setting"], setting, isSetting(setting));
  needs?.forEach((need: Need, i) => {
    warn(["needs", i, "setting"], need.setting, isSetting(need.setting));
    warn(["needs", i, "mode"], need.mode, catalogue.mode(need.mode ?? "") !== undefined);
    warn(["needs", i, "section"], need.section, catalogue.section(need.section ?? "") !== undefined);
    const named = [need.setting, need.mode, need.section, need.port].filter((each) => each !== undefined);
    if (named.length !== 1)
      report("warning", {
        path: ["needs", i],
        ofName: false,
        message: "A need names exactly one of “setting”, “mode”, “section” and “port”: split it, or say which.",
      });
  });
}

interface NamedThing {
  readonly name: string;
  readonly words: readonly string[];
}

/** All names that an alias may stand for: settings with and without their section, modes, elements, sections. */
function namesIn(catalogue: Catalogue): NamedThing[] {
  return [
    ...catalogue.sections.flatMap((section): NamedThing[] => [
      section,
      ...section.settings.flatMap(({ name, words }) => [
        { name, words },
        { name: `${section.name}.${name}`, words },
      ]),
    ]),
    ...catalogue.modes,
    ...catalogue.elements,
  ];
}

function question(word: string, names: Parameters<typeof similarNames>[1]): string {
  return didYouMean(similarNames(word, names, 3)) || " Look at its spelling.";
}
