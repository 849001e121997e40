/** What the readers of values share: the cursor, the units, the pieces found, and how a fault is told. */
import type { Piece, PieceKind } from "./piece.ts";
import type { Scanner } from "./scanner.ts";
import type { Cols } from "./span.ts";

/** The units a reader is to know. They are the catalogue's, so they are handed in. */
export interface Units {
  /** Every unit's symbol. */
  readonly all: readonly string[];
  /** The unit's own symbol for a spelling, or undefined where there is no such unit. */
  symbol(spelling: string): string | undefined;
  /** The number in another unit of the same family, or undefined across families. */
  convert(number: number, from: string, to: string): number | undefined;
}

export interface ReadContext {
  readonly scan: Scanner;
  readonly units: Units;
  readonly pieces: Piece[];
}

export type FaultCode = "syntax" | "unknown-name" | "wrong-type" | "wrong-unit" | "missing-unit";

/** Why a value could not be read, where, and what would repair it for sure. */
export interface Fault extends Cols {
  readonly kind: "fault";
  readonly code: FaultCode;
  readonly message: string;
  readonly repairs?: readonly Repair[];
  /** For a name that nobody knows: the word itself, and the names that could stand there. */
  readonly unknown?: {
    readonly word: string;
    readonly candidates: readonly string[];
    /** True where the candidates are those most likely meant, best first. */
    readonly chosen?: boolean;
  };
}

export interface Repair extends Cols {
  readonly title: string;
  readonly text: string;
}

/** A fault at some columns of the line. */
export function fault(code: FaultCode, at: Cols, message: string, ...repairs: Repair[]): Fault {
  return { kind: "fault", code, start: at.start, end: at.end, message, ...(repairs.length > 0 && { repairs }) };
}

/** A word that is none of those that could stand here. */
export function unknownName(at: Cols, word: string, candidates: readonly string[], message: string): Fault {
  return { ...fault("unknown-name", at, message), unknown: { word, candidates } };
}

/** True for a fault, false for whatever else a reader gives. */
export function isFault(value: unknown): value is Fault {
  return typeof value === "object" && value !== null && (value as { kind?: unknown }).kind === "fault";
}

/** Notes what a stretch of the line is, for colours and hovers; `of` names what it belongs to. */
export function addPiece(context: ReadContext, kind: PieceKind, at: Cols, of?: string): void {
  context.pieces.push({ kind, start: at.start, end: at.end, ...(of !== undefined && { of }) });
}

/** Words that no position and no field may be, besides the unit symbols. */
export const RESERVED: ReadonlySet<string> = new Set(
  "is in above below and or not when at to rests always all drop follows".split(" "),
);

/** What stands where something else was wanted, for the end of a message. */
export function describeNext(context: ReadContext): string {
  return context.scan.done() ? "the line ends here" : `“${context.scan.rest().text}” stands here`;
}

/** The columns of what comes next; at the end of a line its last column, so that there is something to underline. */
export function nextCols(context: ReadContext): Cols {
  if (!context.scan.done()) return context.scan.rest();
  const end = context.scan.lastEnd();
  return { start: Math.max(0, end - 1), end };
}
