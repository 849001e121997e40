/** What the catalogue knows of a name, in parts: hovers, completion and reference pages show those that they need. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type {
  ElementSpec,
  FieldSpec,
  Limit,
  ModeSpec,
  SectionSpec,
  SettingSpec,
  UnitFamily,
  UsualBand,
  ValueType,
} from "../../catalogue/specs.ts";
import { amountText } from "../../model/other-scale.ts";
import { bandConditionText, type CraftTraits, possibleBands } from "../../model/usual-band.ts";
import { briefComparisonLines } from "./brief-relations.ts";
import { codeSpan, list, paragraphs, warning } from "./markdown.ts";
import { asksFor, neededByLine, needLine } from "./relation-lines.ts";

/** The kinds of settings, in words. */
export const SETTING_KINDS_IN_WORDS = {
  hardware: "hardware: true of this craft only",
  taste: "taste: the pilot's own",
  safety: "safety",
} as const;

/** What is known of a name, in the parts in which it is shown. */
export interface Description {
  /** As it is named by itself: a setting as SECTION.NAME. */
  readonly title: string;
  /** What it is, in one sentence. */
  readonly what: string;
  /** The caution where it can hurt someone, with its sign; empty where there is none. */
  readonly hazard: string;
  /** All the rest as Markdown: why one would change it, limits with their sources, what it needs. */
  readonly rest: string;
}

/** A setting; of what is usual only what may be so on a craft of these traits. */
export function describeSetting(
  catalogue: Catalogue,
  setting: SettingSpec,
  section: string,
  traits: CraftTraits = {},
): Description {
  const firstSetName = `${catalogue.section(section)?.like ?? section}.${setting.name}`;
  const rest = () =>
    paragraphs(
      setting.why,
      list([
        ...setting.types.flatMap((type) => linesOfType(type, briefBandLines(traits))),
        setting.default === undefined ? "No default" : `Default: ${codeSpan(setting.default)}`,
        `Kind: ${SETTING_KINDS_IN_WORDS[setting.kind]}`,
        ...(setting.repeatable ? ["May be given several times: the lines form a list, in order"] : []),
        ...(setting.needs ?? []).map(needLine),
        ...(setting.excludes ?? []).map((each) => `Not together with \`${each.setting}\`: ${each.reason}`),
        ...briefComparisonLines(catalogue, firstSetName),
        ...neededByLine(catalogue, asksFor(firstSetName)),
      ]),
    );
  return described(`${section}.${setting.name}`, setting, rest);
}

/** A mode, with what it needs. */
export function describeMode(mode: ModeSpec): Description {
  return described(mode.name, mode, () => paragraphs(mode.why, list((mode.needs ?? []).map(needLine))));
}

/** An element of the OSD, with its size and what it needs. */
export function describeElement(element: ElementSpec): Description {
  const rest = () => {
    const widest =
      element.drawn === "text"
        ? `Widest text: \`${element.widest.join(" / ")}\``
        : `Drawn as a figure: ${element.drawn}`;
    return paragraphs(
      element.why,
      list([
        `${widest}, ${widestSize(element)}${element.textOf ? " (the text's own length counts)" : ""}`,
        ...(element.needs ?? []).map(needLine),
      ]),
    );
  };
  return described(element.name, element, rest);
}

/** The size of an element with its widest text: `7 x 1 cells`. */
export function widestSize({ widest }: ElementSpec): string {
  return `${Math.max(...widest.map((row) => [...row].length))} x ${widest.length} cells`;
}

/** A section, with the files in which it may stand. */
export function describeSection(section: SectionSpec): Description {
  return described(section.name, section, () => paragraphs(section.why, `Stands in: ${section.in.join(", ")}.`));
}

/** A unit, with the others of its family. */
export function describeUnit(symbol: string, family: UnitFamily): Description {
  const unit = family.units.find((each) => each.symbol === symbol);
  const others = family.units.filter((each) => each.symbol !== symbol).map((each) => `\`${each.symbol}\``);
  const also = others.length > 0 ? `Also written in ${others.join(", ")}.` : "No other unit of its kind.";
  return described(symbol, { what: `${unit?.name ?? symbol}. ${family.what}` }, () => also);
}

/** `rest` is computed only where it is shown: a hover with a link to the page leaves it out. */
function described(
  title: string,
  { what, hazard }: { readonly what: string; readonly hazard?: string | undefined },
  rest: () => string,
): Description {
  return {
    title,
    what,
    hazard: warning(hazard),
    get rest() {
      return rest();
    },
  };
}

/** What a type accepts, as lines of a list: its unit, its limits, its usual bands. */
export function typeLines(type: ValueType): string[] {
  return linesOfType(type, bandLines);
}

type BandLines = (bands: readonly UsualBand[], unit: string) => string[];

