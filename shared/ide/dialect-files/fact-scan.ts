/** Takes a line of a dialect apart, piece by piece from left to right. */
import type { Cols } from "../../syntax/span.ts";
import type { FactPiece, FactPieceKind } from "./fact-pieces.ts";
import { type SlotUse, slotsBetween } from "./slot-uses.ts";

export interface FactScan {
  readonly pieces: readonly FactPiece[];
  readonly slots: readonly SlotUse[];
  readonly texts: readonly (Cols & { readonly closed: boolean })[];
  /** Goes on to the next sign that is no blank; false where the line ends. */
  more(): boolean;
  /** The sign that comes next. */
  next(): string;
  /** True where a blank stands before what comes next, or nothing was taken yet. */
  afterBlank(): boolean;
  /** The piece that a sticky pattern finds here; null where it finds none. */
  match(pattern: RegExp, kind: FactPieceKind): FactPiece | null;
  /** A name, or a unit. */
  word(kind: FactPieceKind): FactPiece | null;
  number(): FactPiece | null;
  /** One sign, whatever it is. */
  sign(): FactPiece;
  /** A slot of a right side. */
  slot(): boolean;
  /** Text in either kind of quotes, with its slots. */
  quoted(kind: "left" | "string"): boolean;
  /** Says what the last piece is, after all. */
  rename(kind: FactPieceKind): void;
}

const WORD = /[A-Za-z][A-Za-z0-9-]*(?:\/[A-Za-z]+)?|[%µ][A-Za-z/]*/y;
const NUMBER = /-?\d+(?:\.\d+)?/y;

/** A scan of the columns of a fact. */
export function factScan(text: string, content: Cols): FactScan {
  const pieces: FactPiece[] = [];
  const slots: SlotUse[] = [];
  const texts: (Cols & { closed: boolean })[] = [];
  let at = content.start;
  const add = (kind: FactPieceKind, end: number): FactPiece => {
    const piece = { kind, start: at, end };
    if (end > at) pieces.push(piece);
    at = end;
    return piece;
  };
  const match = (pattern: RegExp, kind: FactPieceKind) => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0] ?? "";
    return found !== "" && at + found.length <= content.end ? add(kind, at + found.length) : null;
  };
  return {
    pieces,
    slots,
    texts,
    more() {
      while (at < content.end && isBlank(text[at])) at++;
      return at < content.end;
    },
    next: () => text[at] ?? "",
    afterBlank: () => at === content.start || isBlank(text[at - 1]),
    match,
    word: (kind) => match(WORD, kind),
    number: () => match(NUMBER, "number"),
    sign: () => add("operator", at + 1),
    slot() {
      if (text[at] !== "{") return false;
      const [slot] = slotsBetween(text, { start: at, end: content.end }, "right");
      if (slot?.start !== at) return false;
      slots.push(slot);
      add("slot", slot.end);
      return true;
    },
    quoted(kind) {
      const mark = text[at];
      if (mark !== '"' && mark !== "'") return false;
      const { end, closed } = endOfQuoted(text, at, content.end);
      const inside = { start: at + 1, end: closed ? end - 1 : end };
      const own = slotsBetween(text, inside, kind === "left" ? "left" : "right");
      slots.push(...own);
      if (kind === "left") texts.push({ start: at, end, closed });
      for (const slot of own) {
        add(kind, slot.start);
        add("slot", slot.part?.end ?? slot.name.end);
        if (slot.how) {
          add("operator", slot.how.start);
          add(slot.how.isCode ? "code" : "number", slot.how.end);
        }
        if (slot.default) {
          add("operator", slot.default.start);
          add(kind, slot.default.end);
        }
        add("slot", slot.end);
      }
      add(kind, end);
      return true;
    },
    rename(kind) {
      const last = pieces.pop();
      if (last) pieces.push({ ...last, kind });
    },
  };
}

function endOfQuoted(text: string, start: number, end: number): { end: number; closed: boolean } {
  const mark = text[start];
  for (let at = start + 1; at < end; at++) {
    if (text[at] === mark) return { end: at + 1, closed: true };
    if (mark === '"' && text[at] === "\\") at++;
  }
  return { end, closed: false };
}

function isBlank(sign: string | undefined): boolean {
  return sign === " " || sign === "\t";
}
