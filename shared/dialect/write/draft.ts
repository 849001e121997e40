/** A board's text as it is being written: blocks of rows, each block below its heading. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { decodeSlot } from "../codes/codes.ts";
import { sameHeld } from "../codes/held.ts";
import type { Dialect, Held, Left, Slot } from "../dialect.ts";
import { type EntryReader, entryReader } from "../read/entries.ts";
import { type Joined, type JoinedEntry, joinEntries, type Surroundings } from "../read/join-entries.ts";
import { type LineParse, type LineReader, lineReader, type Scope } from "../read/line-reader.ts";
import { isAdded, nameOf, type Saying, type Sayings, saidOf, sayingsOf } from "../read/sayings.ts";

export type Fit = LineParse & { readonly kind: "fits" };

export interface Row {
  text: string;
  /** Its line end; "" for a new row, and for the last one of a text without. */
  end: string;
  parse: LineParse;
  /** `gone`: the line is left out. */
  status: "base" | "changed" | "new" | "gone";
  readonly block: Block;
  /** What of it counts. */
  sayings: readonly Saying[];
  /** What of it does not, as a line below says it again, or for another reason. */
  readonly beaten: readonly Saying[];
}

/** A heading with the rows below it; the first block has none. */
export interface Block {
  heading: Row | null;
  readonly scope: Scope;
  readonly rows: Row[];
}

export interface Draft {
  readonly dialect: Dialect;
  readonly entries: EntryReader;
  readonly reader: LineReader;
  readonly blocks: Block[];
  /** What the base says, by `SECTION NAME`. */
  readonly said: ReadonlyMap<string, readonly JoinedEntry[]>;
  /** The line end of new rows. */
  readonly end: string;
  readonly byteOrderMark: string;
  /** True for a board's last text, false for lines that the script kept, or nothing. */
  readonly isGiven: boolean;
}

/** The base as rows, read. */
export function draftOf(
  dialect: Dialect,
  base: string,
  isGiven: boolean,
  catalogue: Catalogue,
  around: Surroundings,
): Draft {
  const entries = entryReader(catalogue);
  const reader = lineReader(dialect, entries);
  const byteOrderMark = base.startsWith("\uFEFF") ? "\uFEFF" : "";
  const { lines, ends } = splitLines(base.slice(byteOrderMark.length));
  const sayings = sayingsOf(lines, reader, entries);
  const joined = joinEntries(sayings.all, entries, around);
  const blocks = blocksOf(sayings, ends, reader);
  return {
    dialect,
    entries,
    reader,
    blocks,
    said: byName(joined),
    end: usualEnd(ends, dialect),
    byteOrderMark,
    isGiven,
  };
}

function byName({ entries }: Joined): ReadonlyMap<string, readonly JoinedEntry[]> {
  const said = new Map<string, JoinedEntry[]>();
  for (const entry of entries) {
    const name = `${entry.section} ${entry.name}`;
    said.set(name, [...(said.get(name) ?? []), entry]);
  }
  return said;
}

function blocksOf({ placed, takings }: Sayings, ends: readonly string[], reader: LineReader): Block[] {
  let block: Block = { heading: null, scope: reader.top, rows: [] };
  const blocks = [block];
  for (const { line, text, parse } of placed) {
    // What follows the last line end is no line.
    if (line === placed.length - 1 && text === "" && ends[line] === "") break;
    const all = takings.get(line)?.sayings ?? [];
    const sayings = all.filter(({ dead }) => dead === null);
    const beaten = all.filter(({ dead }) => dead !== null);
    const end = ends[line] ?? "";
    const row = (of: Block): Row => ({ text, end, parse, status: "base", block: of, sayings, beaten });
    if (parse.kind === "heading") {
      block = { heading: null, scope: parse.below, rows: [] };
      block.heading = row(block);
      blocks.push(block);
    } else block.rows.push(row(block));
  }
  return blocks;
}

/** The end that most lines have, else the dialect's, else a line feed. */
function usualEnd(ends: readonly string[], { text }: Dialect): string {
  const counts = new Map<string, number>();
  for (const end of ends) if (end !== "") counts.set(end, (counts.get(end) ?? 0) + 1);
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? (text.ends === "crlf" ? "\r\n" : "\n");
}

/** The rows that are still there, in order. */
export function* rowsOf({ blocks }: Draft): Generator<Row> {
  for (const { rows } of blocks) for (const row of rows) if (row.status !== "gone") yield row;
}

/** The names that a row says something of. */
export function namesSaid({ sayings }: Row): string[] {
  return sayings.flatMap((saying) => {
    const said = saidOf(saying);
    return said && said.body.kind !== "unset" ? [nameOf(said)] : [];
  });
}

/** A row that fits a left side and says nothing of what is set: its number is free. */
export function isFree(row: Row): boolean {
  return row.parse.kind === "fits" && row.sayings.length > 0 && namesSaid(row).length === 0;
}

/** Whether lines of it stand beside one another, so that a new one replaces none. */
export function addsUpIn(row: Row): boolean {
  return row.sayings.some((saying) => {
    const said = saidOf(saying);
    return said !== null && isAdded(saying, said);
  });
}

/** A line that only adds to others cannot be changed on the board, which would have the old one as well; a numbered one can. */
export function canChange(row: Row): boolean {
  return (row.parse.kind === "fits" && row.parse.slots.has("#")) || !addsUpIn(row);
}

/** What the slot of a row holds now; null where it has no such slot. */
export function heldIn({ parse }: Row, slot: string): Held | null {
  return parse.kind === "fits" ? (parse.slots.get(slot)?.held ?? null) : null;
}

/** Whether the board's text of a slot already says what it is to hold. */
export function saysHeld(slot: Slot, raw: string, held: Held): boolean {
  const decoded = decodeSlot(slot, raw);
  if (decoded.kind === "bad") return false;
  if (decoded.kind === "unset" || held.kind === "unset") return decoded.kind === held.kind;
  if (decoded.kind === "parts" && held.kind === "parts")
    return [...held.parts].every(([name, part]) => {
      const own = decoded.parts.get(name);
      return own !== undefined && sameHeldOrUnset(own, part);
    });
  // A bare number takes the unit of the other one, whichever of the two it is.
  return sameHeld(decoded, held) || sameHeld(held, decoded);
}

function sameHeldOrUnset(a: Held, b: Held): boolean {
  return a.kind === "unset" || b.kind === "unset" ? a.kind === b.kind : sameHeld(a, b);
}

/** The text before the number of a left side, as it stands in a line with these slots; null for one without. */
export function beforeNumber({ pattern }: Left, textOf: (slot: string) => string | null): string | null {
  let text = "";
  for (const part of pattern.parts) {
    if (part.kind === "literal") text += part.text;
    else if (part.name === "#") return text;
    else {
      const own = textOf(part.name);
      if (own === null) return null;
      text += own;
    }
  }
  return null;
}
