/** Holds a craft to the comparisons of the catalogue. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Comparison } from "../../catalogue/specs.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { perFile } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Operand, operandIn, operandPath, settingsOfOperand } from "../../numbers/operands.ts";
import type { LooksAt, NameGroup, Report, SettingName } from "../engine/rule.ts";
import { brokenInWords } from "./comparison-words.ts";
import { restingOn, valueLocation } from "./locations.ts";
import { hasIt } from "./met-needs.ts";

/** Sections of which a craft may have several, each of which is compared by itself. */
const SECOND_SETS: readonly string[] = ["rates", "gains"];

/** What the comparisons of one rule find in a craft. */
export function comparisonReports(craft: Craft, workspace: Workspace, code: Comparison["rule"]): Report[] {
  const plan = planOf(workspace.catalogue, code);
  return [...plainReports(plan, craft, workspace), ...namedPackReports(plan, craft, workspace, code)];
}

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
interface Planned {
  readonly comparison: Comparison;
  /** The settings of both ends, and the sections of these. */
  readonly paths: readonly { readonly section: string; readonly name: string }[];
  readonly bases: readonly string[];
}

interface Plan {
  readonly all: readonly Planned[];
  /** Those of which an end is a setting of packs, by its name. */
  readonly byPackSetting: ReadonlyMap<string, readonly Planned[]>;
  /** What those rest on besides the named pack that is looked at. */
  readonly besidesNamedPacks: readonly { readonly section: string; readonly name: string }[];
}

const plans = new WeakMap<Catalogue, Map<string, Plan>>();

function planOf(catalogue: Catalogue, code: Comparison["rule"]): Plan {
  const known = plans.get(catalogue) ?? new Map<string, Plan>();
  plans.set(catalogue, known);
  const plan = known.get(code) ?? makePlan(catalogue, code);
  known.set(code, plan);
  return plan;
}

function makePlan(catalogue: Catalogue, code: Comparison["rule"]): Plan {
  const all = catalogue.comparisons
    .filter(({ rule }) => rule === code)
    .map((comparison): Planned => {
      const paths = settingsOfOperand(comparison.of, catalogue)
        .concat(settingsOfOperand(comparison.than, catalogue))
        .map(operandPath);
      return { comparison, paths, bases: [...new Set(paths.map(({ section }) => section))] };
    });
  const byPackSetting = new Map<string, Planned[]>();
  for (const planned of all)
    for (const { section, name } of planned.paths)
      if (section === "pack") byPackSetting.set(name, [...(byPackSetting.get(name) ?? []), planned]);
  const ofPacks = [...new Set([...byPackSetting.values()].flat())];
  const besides = ofPacks.flatMap(({ comparison }) => settingsOfComparison(comparison, catalogue)).map(operandPath);
  return { all, byPackSetting, besidesNamedPacks: besides };
}

function plainReports({ all }: Plan, craft: Craft, workspace: Workspace): Report[] {
  return all.flatMap((planned) => {
    const { paths, bases } = planned;
    // The common case first: a craft that says nothing of either end.
    if (!paths.some((path) => isSaid(path, craft))) return [];
    return setsToRead(craft, bases).flatMap((chosen) => reportsOf(planned, chosen, craft, workspace));
  });
}

type Table = ReadonlyMap<string, Setting>;

/** The named packs of a file of which nothing was found, with what that rested on. */
interface Silent {
  besides: readonly (Setting["value"] | undefined)[];
  packs: Map<string, Table>;
}

const silentPacks = perFile(() => new Map<string, Silent>());
/** As many as a file can have; more were renamed while they were typed. */
const MOST_REMEMBERED = 6000;

/** A shelf may be long, and with each key one pack of it changes: the others are not looked at again. */
function namedPackReports(plan: Plan, craft: Craft, workspace: Workspace, code: string): Report[] {
  const named = [...craft.settings.keys()].filter((section) => section.startsWith("pack/"));
  if (named.length === 0 || plan.byPackSetting.size === 0) return [];
  const besides = plan.besidesNamedPacks.map(({ section, name }) => craft.settings.get(section)?.get(name)?.value);
  const stores = silentPacks(craft);
  let silent = stores.get(code);
  const isSame = silent?.besides.every((value, i) => value === besides[i]);
  if (!silent || !isSame || silent.packs.size > MOST_REMEMBERED) silent = { besides, packs: new Map() };
  stores.set(code, silent);
  const { packs } = silent;
  return named.flatMap((section) => {
    const own = craft.settings.get(section)!;
    if (packs.get(section) === own) return [];
    const chosen = new Map([["pack", section]]);
    // What a named pack only inherits is reported of the plain one.
    const touched = new Set([...own.keys()].flatMap((name) => plan.byPackSetting.get(name) ?? []));
    const reports = [...touched].flatMap((planned) =>
      setsToRead(craft, planned.bases).flatMap((sets) =>
        reportsOf(planned, new Map([...sets, ...chosen]), craft, workspace),
      ),
    );
    if (reports.length === 0) packs.set(section, own);
    return reports;
  });
}

