/** Holds a craft to the comparisons of the catalogue. */
import type { Comparison } from "../../catalogue/specs.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { answersByNamedPack } from "../../model/each-table.ts";
import { tableOf } from "../../model/listened-craft.ts";
import { perCore, perFile } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { describedOperand, numbersOfOperand, type Operand, oneNumberOf, type PackAt } from "../../numbers/operands.ts";
import { packIn } from "../../numbers/pack-of.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Report } from "../engine/rule.ts";
import { type Plan, type Planned, planOf, type Resting, SECOND_SETS, touchedBy } from "./comparison-plan.ts";
import { brokenInWords } from "./comparison-words.ts";
import { restingOn, valueLocation } from "./locations.ts";
import { hasIt } from "./met-needs.ts";

/** What the comparisons of one rule find in a craft. */
export function comparisonReports(craft: Craft, workspace: Workspace, code: Comparison["rule"]): Report[] {
  const plan = planOf(workspace.catalogue, code);
  return joined([...plainReports(plan, craft, workspace), ...namedPackReports(plan, craft, workspace, code)]);
}

/** A report, and the parts of its message by which several of one line become one. */
interface Broken {
  readonly report: Report;
  readonly sentence: string;
  readonly reason: string;
  /** What the value is compared with. */
  readonly other: string;
}

