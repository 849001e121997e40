/** Left sides of a dialect as text: a board line with slots in place of some of its pieces. */
import type { Code, Left, Slot } from "../../dialect/dialect.ts";
import { boardText } from "../../dialect/learn/tokens-for.ts";
import type { Match } from "../../dialect/patterns/match.ts";
import type { Cols } from "../../syntax/span.ts";

/** A slot in place of a piece of the line. */
export interface PlacedSlot extends Cols {
  readonly name: string;
  /** The name of its code, or bounds as `0 to 9`; null without. */
  readonly code: string | null;
  readonly default: string | null;
}

/** A left side in its quotes; `first` says codes and defaults, the same left side again needs neither. */
export function leftText(line: string, slots: readonly PlacedSlot[], say: "first" | "again"): string {
  let text = "";
  let at = 0;
  for (const slot of [...slots].sort((a, b) => a.start - b.start)) {
    text += literalText(line.slice(at, slot.start));
    const code = slot.code === null ? "" : `:${slot.code}`;
    const byDefault = slot.default === null ? "" : `=${slot.default}`;
    text += say === "first" ? `{${slot.name}${code}${byDefault}}` : `{${slot.name}}`;
    at = slot.end;
  }
  return boardText(text + literalText(line.slice(at)));
}

function literalText(text: string): string {
  return text.replaceAll("{", "{{").replaceAll("\t", "{tab}");
}

/** The slots of a left side where they lie in a line that it matches. */
export function placedSlots({ pattern }: Left, match: Match): readonly PlacedSlot[] {
  return [...pattern.slots.values()].flatMap((slot) => {
    const at = match.slots.get(slot.name);
    return at ? [{ name: slot.name, code: codeOf(slot), default: slot.default, start: at.start, end: at.end }] : [];
  });
}

/** True where each slot stands once, so that the line's pieces are the slots. */
export function eachOnce({ pattern }: Left): boolean {
  return pattern.parts.filter(({ kind }) => kind === "slot").length === pattern.slots.size;
}

function codeOf({ code, whole }: Slot): string | null {
  return whole ? `${whole.from} to ${whole.to}` : (code?.name ?? null);
}

/** A name for a slot that none of these has: the first letter of what it is, else another. */
export function slotName(of: string, taken: ReadonlySet<string>): string {
  const letters = [...of.replace(/[^a-z]/g, ""), ..."abcdefghijklmnopqrstuvwxyz"];
  return letters.find((letter) => !taken.has(letter)) ?? `x${taken.size}`;
}

/** A name for a code that none of these has. */
export function codeName(of: string, codes: ReadonlyMap<string, Code>, made: ReadonlySet<string>): string {
  const base =
    of
      .toLowerCase()
      .replace(/[^a-z0-9-]+/g, "-")
      .replace(/^[^a-z]+|-+$/g, "") || "code";
  for (let number = 1; ; number++) {
    const name = number === 1 ? base : `${base}-${number}`;
    if (!codes.has(name) && !made.has(name)) return name;
  }
}