function reportsOf(
  { comparison }: Planned,
  chosen: ReadonlyMap<string, string>,
  craft: Craft,
  workspace: Workspace,
): Report[] {
  const { catalogue } = workspace;
  const sectionOf = (section: string) => chosen.get(section) ?? section;
  if (comparison.while?.some((having) => hasIt(craft, having, sectionOf) !== true)) return [];
  const of = operandIn(craft, catalogue, comparison.of, comparison.unit, sectionOf);
  const than = of && operandIn(craft, catalogue, comparison.than, comparison.unit, sectionOf);
  if (!of || !than) return [];
  // A list may say one number a thousand times over.
  const others = [...new Set(than.numbers)];
  const wrong = [...new Set(of.numbers)].find((number) => !stands(number, comparison, others));
  if (wrong === undefined) return [];
  return reportOf(comparison, wrong, of, than, [...chosen.values()], craft, workspace);
}

function isSaid({ section, name }: { section: string; name: string }, craft: Craft): boolean {
  if (craft.settings.get(section)?.has(name)) return true;
  return SECOND_SETS.includes(section) && craft.settings.get(`${section}-second`)?.has(name) === true;
}

const ONE_WAY: readonly ReadonlyMap<string, string>[] = [new Map()];

/** Each choice of a set of rates and of a set of gains, as far as these sections take part; the plain pack. */
function setsToRead(craft: Craft, bases: readonly string[]): readonly ReadonlyMap<string, string>[] {
  let ways = ONE_WAY;
  for (const base of bases)
    if (SECOND_SETS.includes(base) && craft.settings.has(`${base}-second`))
      ways = ways.flatMap((way) => [base, `${base}-second`].map((section) => new Map([...way, [base, section]])));
  return ways;
}

/** Rounding in a conversion makes nothing too large. */
const ROUNDING = 1e-9;

function isClose(a: number, b: number): boolean {
  return Math.abs(a - b) <= ROUNDING * Math.max(Math.abs(a), Math.abs(b));
}

function stands(number: number, { must, times = 1, by = 0 }: Comparison, others: readonly number[]): boolean {
  const isRight = (other: number) => standsTo(number, must, other * times, by);
  return must === "be one of" ? others.some(isRight) : others.every(isRight);
}

function standsTo(number: number, must: Comparison["must"], other: number, by: number): boolean {
  switch (must) {
    case "be at most":
      return number < other || isClose(number, other);
    case "be below":
      return number < other && !isClose(number, other);
    case "be at least":
      return number > other || isClose(number, other);
    case "be above":
      return number > other && !isClose(number, other);
    case "be a whole part of":
      // What is larger than the whole is another comparison's business.
      return number > other || number === 0 || isClose(other / number, Math.round(other / number));
    case "be one of":
      return isClose(number, other);
    case "agree with":
      return Math.abs(number - other) <= by * (1 + ROUNDING);
    case "keep away from":
      return Math.abs(number - other) >= by * (1 - ROUNDING);
  }
}

function reportOf(
  comparison: Comparison,
  number: number,
  of: Operand,
  than: Operand,
  chosen: readonly string[],
  craft: Craft,
  workspace: Workspace,
): Report[] {
  const settings = [...new Set([...of.settings, ...than.settings])];
  // What a named pack or a second set only inherits is reported of the plain one.
  const special = chosen.filter((section) => section.startsWith("pack/") || section.endsWith("-second"));
  if (special.some((section) => !settings.some((setting) => setting.section === section))) return [];
  const main = settings.find(({ section }) => special.includes(section)) ?? settings[0];
  if (!main) return [];
  const others = settings.filter((setting) => setting !== main);
  const { reason, severity } = comparison;
  return [
    {
      at: valueLocation(workspace, main.source),
      message: `${ofWhich(special)}${brokenInWords(comparison, number, of, than, main, craft)} ${reason}`,
      ...(severity && { severity }),
      ...restingOn(others, workspace),
    },
  ];
}

function ofWhich(special: readonly string[]): string {
  const [section] = special;
  if (section === undefined) return "";
  return section.startsWith("pack/") ? `Pack “${section.slice("pack/".length)}”: ` : `In ${section}: `;
}
