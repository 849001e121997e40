/** What a board line holds that no entry of the script says: where that is not the default, the line is kept as well. */
import { decodeSlot, textOfHeld } from "../codes/codes.ts";
import { parseDigits } from "../codes/number-code.ts";
import type { BitsCode, Left, Meaning, Slot } from "../dialect.ts";
import { refsOf } from "../file/link-facts.ts";
import { type ReadSlots, slotOf } from "./slots.ts";

/**
 * What a line holds that the entries which come of it do not say, as the beginning of a sentence; null where there is
 * nothing. `set` are its meanings that say something, `unset` those by which nothing is set.
 */
export function besideOf(
  { beside, pattern }: Left,
  slots: ReadSlots,
  set: readonly Meaning[],
  unset: readonly Meaning[],
): string | null {
  const used = new Set(set.flatMap(slotsUsed));
  // A line that says that nothing is set still says of what, and which number it has.
  for (const meaning of unset) for (const slot of slotsThatName(meaning)) used.add(slot);
  for (const slot of pattern.slots.values()) {
    const { name, code } = slot;
    const { text, held } = slotOf(slots, name)!;
    if (held.kind === "unset" && code?.kind !== "bits") continue;
    const isUsed = used.has(name) || name === "#";
    if (!isUsed && !isDefault(slot, text)) return `“${text}” of {${name}} is said by no entry`;
    if (isUsed && code?.kind === "bits") {
      const stray = strayBits(code, name, text, beside);
      if (stray !== null) return stray;
    }
  }
  return null;
}

/** Whether lines of a left side may hold more than its meanings say, where all of them say something. */
export function mayHoldMore({ beside, pattern }: Left): boolean {
  if (beside.length > 0) return true;
  for (const { code } of pattern.slots.values()) if (code?.kind === "bits") return true;
  return false;
}

/** As the board spells the default, or the same value spelled otherwise. */
function isDefault(slot: Slot, text: string): boolean {
  if (slot.default === null) return false;
  if (slot.default === text) return true;
  if (slot.code?.kind === "bits") return parseDigits(text, slot.code) === parseDigits(slot.default, slot.code);
  const [a, b] = [decodeSlot(slot, text), decodeSlot(slot, slot.default)];
  return a.kind !== "bad" && b.kind === a.kind && textOfHeld(a) === textOfHeld(b);
}

/** The first bits that say something and belong to no part that an entry uses. */
function strayBits(code: BitsCode, slot: string, text: string, beside: readonly string[]): string | null {
  const number = parseDigits(text, code);
  if (number === null) return null;
  let rest = number;
  for (const { from, to, name } of code.parts) {
    const mask = ((1n << BigInt(to - from + 1)) - 1n) << BigInt(from);
    if (beside.includes(`${slot}.${name}`) && (rest & mask) !== 0n) return `“${name}” of “${text}” is said by no entry`;
    rest &= ~mask;
  }
  for (const { bit } of code.fixed) rest &= ~(1n << BigInt(bit));
  return rest === 0n ? null : `“${text}” has bits that no entry says`;
}

function slotsUsed({ right, title }: Meaning): string[] {
  return refsOf(right, title).map(({ slot }) => slot);
}

function slotsThatName({ right, title }: Meaning): string[] {
  return [...right.name, ...(title ?? [])].flatMap((part) => (typeof part === "string" ? [] : [part.slot]));
}
