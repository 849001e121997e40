/** The comparisons of the catalogue by rule, with what each rests on. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Comparison } from "../../catalogue/specs.ts";
import { type OperandPath, operandPath, settingsOfOperand } from "../../numbers/operands.ts";
import type { LooksAt, NameGroup, SettingName } from "../engine/rule.ts";

/** Sections of which a craft may have several, each of which is compared by itself. */
export const SECOND_SETS: readonly string[] = ["rates", "gains"];

/** All settings that the comparisons of a rule look at. */
export function comparedSettings(code: Comparison["rule"], words: string): NameGroup {
  return {
    words,
    names: (catalogue) =>
      catalogue.comparisons.flatMap((each) => (each.rule === code ? settingsOfComparison(each, catalogue) : [])),
  };
}

/** All modes that the comparisons of a rule look at. */
export function comparedModes(code: Comparison["rule"]): NonNullable<LooksAt["modes"]> {
  return [
    {
      words: "every mode with which it holds",
      names: ({ comparisons }) =>
        comparisons.flatMap((each) => (each.rule === code ? (each.while ?? []).flatMap(({ mode }) => mode ?? []) : [])),
    },
  ];
}

function settingsOfComparison(each: Comparison, catalogue: Catalogue): SettingName[] {
  const others = (each.while ?? []).flatMap(({ setting }) => setting ?? []);
  return [
    ...settingsOfOperand(each.of, catalogue),
    ...settingsOfOperand(each.than, catalogue),
    ...others,
  ] as SettingName[];
}

/** A comparison with what it rests on, worked out once for a catalogue. */
export interface Planned {
  readonly comparison: Comparison;
  /** The settings of both ends, and the sections of these. */
  readonly paths: readonly OperandPath[];
  /** Those without which nothing can be compared, as no default stands in for them. */
  readonly needed: readonly OperandPath[];
  readonly bases: readonly string[];
  /** All settings on which it rests; null if it rests on more than settings. */
  readonly restsOn: readonly OperandPath[] | null;
}

/** What rests on a section. */
export interface Resting {
  readonly all: readonly Planned[];
  /** By the name of a setting: those that rest on it. */
  readonly byName: ReadonlyMap<string, readonly Planned[]>;
}

export interface Plan {
  readonly all: readonly Planned[];
  /** By section: those that rest on it, or on a second set of it. */
  readonly bySection: ReadonlyMap<string, Resting>;
  /** Those of which an end is a setting of packs, by its name. */
  readonly byPackSetting: ReadonlyMap<string, readonly Planned[]>;
  /** What those rest on besides the named pack that is looked at. */
  readonly besidesNamedPacks: readonly OperandPath[];
}

const plans = new WeakMap<Catalogue, Map<string, Plan>>();

/** The comparisons that a rule reports. */
export function planOf(catalogue: Catalogue, code: Comparison["rule"]): Plan {
  const known = plans.get(catalogue) ?? new Map<string, Plan>();
  plans.set(catalogue, known);
  const plan = known.get(code) ?? makePlan(catalogue, code);
  known.set(code, plan);
  return plan;
}

function hasDefault({ section, name, part }: OperandPath, catalogue: Catalogue): boolean {
  const spec = catalogue.setting(section, name);
  if (spec?.default !== undefined) return true;
  return (
    spec?.types.some(
      (type) => type.is === "fields" && type.fields.some((field) => field.name === part && field.default !== undefined),
    ) ?? false
  );
}

function makePlan(catalogue: Catalogue, code: Comparison["rule"]): Plan {
  const all = catalogue.comparisons
    .filter(({ rule }) => rule === code)
    .map((comparison): Planned => {
      const paths = settingsOfOperand(comparison.of, catalogue)
        .concat(settingsOfOperand(comparison.than, catalogue))
        .map(operandPath);
      const needed = [comparison.of, comparison.than]
        .filter((operand) => /^[a-z]/.test(operand))
        .map(operandPath)
        .filter((path) => !hasDefault(path, catalogue));
      const isOfSettings = (comparison.while ?? []).every(({ setting }) => setting !== undefined);
      const restsOn = isOfSettings ? settingsOfComparison(comparison, catalogue).map(operandPath) : null;
      return { comparison, paths, needed, restsOn, bases: [...new Set(paths.map(({ section }) => section))] };
    });
  const byPackSetting = new Map<string, Planned[]>();
  for (const planned of all)
    for (const { section, name } of planned.paths)
      if (section === "pack") byPackSetting.set(name, [...(byPackSetting.get(name) ?? []), planned]);
  const ofPacks = [...new Set([...byPackSetting.values()].flat())];
  const besides = ofPacks.flatMap(({ comparison }) => settingsOfComparison(comparison, catalogue)).map(operandPath);
  return { all, bySection: restingBySection(all, catalogue), byPackSetting, besidesNamedPacks: besides };
}

function restingBySection(all: readonly Planned[], catalogue: Catalogue): Plan["bySection"] {
  const bySection = new Map<string, { all: Set<Planned>; byName: Map<string, Planned[]> }>();
  for (const planned of all)
    for (const path of new Set(settingsOfComparison(planned.comparison, catalogue))) {
      const { section, name } = operandPath(path);
      for (const each of SECOND_SETS.includes(section) ? [section, `${section}-second`] : [section]) {
        const resting = bySection.get(each) ?? { all: new Set(), byName: new Map() };
        bySection.set(each, resting);
        resting.all.add(planned);
        resting.byName.set(name, [...(resting.byName.get(name) ?? []), planned]);
      }
    }
  return new Map([...bySection].map(([section, { all, byName }]) => [section, { all: [...all], byName }]));
}

/** The names that some pack says, in their order, and the comparisons of which an end is among them. */
interface Touched {
  readonly names: readonly string[];
  readonly touched: readonly Planned[];
}

/** By the number of names; the last pack with so many. */
const lastTouched = new WeakMap<Plan, Map<number, Touched>>();

/** The comparisons of which a named pack says an end itself. Packs mostly say the same names, in the same order. */
export function touchedBy(own: ReadonlyMap<string, unknown>, plan: Plan): readonly Planned[] {
  let bySize = lastTouched.get(plan);
  if (!bySize) {
    bySize = new Map();
    lastTouched.set(plan, bySize);
  }
  const last = bySize.get(own.size);
  if (last && isSameOrder(own, last.names)) return last.touched;
  const names = [...own.keys()];
  const touched = [...new Set(names.flatMap((name) => plan.byPackSetting.get(name) ?? []))];
  bySize.set(own.size, { names, touched });
  return touched;
}

/** Of a table with as many names. */
function isSameOrder(own: ReadonlyMap<string, unknown>, names: readonly string[]): boolean {
  let at = 0;
  for (const name of own.keys()) if (name !== names[at++]) return false;
  return true;
}
