/** The columns around a position of a line: the word, the parts of the value, the statement, the line. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import type { Condition } from "../../syntax/condition.ts";
import type { Piece } from "../../syntax/piece.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Line } from "../../syntax/tree.ts";
import type { Value } from "../../syntax/value.ts";
import { coversColumn, entryAt } from "../context/cursor-context.ts";
import { joined, trimmed } from "./selection-cols.ts";
import { factColumns } from "./selection-facts.ts";

/** All columns with a meaning of their own that cover one, the shortest first. They need not lie inside each other. */
export function columnsIn(script: Script, catalogue: Catalogue, line: number, column: number): Cols[] {
  const here = script.tree.lines[line]!;
  const { text, comment, node } = here;
  const content = { start: text.length - text.trimStart().length, end: text.trimEnd().length };
  const all: Cols[] = [...wordsAt(text, column), content];
  if (comment) all.push({ start: comment.start, end: content.end }, insideComment(text, comment, content.end));
  if (comment && column > comment.start && node.kind !== "comment") return covering(all, column);
  if (node.kind === "fact") all.push(...factColumns(script, catalogue, line));
  else all.push(...ofStatement(here));
  const entry = entryAt(script, line);
  if (entry?.kind === "control") all.push(...spansOf(text.slice(0, comment?.start), CLAUSES));
  if (entry) {
    if (entry.value) all.push(...partsOf(entry.value));
    all.push(...entry.pieces.filter(({ kind }) => !WORDS_ALONE.has(kind)), ...ofPieces(text, entry.pieces));
  }
  all.push(...insideBrackets(text, comment?.start ?? text.length), ...insideQuotes(text, all));
  return covering(all, column);
}

function covering(all: readonly Cols[], column: number): Cols[] {
  return all
    .filter((cols) => cols.end > cols.start && coversColumn(cols, column))
    .sort((a, b) => a.end - a.start - (b.end - b.start));
}

/** The name or number at a column, its sign included: letters of any script, in a comment as well. */
function wordsAt(text: string, column: number): Cols[] {
  return spansOf(text, /[\p{L}\p{N}_]+(?:[-.'’][\p{L}\p{N}_]+)*/gu).filter((word) => coversColumn(word, column));
}

function spansOf(text: string, pattern: RegExp): Cols[] {
  return [...text.matchAll(pattern)].map(({ index, 0: found }) => ({ start: index, end: index + found.length }));
}

/** What a comment says, without its mark. */
function insideComment(text: string, { start }: Cols, end: number): Cols {
  const said = text.slice(start + 1, end);
  return { start: start + 1 + (said.length - said.trimStart().length), end };
}

/** The parts of a line that is no fact. */
function ofStatement({ text, node, comment }: Line): Cols[] {
  const statement = { start: text.length - text.trimStart().length, end: beforeComment(text, comment) };
  switch (node.kind) {
    case "header":
      return node.name ? [node.word, node.name, statement] : [node.word, statement];
    case "use":
      return node.path ? [node.word, ...pathParts(text, node.path), node.path, statement] : [node.word, statement];
    case "section":
      return node.title ? [node.name, node.title, statement] : [node.name, statement];
    case "entry":
      return [node.head, node.value, { start: node.head.start, end: node.value.end }, statement];
    case "drop": {
      const words = node.all ? [node.all] : node.names;
      return [node.word, ...words, ...joined(words), statement];
    }
    case "kept":
      return [
        { start: node.bar + 1, end: text.length },
        { start: node.bar, end: text.length },
      ];
    default:
      return [statement];
  }
}

function beforeComment(text: string, comment: Cols | null): number {
  return text.slice(0, comment?.start ?? text.length).trimEnd().length;
}

/** The names of the folders and of the file in a path. */
function pathParts(text: string, { start, end }: Cols): Cols[] {
  return spansOf(text.slice(start, end), /[^/"]+/g).map((part) => ({
    start: start + part.start,
    end: start + part.end,
  }));
}

/** Where a control rests, and where the hand finds it. */
const CLAUSES = /\b(?:rests +[a-z][a-z0-9-]*|lies(?: +(?:left|right|middle|shoulder|face|back))+)/g;

/** What the editor selects by itself, or nobody would. */
const WORDS_ALONE: ReadonlySet<Piece["kind"]> = new Set(["keyword", "operator"]);

/** Numbers with their units, ranges and tests, by their words alone: also on a line whose value could not be read. */
function ofPieces(text: string, pieces: readonly Piece[]): Cols[] {
  const found: Cols[] = [];
  let amount: Cols | null = null;
  let from: Cols | null = null;
  let control: Piece | null = null;
  for (const piece of pieces) {
    const said = text.slice(piece.start, piece.end);
    if (piece.kind === "number") amount = piece;
    else if (piece.kind === "unit" && amount) amount = { start: amount.start, end: piece.end };
    else {
      from = piece.kind === "keyword" && said === "to" ? amount : null;
      amount = null;
    }
    if (amount) found.push(amount, { start: (from ?? amount).start, end: amount.end });
    if (piece.kind === "control") control = piece;
    else if (piece.kind === "position" && control) found.push({ start: control.start, end: piece.end });
    else if (piece.kind !== "keyword" || !/^(?:is|not)$/.test(said)) control = null;
  }
  return found;
}

/** A value and everything that it is made of. */
function partsOf(value: Value): Cols[] {
  switch (value.kind) {
    case "range":
      return [value, value.from, value.to];
    case "cell":
      return [value, value.column, value.row];
    case "list":
      return [value, ...value.items.flatMap(partsOf)];
    case "fields":
      return [
        value,
        ...value.fields.flatMap((field) => [
          { start: field.nameAt.start, end: field.value.end },
          ...partsOf(field.value),
        ]),
      ];
    case "condition":
      return [value, ...testsOf(value.condition)];
    case "follows":
      return [
        value,
        value.dialAt,
        { start: value.from.start, end: value.to.end },
        ...partsOf(value.from),
        ...partsOf(value.to),
      ];
    case "control": {
      const positions = value.positions.map(({ nameAt, pulseAt }) => ({ start: nameAt.start, end: pulseAt.end }));
      return [value, value.channelAt, ...positions, ...joined(positions)];
    }
    default:
      return [value];
  }
}

/** Every part of a condition. */
function testsOf(condition: Condition): Cols[] {
  switch (condition.kind) {
    case "or":
    case "and":
      return [condition, ...condition.parts.flatMap(testsOf)];
    case "not":
      return [condition, ...testsOf(condition.part)];
    case "in":
    case "above":
    case "below":
      return [condition, condition.subject];
    default:
      return [condition];
  }
}

/** What stands in each pair of brackets, with them and without. */
function insideBrackets(text: string, end: number): Cols[] {
  const open: number[] = [];
  const found: Cols[] = [];
  let isQuoted = false;
  for (let i = 0; i < end; i++) {
    const sign = text[i];
    if (sign === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (sign === "(") open.push(i);
    else if (sign === ")" && open.length > 0) {
      const start = open.pop()!;
      found.push({ start, end: i + 1 }, trimmed(text, { start: start + 1, end: i }));
    }
  }
  return found;
}

/** Of columns that are quoted text, what stands between the quotes. */
function insideQuotes(text: string, all: readonly Cols[]): Cols[] {
  return all
    .filter(({ start, end }) => end - start > 1 && /["']/.test(text[start]!) && text[end - 1] === text[start])
    .map(({ start, end }) => ({ start: start + 1, end: end - 1 }));
}