function linesOfType(type: ValueType, usualLines: BandLines): string[] {
  switch (type.is) {
    case "quantity":
    case "integer": {
      const unit = type.is === "quantity" ? type.unit : "";
      const what =
        type.is === "integer" ? "a whole number" : unit === "" ? "a number without unit" : `a quantity in ${unit}`;
      return [
        `Takes ${what}${limitsText(type.min, type.max, unit)}`,
        ...(type.is === "integer" && type.multiple
          ? [`A multiple of ${type.multiple.of} (${type.multiple.source})`]
          : []),
        ...usualLines(type.usual ?? [], unit),
        ...(type.off === undefined ? [] : [`\`${amountText(type.off, unit)}\` switches it off`]),
      ];
    }
    case "choice":
      return [`Takes one of: ${type.choices.map((choice) => `\`${choice.word}\``).join(", ")}`];
    case "yes-no":
      return ["Takes `yes` or `no`"];
    case "text":
      return [`Takes a text in quotes, at most ${type.longest} characters`];
    case "date":
      return ["Takes a date, as in `2026-05-01`"];
    case "order":
      return [`Takes these words, each once, in the order meant: ${type.words.join(", ")}`];
    case "range":
      return [
        `Takes a range in ${type.of.unit || "bare numbers"}${limitsText(type.of.min, type.of.max, type.of.unit)}`,
      ];
    case "size":
      return [`Takes a size, columns x rows, at most ${type.mostColumns} x ${type.mostRows}`];
    case "cell":
      return ["Takes a place, as in `left+2, bottom-1`"];
    case "colour":
      return ['Takes a colour: a CSS name, or `"#rrggbb"`'];
    case "list":
      return [
        `Takes ${type.fewest} to ${type.most} items separated by commas; each:`,
        ...linesOfType(type.of, usualLines),
      ];
    case "fields":
      return linesOfFields(type.fields, usualLines);
  }
}

/** A line for each part; what several take is told with the first of them. */
function linesOfFields(fields: readonly FieldSpec[], usualLines: BandLines): string[] {
  const first = new Map<string, string>();
  return fields.map(({ name, what, types, default: usual }) => {
    const taken = types.flatMap((each) => linesOfType(each, usualLines)).join("; ");
    const same = first.get(taken);
    if (same === undefined) first.set(taken, name);
    const takes = same === undefined ? taken : `Takes the same as \`${same}\``;
    return `\`${name}\`: ${what} ${takes}${usual ? `; default \`${usual}\`` : ""}`;
  });
}

function limitsText(min: Limit | undefined, max: Limit | undefined, unit: string): string {
  const inUnit = (number: number) => (unit === "" ? String(number) : `${number} ${unit}`);
  const sources = [...new Set([min?.source, max?.source].filter((source) => source !== undefined))].join("; ");
  if (min && max) return `, ${inUnit(min.at)} to ${inUnit(max.at)} (${sources})`;
  if (min) return `, at least ${inUnit(min.at)} (${sources})`;
  if (max) return `, at most ${inUnit(max.at)} (${sources})`;
  return "";
}

/** The usual bands as lines, those for one size of propeller in one. Of several bands the first that fits counts. */
function bandLines(bands: readonly UsualBand[], unit: string): string[] {
  return bandsBySize(bands, unit).map(({ size, ends, source }) => `Usual${size}: ${ends} (${source})`);
}

/** More bands than these are not read in a hover. */
const MOST_BANDS = 10;

/** The same for a hover: those that may apply to a craft, where the sizes of one source share a line. */
function briefBandLines(traits: CraftTraits): BandLines {
  return (all, unit) => {
    const bands = possibleBands(all, traits);
    if (bands.length > MOST_BANDS)
      return [`What is usual depends on the craft: the page of this name has all ${bands.length} bands`];
    const sizes = bandsBySize(bands, unit);
    const sources = [...new Set(sizes.map(({ source }) => source))];
    return sources.map((source) => {
      const [first, ...more] = sizes.filter((each) => each.source === source);
      const others = more.map(({ size, ends }, i) => {
        const isAgain = (i === 0 ? first! : more[i - 1]!).size.startsWith(PROPELLERS);
        return `; ${(isAgain ? size.replace(PROPELLERS, "") : size).trim()}: ${ends}`;
      });
      return `Usual${first!.size}: ${first!.ends}${others.join("")} (${source})`;
    });
  };
}

const PROPELLERS = " with propellers";

/** Bands for one size of propeller as one; a band that asks for something else alone, by that. */
function bandsBySize(
  bands: readonly UsualBand[],
  unit: string,
): { readonly size: string; readonly ends: string; readonly source: string }[] {
  const sizes: UsualBand[][] = [];
  for (const band of bands) {
    const last = sizes.at(-1);
    if (last && sizeText(last[0]!) === sizeText(band)) last.push(band);
    else sizes.push([band]);
  }
  return sizes.map((group, i) => {
    const [{ when = {}, source }] = group as [UsualBand];
    const isOne = group.length === 1 && !when.propellerIn;
    const size = isOne ? bandConditionText({ when }) : sizeText(group[0]!);
    const parts = group.map((band, k) => {
      const { propellerIn: _, ...others } = band.when ?? {};
      const condition = isOne ? "" : bandConditionText({ when: others }) || (k > 0 ? " otherwise" : "");
      return `${endsText(band, unit)}${condition}`;
    });
    return { size: size || (i > 0 ? " otherwise" : ""), ends: parts.join(", "), source };
  });
}

function sizeText({ when }: UsualBand): string {
  return when?.propellerIn ? bandConditionText({ when: { propellerIn: when.propellerIn } }) : "";
}

function endsText({ from, to }: UsualBand, unit: string): string {
  const withUnit = (number: number) => (unit === "" ? String(number) : `${number} ${unit}`);
  return `${from === undefined ? "" : withUnit(from)} to ${to === undefined ? "" : withUnit(to)}`.trim();
}

/** A setting, mode or element by its name in a section, as for `describeSetting`; null where the section has no such name. */
export function describeName(
  catalogue: Catalogue,
  section: string,
  name: string,
  traits: CraftTraits = {},
): Description | null {
  const spec = catalogue.section(section);
  if (!spec) return null;
  if (spec.holds === "modes") {
    const mode = catalogue.mode(name);
    return mode ? describeMode(mode) : null;
  }
  const element = spec.holds === "places" ? catalogue.element(name) : undefined;
  if (element) return describeElement(element);
  const setting = catalogue.setting(section, name);
  return setting ? describeSetting(catalogue, setting, section, traits) : null;
}
