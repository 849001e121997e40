/** What the parsers of values share: the scanner, the units, the pieces found so far, and faults. */
import type { Piece, PieceKind } from "./piece.ts";
import type { Scanner } from "./scanner.ts";
import type { Cols } from "./span.ts";

/** The units that a parser knows. They belong to the catalogue, so they are passed in. */
export interface Units {
  /** Every unit's symbol. */
  readonly all: readonly string[];
  /** The canonical symbol of a unit's spelling; undefined if there is no such unit. */
  symbol(spelling: string): string | undefined;
  /** Converts a number to another unit of the same family; undefined across families. */
  convert(number: number, from: string, to: string): number | undefined;
}

/** The state of parsing one value. */
export interface ReadContext {
  readonly scan: Scanner;
  readonly units: Units;
  readonly pieces: Piece[];
}

export type FaultCode = "syntax" | "unknown-name" | "wrong-type" | "wrong-unit" | "missing-unit";

/** Why a value could not be parsed, where, and the repairs that are certain. */
export interface Fault extends Cols {
  readonly kind: "fault";
  readonly code: FaultCode;
  readonly message: string;
  readonly repairs?: readonly Repair[];
  /** For an unknown name: the word itself, and the names that are allowed there. */
  readonly unknown?: {
    readonly word: string;
    readonly candidates: readonly string[];
    /** True if the candidates are already the most likely ones, best first. */
    readonly chosen?: boolean;
    /** True if the one candidate is the same word in other languages. */
    readonly translated?: true;
  };
}

export interface Repair extends Cols {
  readonly title: string;
  readonly text: string;
  /** True where something else may have been meant, though it is the only one that is offered. */
  readonly doubtful?: true;
}

/** A fault at some columns of the line. */
export function fault(code: FaultCode, at: Cols, message: string, ...repairs: Repair[]): Fault {
  return { kind: "fault", code, start: at.start, end: at.end, message, ...(repairs.length > 0 && { repairs }) };
}

/** The fault of a word that is none of those allowed here. */
export function unknownName(at: Cols, word: string, candidates: readonly string[], message: string): Fault {
  return { ...fault("unknown-name", at, message), unknown: { word, candidates } };
}

/** True for a fault, false for any other result of a parser. */
export function isFault(value: unknown): value is Fault {
  return typeof value === "object" && value !== null && (value as { kind?: unknown }).kind === "fault";
}

/** Records what some columns of the line are, for colours and hovers; `of` names what they belong to. */
export function addPiece(context: ReadContext, kind: PieceKind, at: Cols, of?: string): void {
  context.pieces.push({ kind, start: at.start, end: at.end, ...(of !== undefined && { of }) });
}

/** Words that may not name a position or a field; unit symbols may not either. */
export const RESERVED: ReadonlySet<string> = new Set(
  "is in above below and or not when at to rests lies always all drop follows unset".split(" "),
);

/** What was found where something else was expected, for the end of a message. */
export function describeNext(context: ReadContext): string {
  return context.scan.done() ? "the line ends here" : `“${context.scan.rest().text}” stands here`;
}

/** The columns of the next token; at the end of a line its last column, so that there is something to underline. */
export function nextCols(context: ReadContext): Cols {
  if (!context.scan.done()) return context.scan.rest();
  const end = context.scan.lastEnd();
  return { start: Math.max(0, end - 1), end };
}
