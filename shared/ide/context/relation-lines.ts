/** How settings hang together, as lines of a list: what one needs, and how it stands to others. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Comparison, Having, Need } from "../../catalogue/specs.ts";
import { settingsOfOperand } from "../../numbers/operands.ts";

/** A need as a line of a list, with its reason. */
export function needLine(need: Need): string {
  const word = need.word === undefined ? "" : `As \`${need.word}\` it needs`;
  const others = (need.or ?? []).map((each) => `, or ${havingInCode(each)}`).join("");
  return `${word || "Needs"} ${havingInCode(need)}${others}${whileInWords(need.while)}: ${need.reason}`;
}

/** How a setting must stand to others, seen from it: one line for each comparison of which it is an end. */
export function comparisonLines(catalogue: Catalogue, path: string): string[] {
  return catalogue.comparisons.flatMap((each) => {
    const [of, than] = [each.of, each.than].map((operand) => settingsOfOperand(operand, catalogue).includes(path));
    if (!of && !than) return [];
    const text = of
      ? `${partOf(each.of, path)}must ${each.must} ${factor(each)}${inCode(catalogue, each.than)}`
      : each.than.startsWith("=")
        ? `${inCode(catalogue, each.of)} must ${each.must} ${factor(each)}${inCode(catalogue, each.than)}, which goes by it`
        : `${partOf(each.than, path)}${seenFrom(each)} ${inCode(catalogue, each.of)}`;
    return [`${text.charAt(0).toUpperCase()}${text.slice(1)}${whileInWords(each.while)}: ${each.reason}`];
  });
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
