/** Holds a craft to the comparisons of the catalogue. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Comparison } from "../../catalogue/specs.ts";
import type { Craft } from "../../model/craft.ts";
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
  const { comparisons } = workspace.catalogue;
  return comparisons.flatMap((each) => (each.rule === code ? reportsOf(each, craft, workspace) : []));
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

function reportsOf(comparison: Comparison, craft: Craft, workspace: Workspace): Report[] {
  const { catalogue } = workspace;
  // The common case first: a craft that says nothing of one end.
  const ends = [comparison.of, comparison.than].map((operand) => settingsOfOperand(operand, catalogue));
  if (!ends.flat().some((path) => isSaid(path, craft))) return [];
  const bases = [...new Set(ends.flat().map((path) => operandPath(path).section))];
  return waysToRead(craft, bases).flatMap((chosen) => {
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
  });
}

function isSaid(path: string, craft: Craft): boolean {
  const { section, name } = operandPath(path);
  if (craft.settings.get(section)?.has(name)) return true;
  if (section === "pack") return [...craft.settings.keys()].some((each) => each.startsWith("pack/"));
  return SECOND_SETS.includes(section) && craft.settings.get(`${section}-second`)?.has(name) === true;
}

/** Each choice of a pack, of a set of rates, and of a set of gains, as far as these sections take part. */
function waysToRead(craft: Craft, bases: readonly string[]): ReadonlyMap<string, string>[] {
  let ways: ReadonlyMap<string, string>[] = [new Map()];
  for (const base of bases) {
    const sections =
      base === "pack"
        ? ["pack", ...[...craft.settings.keys()].filter((each) => each.startsWith("pack/"))]
        : SECOND_SETS.includes(base) && craft.settings.has(`${base}-second`)
          ? [base, `${base}-second`]
          : [base];
    if (sections.length > 1 || sections[0] !== base)
      ways = ways.flatMap((way) => sections.map((section) => new Map([...way, [base, section]])));
  }
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
