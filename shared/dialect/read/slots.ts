/** What the slots of one board line hold. */
import { decodeSlot } from "../codes/codes.ts";
import type { Decoded, Held, Pattern } from "../dialect.ts";
import type { SlotText } from "../patterns/match.ts";

/** A slot of a line with what it holds. */
export interface ReadSlot extends SlotText {
  readonly held: Held;
}

export type ReadSlots = readonly ReadSlot[];

/** The slot of a name; undefined without one. */
export function slotOf(slots: ReadSlots, name: string): ReadSlot | undefined {
  for (const slot of slots) if (slot.name === name) return slot;
  return undefined;
}

/** The slots of a match with what they hold; a sentence where one holds nothing of its code. */
export function readSlots(match: readonly SlotText[], pattern: Pattern): ReadSlots | string {
  const read: ReadSlot[] = [];
  for (const found of match) {
    const { name, text } = found;
    const slot = pattern.slots.get(name);
    const decoded: Decoded = slot ? decodeSlot(slot, text) : { kind: "word", text };
    if (decoded.kind === "bad") return sentence(`“${text}” is no value of {${name}}: ${decoded.why}`);
    read.push({ ...found, held: decoded });
  }
  return read;
}

/** A reason as a sentence: it may be one already. */
export function sentence(why: string): string {
  const text = why === "" ? "the model does not take it" : why;
  const first = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}
