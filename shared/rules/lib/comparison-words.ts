/** A comparison that a craft breaks, as a sentence. */
import type { Comparison } from "../../catalogue/specs.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { type Operand, operandPath } from "../../numbers/operands.ts";
import { printValue } from "../../syntax/print-value.ts";
import { decimalText } from "./figures.ts";
import { linesInWords } from "./words-of-place.ts";

/**
 * “warn-after is 1101 mAh and must be at most capacity (1100 mAh, line 6).” `number` is the one of `of` that breaks
 * it, in the unit of the comparison; the line of `main`, at which the sentence is shown, is not named again.
 */
export function brokenInWords(
  comparison: Comparison,
  number: number,
  of: Operand,
  than: Operand,
  main: Setting,
  craft: Craft,
): string {
  const subject = `${nameOf(of.words)} is ${asWritten(of, number, comparison.unit)}`;
  const { must: relation, by, unit } = comparison;
  const apart =
    by === undefined ? "" : ` ${relation === "agree with" ? "to within" : "by at least"} ${amounts([by], unit)}`;
  const must = relation === "be a whole part of" ? "fit a whole number of times into" : relation;
  const sentence = `${subject} and must ${must} ${otherEnd(comparison, than, main, craft)}${apart}.`;
  return sentence.startsWith("the ") ? `T${sentence.slice(1)}` : sentence;
}

function otherEnd({ of, than, times, unit }: Comparison, other: Operand, main: Setting, craft: Craft): string {
  const lines = other.settings.filter((setting) => setting !== main).map(({ source }) => source);
  const [number = 0] = other.numbers;
  if (other.settings.length === 0 && /^\d/.test(than)) return other.words;
  const isFigure = than.startsWith("=");
  const sizes = isFigure ? `${figureText(number)} ${unit}`.trim() : amounts(other.numbers, unit);
  const where = lines.length === 0 ? "" : `, ${isFigure ? "from " : ""}${linesInWords(lines, craft)}`;
  const { section } = operandPath(than);
  const words = isFigure || operandPath(of).section === section ? other.words : `${section}.${other.words}`;
  const name = `${nameOf(words)} (${sizes}${where})`;
  if (times === undefined) return name;
  const factor = FACTORS[times];
  return factor ? `${factor} ${name}` : `${figureText(number * times)} ${unit}, ${decimalText(times, 3)} times ${name}`;
}

const FACTORS: Readonly<Record<number, string>> = {
  0.5: "half of",
  1.5: "one and a half times",
  2: "twice",
  3: "three times",
};

/** What is compared as it is called: the end of a range by which end it is. */
function nameOf(words: string): string {
  const end = /^(\S+) (from|to)$/.exec(words);
  return end ? `the ${end[2] === "from" ? "lower" : "upper"} end of ${end[1]}` : words;
}

/** A number as the script has it; and, if that is in another unit, in the one in which it is compared. */
function asWritten(of: Operand, number: number, unit: string): string {
  const compared = amounts([number], unit);
  const [only] = of.settings.length === 1 ? of.settings : [];
  const value = only?.value;
  if (value?.kind !== "quantity" || value.unit === unit) return compared;
  return `${printValue(value)} (${compared})`;
}

function amounts(numbers: readonly number[], unit: string): string {
  const digits = numbers.map((number) => decimalText(number, 2)).join(", ");
  return `${digits} ${unit}`.trim();
}

/** A number that was worked out, with some three digits. */
function figureText(number: number): string {
  return decimalText(number, Math.abs(number) < 10 ? 2 : Math.abs(number) < 1000 ? 1 : 0);
}
