/** How settings hang together, as lines of a list: what one needs, and how it stands to others. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { byMeaning } from "../../catalogue/sources.ts";
import type { Comparison, Having, Need } from "../../catalogue/specs.ts";
import { settingsOfOperand } from "../../numbers/operands.ts";

/** A need as a line of a list, with its reason. */
export function needLine(need: Need): string {
  const word = need.word === undefined ? "" : `As \`${need.word}\` it needs`;
  const others = (need.or ?? []).map((each) => `, or ${havingInCode(each)}`).join("");
  return `${word || "Needs"} ${havingInCode(need)}${others}${whileInWords(need.while)}: ${need.reason}`;
}

/** A need with how serious it is where it is not met, and its source. */
export function sourcedNeedLine(need: Need, severity: string): string {
  return `${needLine(need)} ${origin(need.severity ?? severity, need.source ?? byMeaning)}`;
}

function origin(severity: string, source: string): string {
  return `*(${severity}; ${source})*`;
}

/** The settings, modes and elements with a need that `matches` accepts, as a line of a list; none if there is none. */
export function neededByLine(catalogue: Catalogue, matches: (need: Need) => boolean): string[] {
  const names = thingsThatNeed(catalogue, matches).map(({ name }) => `\`${name}\``);
  if (names.length === 0) return [];
  const more = names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : "";
  return [`Needed by ${names.slice(0, MOST_NAMES).join(", ")}${more}`];
}

/** A hover is no list of names. */
const MOST_NAMES = 8;

/** Every setting (as SECTION.NAME), mode and element with a need that `matches` accepts, with the first such need. */
export function thingsThatNeed(
  catalogue: Catalogue,
  matches: (need: Need) => boolean,
): { readonly name: string; readonly need: Need }[] {
  const things = [
    ...catalogue.sections.flatMap((section) =>
      section.settings.map(({ name, needs }) => ({ name: `${section.name}.${name}`, needs })),
    ),
    ...catalogue.modes,
    ...catalogue.elements,
  ];
  return things.flatMap(({ name, needs = [] }) => {
    const need = needs.find(matches);
    return need ? [{ name, need }] : [];
  });
}

/** Whether a need can be met by a setting, SECTION.NAME. */
export function asksFor(path: string): (need: Need) => boolean {
  return (need) => [need, ...(need.or ?? [])].some(({ setting }) => setting === path);
}

/** How a setting must stand to others, each with how serious it is where it does not hold, and its source. */
export function sourcedComparisonLines(catalogue: Catalogue, path: string): string[] {
  // Both rules that hold a craft to comparisons report errors, where a comparison says nothing else.
  return comparisonsSeenFrom(catalogue, path).map(
    ({ before, other, after, comparison: { reason, severity, source } }) =>
      `${before}${other}${after}: ${reason} ${origin(severity ?? "error", source)}`,
  );
}

/** A comparison in the words of one of its ends, apart at the other end's name. */
export interface SeenComparison {
  readonly before: string;
  readonly other: string;
  readonly after: string;
  readonly comparison: Comparison;
}

/** The comparisons of which a setting is an end, seen from it. */
export function comparisonsSeenFrom(catalogue: Catalogue, path: string): SeenComparison[] {
  return catalogue.comparisons.flatMap((comparison): SeenComparison[] => {
    const { of, than, must } = comparison;
    const [isOf, isThan] = [of, than].map((operand) => settingsOfOperand(operand, catalogue).includes(path));
    const after = whileInWords(comparison.while);
    const mustBe = `must ${must} ${factor(comparison)}`;
    if (isOf) {
      const before = capitalised(`${partOf(of, path)}${mustBe}`);
      return [{ before, other: inCode(catalogue, than), after, comparison }];
    }
    if (!isThan) return [];
    if (than.startsWith("=")) {
      const rest = ` ${mustBe}${inCode(catalogue, than)}, which goes by it${after}`;
      return [{ before: "", other: capitalised(inCode(catalogue, of)), after: rest, comparison }];
    }
    const before = capitalised(`${partOf(than, path)}${seenFrom(comparison)} `);
    return [{ before, other: inCode(catalogue, of), after, comparison }];
  });
}

function capitalised(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** A comparison as its other end reads it, up to the name of the end that it is written for. */
function seenFrom({ must, times }: Comparison): string {
  const least = times === undefined ? "" : ` ${decimal(1 / times)} times`;
  switch (must) {
    case "be at most":
      return `must be at least${least}`;
    case "be below":
      return `must be above${least}`;
    case "be at least":
      return `must be at most${least}`;
    case "be above":
      return `must be below${least}`;
    case "be a whole part of":
      return "must be a whole multiple of";
    case "be one of":
      return "must have a place for";
    case "agree with":
    case "keep away from":
      return `must ${must}`;
  }
}

function factor({ times }: Comparison): string {
  return times === undefined ? "" : `${decimal(times)} times `;
}

function decimal(number: number): string {
  return String(Number(number.toPrecision(3)));
}

/** A field, or an end of a range, by its name before the line. */
function partOf(operand: string, path: string): string {
  return operand.startsWith(`${path}.`) ? `\`${operand.slice(path.length + 1)}\` ` : "";
}

function inCode(catalogue: Catalogue, operand: string): string {
  if (operand.startsWith("=")) return catalogue.figures.find(({ name }) => name === operand.slice(1))?.what ?? operand;
  return /^\d/.test(operand) ? operand : `\`${operand.replace(/(\.[a-z0-9-]+)\.(\w+)$/, "$1 $2")}\``;
}

function whileInWords(all: readonly Having[] | undefined): string {
  return all === undefined || all.length === 0 ? "" : `, with ${all.map(havingInCode).join(" and ")}`;
}

function havingInCode({ setting, mode, section, element, port, is, not, has, unsaid }: Having): string {
  if (mode !== undefined) return `the mode \`${mode}\``;
  if (section !== undefined) return `the section \`${section}\``;
  if (element !== undefined) return `the element \`${element}\``;
  if (port !== undefined) return `a port for \`${port}\``;
  if (unsaid === "wanted") return `no \`${setting}\``;
  const state = is ?? has;
  return `\`${setting}\`${state !== undefined ? ` ${state}` : not !== undefined ? ` other than ${not}` : ""}`;
}