/** One value that breaks one comparison against several others, such as the three axes, is one fault. */
function joined(all: readonly Broken[]): Report[] {
  const groups = new Map<string, [Broken, ...Broken[]]>();
  for (const each of all) {
    const { source, start } = each.report.at;
    const key = `${source.file}:${source.line}:${start}:${each.reason}`;
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return [...groups.values()].map(([first, ...more]) => {
    if (more.length === 0) return first.report;
    const names = [...new Set(more.map(({ other }) => other))].filter((name) => name !== first.other);
    const also = names.length > 0 ? ` So it is with ${joinWithAnd(names)}.` : "";
    return {
      ...first.report,
      message: `${first.sentence}${also} ${first.reason}`,
      related: [first, ...more].flatMap(({ report }) => report.related ?? []),
      alsoOf: [first, ...more].flatMap(({ report }) => report.alsoOf ?? []),
    };
  });
}

/** By comparison: the values with which it last held. Equal lines share one value, so craft of one layer share the answer. */
const lastHeld = perCore(() => new Map<Planned, readonly (Setting["value"] | undefined)[]>());

/** What was looked at last in the craft of a file. */
interface Looked {
  readonly tables: ReadonlyMap<string, Table | undefined>;
  /** The comparisons of which something was found, and those that rest on more than settings. */
  readonly due: ReadonlySet<Planned>;
}

const lastLooked = perFile(() => new Map<Plan, Looked>());

/** Only what rests on a setting that is another now is compared again, and that of which something was found. */
function plainReports(plan: Plan, craft: Craft, workspace: Workspace): Broken[] {
  const looked = lastLooked(craft);
  const last = looked.get(plan);
  const tables = new Map<string, Table | undefined>();
  const touched = new Set(last?.due);
  for (const [section, resting] of plan.bySection) {
    const table = tableOf(craft, section);
    tables.set(section, table);
    const before = last?.tables.get(section);
    if (last && table !== before) for (const planned of restingOnChanged(resting, before, table)) touched.add(planned);
  }
  const due = new Set<Planned>();
  const found: Broken[] = [];
  let pack: PackAt | null = null;
  for (const planned of plan.all) {
    if (last && !touched.has(planned)) continue;
    const isDue = isToCompare(planned, tables);
    if (isDue) pack ??= plainPackOf(craft, workspace);
    const reports = isDue ? plainReportsOf(planned, craft, workspace, pack!) : NOTHING;
    if (reports.length > 0 || planned.restsOn === null) due.add(planned);
    found.push(...reports);
  }
  looked.set(plan, { tables, due });
  return found;
}

/** What rests on settings that differ between two tables of a section. */
function* restingOnChanged({ all, byName }: Resting, before: Table | undefined, now: Table | undefined) {
  // With a second set that comes or goes all is compared in another way.
  if (!before || !now) yield* all;
  else for (const [name, resting] of byName) if (before.get(name) !== now.get(name)) yield* resting;
}

function plainPackOf(craft: Craft, { catalogue }: Workspace): PackAt {
  const plain = craft.settings.get("pack") ?? NO_TABLE;
  return { figures: packIn(craft, catalogue, "pack"), own: plain, plain };
}

/** Whether a craft says both ends, which is not the common case. */
function isToCompare({ paths, needed }: Planned, tables: Looked["tables"]): boolean {
  for (const path of needed) if (!isSaid(path, tables)) return false;
  for (const path of paths) if (isSaid(path, tables)) return true;
  return false;
}

function plainReportsOf(planned: Planned, craft: Craft, workspace: Workspace, pack: PackAt): readonly Broken[] {
  const { bases, restsOn } = planned;
  const ways = setsToRead(craft, bases);
  if (ways !== ONE_WAY || restsOn === null)
    return ways.flatMap((chosen) => reportsOf(planned, chosen, craft, workspace));
  const held = lastHeld(craft);
  const values = restsOn.map(({ section, name }) => craft.settings.get(section)?.get(name)?.value);
  const last = held.get(planned);
  if (last?.every((value, i) => value === values[i])) return [];
  const stand = standPlainly(planned, craft, workspace, pack);
  const reports = stand ? NOTHING : reportsOf(planned, ways[0]!, craft, workspace);
  if (reports.length === 0) held.set(planned, values);
  return reports;
}

type Table = ReadonlyMap<string, Setting>;
const NO_TABLE: Table = new Map();

/** By the rule: the sections that are named packs of which something is found, null for the others. */
const faultyPacks: Readonly<Record<Comparison["rule"], ReturnType<typeof answersByNamedPack<string | null>>>> = {
  "values-contradict": answersByNamedPack(),
  "beyond-rating": answersByNamedPack(),
};

/** A shelf may be long, and with each key one pack of it changes: the others are not looked at again. */
function namedPackReports(plan: Plan, craft: Craft, workspace: Workspace, code: Comparison["rule"]): Broken[] {
  if (plan.byPackSetting.size === 0) return [];
  const besides = plan.besidesNamedPacks.map(({ section, name }) => craft.settings.get(section)?.get(name)?.value);
  const plain = craft.settings.get("pack") ?? NO_TABLE;
  const isOneWay = SECOND_SETS.every((base) => !craft.settings.has(`${base}-second`));
  const reportsIn = (section: string, own: Table) => {
    let chosen: ReadonlyMap<string, string> | null = null;
    const pack = { figures: packIn(craft, workspace.catalogue, section), own, plain };
    // What a named pack only inherits is reported of the plain one.
    const found: Broken[] = [];
    for (const planned of touchedBy(own, plan)) {
      const ways = isOneWay ? ONE_WAY : setsToRead(craft, planned.bases);
      if (ways === ONE_WAY && standPlainly(planned, craft, workspace, pack)) continue;
      chosen ??= new Map([["pack", section]]);
      for (const sets of ways) {
        const way = ways === ONE_WAY ? chosen : new Map([...sets, ...chosen]);
        for (const each of reportsOf(planned, way, craft, workspace)) found.push(each);
      }
    }
    return found;
  };
  const faulty = faultyPacks[code](craft, [plan, ...besides], (section, own) =>
    reportsIn(section, own).length > 0 ? section : null,
  );
  // Where its lines stand may have changed since.
  return faulty.flatMap((section) => (section === null ? [] : reportsIn(section, tableOf(craft, section)!)));
}

/** Whether one number surely stands to one other as it must, or one of them is not known, as it nearly always is. */
function standPlainly({ comparison }: Planned, craft: Craft, { catalogue }: Workspace, pack: PackAt): boolean {
  const { of, than, unit, must, times = 1, by = 0 } = comparison;
  const number = oneNumberOf(craft, catalogue, of, unit, pack);
  if (number === null || number === undefined) return number === null;
  const other = oneNumberOf(craft, catalogue, than, unit, pack);
  if (other === null || other === undefined) return other === null;
  return standsTo(number, must, other * times, by);
}

function reportsOf(
  { comparison }: Planned,
  chosen: ReadonlyMap<string, string>,
  craft: Craft,
  workspace: Workspace,
): readonly Broken[] {
  const { catalogue } = workspace;
  const sectionOf = (section: string) => chosen.get(section) ?? section;
  if (comparison.while?.some((having) => hasIt(craft, having, sectionOf) !== true)) return NOTHING;
  const { of, than, unit } = comparison;
  const numbers = numbersOfOperand(craft, catalogue, of, unit, sectionOf);
  const others = numbers.length === 0 ? numbers : numbersOfOperand(craft, catalogue, than, unit, sectionOf);
  if (others.length === 0) return NOTHING;
  // One beside one, as it nearly always is.
  const { must, times = 1, by = 0 } = comparison;
  if (numbers.length === 1 && others.length === 1 && standsTo(numbers[0]!, must, others[0]! * times, by))
    return NOTHING;
  // A list may say one number a thousand times over.
  const different = others.length > 1 ? [...new Set(others)] : others;
  const wrong = [...new Set(numbers)].find((number) => !stands(number, comparison, different));
  if (wrong === undefined) return NOTHING;
  const [ofEnd, thanEnd] = [
    describedOperand(craft, catalogue, of, numbers, sectionOf),
    describedOperand(craft, catalogue, than, others, sectionOf),
  ];
  return reportOf(comparison, wrong, ofEnd, thanEnd, [...chosen.values()], craft, workspace);
}

function isSaid({ section, name }: { section: string; name: string }, tables: Looked["tables"]): boolean {
  if (tables.get(section)?.has(name)) return true;
  return SECOND_SETS.includes(section) && tables.get(`${section}-second`)?.has(name) === true;
}

const NOTHING: readonly Broken[] = [];
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
): Broken[] {
  const settings = [...new Set([...of.settings, ...than.settings])];
  // What a named pack or a second set only inherits is reported of the plain one.
  const special = chosen.filter((section) => section.startsWith("pack/") || section.endsWith("-second"));
  if (special.some((section) => !settings.some((setting) => setting.section === section))) return [];
  const main = settings.find(({ section }) => special.includes(section)) ?? settings[0];
  if (!main) return [];
  const others = settings.filter((setting) => setting !== main);
  const { reason, severity } = comparison;
  const sentence = `${ofWhich(special)}${brokenInWords(comparison, number, of, than, main, craft)}`;
  const report: Report = {
    at: valueLocation(workspace, main.source),
    message: `${sentence} ${reason}`,
    ...(severity && { severity }),
    ...restingOn(others, workspace),
  };
  return [{ report, sentence, reason, other: main === of.settings[0] ? than.words : of.words }];
}

function ofWhich(special: readonly string[]): string {
  const [section] = special;
  if (section === undefined) return "";
  return section.startsWith("pack/") ? `Pack “${section.slice("pack/".length)}”: ` : `In ${section}: `;
}
