/**
 * The values that most lines have, read in one step: a number with the unit of its type, a whole number, a word of a
 * choice. A script is read for the first time by code that has hardly run, where each step costs.
 */
import type { SettingSpec, ValueType } from "../catalogue/specs.ts";
import type { Piece } from "../syntax/piece.ts";
import type { Fault } from "../syntax/read-context.ts";
import type { Cols } from "../syntax/span.ts";
import type { EntryNode, PlainEnd, Word } from "../syntax/tree.ts";
import type { Value } from "../syntax/value.ts";
import { beyondLimits, type LimitIssue } from "./limits.ts";
import type { ParsedEntry } from "./parsed-entry.ts";

/** A number and perhaps a unit, or a word, as the scanner reads them, up to the end of the text. */
const PLAIN = /(?:(-?\d+(?:\.\d+)?)(?:[ \t]*(%|[A-Za-z\u00b5\u03bc]+(?:\/[A-Za-z]+)?))?|[a-z][a-z0-9-]*)$/y;

/** A value without a fault, and the pieces of its line. */
export interface PlainText {
  readonly value: Value;
  readonly pieces: Piece[];
}

/** The value in these columns by the first of the types that fits; null where more than this has to be looked at. */
export function readPlain(text: string, at: Cols, types: readonly ValueType[]): PlainText | null {
  PLAIN.lastIndex = at.start;
  const whole = at.end === text.length ? text : text.slice(0, at.end);
  const found = PLAIN.exec(whole);
  if (!found) return null;
  const unitAt = found[2] === undefined ? -1 : at.end - found[2].length;
  const read = plainValue(whole, at, { digits: found[1] ?? null, unitAt }, types);
  return read && { value: read, pieces: piecesOf(read, unitAt) };
}

/** An entry of a setting whose line ends plainly; null where more than this has to be looked at. */
export function readPlainEntry(
  text: string,
  { head, value, plain }: EntryNode,
  settings: ReadonlyMap<string, SettingSpec>,
): PlainEntry | null {
  const setting = plain && settings.get(head.text);
  if (!setting) return null;
  const read = plainValue(text, value, plain, setting.types);
  return read && new PlainEntry(read, head, plain.unitAt, setting);
}

/** The pieces of its line are made once somebody asks for them: of most lines nobody does. */
class PlainEntry implements ParsedEntry {
  readonly kind = "setting";
  readonly value: Value;
  readonly fault: Fault | null = null;
  readonly beyond: readonly LimitIssue[];
  readonly setting: SettingSpec;
  readonly head: Word;
  readonly unitAt: number;
  #pieces: readonly Piece[] | null = null;

  constructor(value: Value, head: Word, unitAt: number, setting: SettingSpec) {
    this.value = value;
    this.beyond = beyondLimits(value, setting);
    this.setting = setting;
    this.head = head;
    this.unitAt = unitAt;
  }
  get pieces(): readonly Piece[] {
    const { start, end } = this.head;
    this.#pieces ??= [{ kind: "setting", start, end }, ...piecesOf(this.value, this.unitAt)];
    return this.#pieces;
  }
}

function piecesOf(value: Value, unitAt: number): Piece[] {
  const { start, end } = value;
  if (value.kind === "quantity") {
    const number: Piece = { kind: "number", start, end: start + value.digits.length };
    return unitAt < 0 ? [number] : [number, { kind: "unit", start: unitAt, end }];
  }
  return [{ kind: value.kind === "integer" ? "number" : "choice", start, end }];
}

/** The value at the end of a text. */
function plainValue(text: string, at: Cols, { digits, unitAt }: PlainEnd, types: readonly ValueType[]): Value | null {
  return digits === null ? wordOf(text, at, types) : numberOf(text, at, digits, unitAt, types);
}

function numberOf(
  text: string,
  { start, end }: Cols,
  digits: string,
  unitAt: number,
  types: readonly ValueType[],
): Value | null {
  for (const type of types) {
    // No word and no text begins with a figure.
    if (type.is === "choice" || type.is === "yes-no" || type.is === "text") continue;
    const number = Number(digits) || 0;
    if (type.is === "integer") {
      if (unitAt >= 0 || !Number.isSafeInteger(number) || digits.includes(".")) return null;
      return { kind: "integer", number, start, end };
    }
    if (type.is !== "quantity" || !Number.isFinite(number)) return null;
    const { unit } = type;
    const isInUnit = unitAt < 0 ? unit === "" : unit.length === end - unitAt && text.endsWith(unit);
    return isInUnit ? { kind: "quantity", number, digits, start, unit, end } : null;
  }
  return null;
}

function wordOf(text: string, { start, end }: Cols, types: readonly ValueType[]): Value | null {
  const isHere = (word: string) => word.length === end - start && text.endsWith(word);
  for (const type of types) {
    const { is } = type;
    if (is === "choice") {
      for (const { word } of type.choices) if (isHere(word)) return { kind: "choice", word, start, end };
    } else if (is === "yes-no") {
      const yes = isHere("yes");
      if (yes || isHere("no")) return { kind: "yes-no", yes, start, end };
      // What begins with a figure or a quote is no word.
    } else if (is !== "quantity" && is !== "integer" && is !== "range" && is !== "text" && is !== "date") return null;
  }
  return null;
}
