/** The pieces of a value that a board may write apart: a place has two numbers, a range two ends, a motor its fields. */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import type { Held } from "../../dialect/dialect.ts";
import { heldOfText } from "../../dialect/learn/tokens-for.ts";
import { readEntry } from "../../model/read-entry.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Value } from "../../syntax/value.ts";
import { whyNoBoardCondition } from "./channel-form.ts";

/** A piece of the right side that a slot may stand for. */
export interface ValuePiece extends Cols {
  readonly held: Held;
  /** What it is, for the name of a slot. */
  readonly of: string;
}

export interface RightText {
  /** What stands behind the name, as a script writes it. */
  readonly text: string;
  readonly pieces: readonly ValuePiece[];
}

export type ReadRight =
  | { readonly kind: "right"; readonly right: RightText }
  | { readonly kind: "wrong"; readonly why: string };

/** A value as the pilot wrote it for a name, read as a script's entry; why it is none otherwise. */
export function rightOf(catalogue: Catalogue, section: string, name: string, value: string): ReadRight {
  const spec = catalogue.section(section.replace(/[/].*$/s, ""));
  if (!spec) return { kind: "wrong", why: `There is no section “${section}”.` };
  const written = value.trim();
  if (written === "unset") return { kind: "right", right: { text: "unset", pieces: [] } };
  const line = `${name}  ${written}`;
  const at = { start: name.length + 2, end: line.length };
  const entry = readEntry(line, { text: name, start: 0, end: name.length }, at, spec, catalogue);
  if (entry.fault) return { kind: "wrong", why: entry.fault.message };
  if (!entry.value) return { kind: "wrong", why: `“${written}” is no value of “${name}”.` };
  const noBoard = entry.value.kind === "condition" ? whyNoBoardCondition(entry.value.condition, `“${written}”`) : null;
  if (noBoard !== null) return { kind: "wrong", why: noBoard };
  const keyword = /^(when|at|follows)\b/.exec(written)?.[0];
  const printed = printValue(entry.value);
  const text = keyword && !printed.startsWith(keyword) ? `${keyword} ${printed}` : printed;
  return { kind: "right", right: { text, pieces: piecesOf(entry.value, text, name) } };
}

const COMPOSITE: ReadonlySet<Value["kind"]> = new Set(["range", "size", "cell", "fields", "condition", "follows"]);
/** Words of the language, which no board writes for us. */
const OURS = new Set(["when", "at", "to", "in", "and", "or", "not", "is", "x", "always", "follows", "from"]);
const PIECE = /"(?:[^"\\]|\\.)*"|ch\d+|-?\d+(?:\.\d+)?|[A-Za-z%][\w%/.-]*/g;

function piecesOf(value: Value, text: string, name: string): ValuePiece[] {
  if (!COMPOSITE.has(value.kind)) return [{ start: 0, end: text.length, held: heldOfText(text), of: name }];
  const fields = new Set(value.kind === "fields" ? value.fields.map((field) => field.name) : []);
  const pieces: ValuePiece[] = [];
  let field = name;
  for (const match of text.matchAll(PIECE)) {
    const [word] = match;
    if (fields.has(word)) field = word;
    else if (!OURS.has(word) && !isUnitBehind(text, match.index, word)) {
      const unit = /^-?\d/.test(word) ? /^ (\S+)/.exec(text.slice(match.index + word.length))?.[1] : undefined;
      const whole = unit !== undefined && unitSymbol(unit) !== undefined ? `${word} ${unit}` : word;
      const of =
        value.kind === "cell" ? (pieces.length === 0 ? "column" : "row") : word.startsWith("ch") ? "channel" : field;
      pieces.push({ start: match.index, end: match.index + whole.length, held: heldOfText(whole), of });
    }
  }
  return pieces;
}

function isUnitBehind(text: string, at: number, word: string): boolean {
  return unitSymbol(word) !== undefined && /\d $/.test(text.slice(0, at));
}
