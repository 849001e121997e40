/** How a line spells what its slots are to hold, on top of the line that stands there, if one does. */
import { decodeSlot, encodeSlot, splitSum } from "../codes/codes.ts";
import { inUnit, numberIn } from "../codes/held.ts";
import { stepOf } from "../codes/number-code.ts";
import type { Held, Left, Ref, Slot } from "../dialect.ts";
import { compareExact, dividedBy, type Exact, exact, minus, nearestWhole, plus, times } from "../exact.ts";
import { fillPattern } from "../patterns/fill.ts";
import { type Row, saysHeld } from "./draft.ts";
import type { Share, SlotOf } from "./unify.ts";

/** What each slot is to hold; of a slot with parts, those that are known. */
export type Helds = ReadonlyMap<string, Held>;

/** The shares of a value by slot: sums are split, parts joined. A reason where they cannot be. */
export function heldsOf(shares: readonly Share[], slotOf: SlotOf): Map<string, Held> | string {
  const helds = new Map<string, Held>();
  for (const { refs, held } of shares) {
    const split =
      refs.length === 1
        ? [held]
        : splitSum(
            refs.map((ref) => termOf(ref, slotOf)),
            inSteps(
              refs.map((ref) => termOf(ref, slotOf)),
              held,
            ),
          );
    if (!split) return "it is beyond what the parts of the line can say together";
    for (const [i, { slot, part }] of refs.entries()) {
      const own = split[i]!;
      const before = helds.get(slot);
      if (part === null) helds.set(slot, own);
      else
        helds.set(slot, {
          kind: "parts",
          parts: new Map([...(before?.kind === "parts" ? before.parts : []), [part, own]]),
        });
    }
  }
  return helds;
}

/** The sum in whole smallest steps, so that what is left for the last part never rounds up beyond it. */
function inSteps(terms: readonly Pick<Slot, "code" | "whole">[], held: Held): Held {
  const number = numberIn(held);
  let [least, from, unit]: [Exact | null, Exact, string] = [null, exact(0n), ""];
  for (const { code } of terms) {
    const step = code === null ? exact(1n) : code.kind === "number" ? stepOf(code) : null;
    if (!step) return held;
    if (code?.kind === "number") {
      from = plus(from, code.from);
      if (code.unit !== "") ({ unit } = code);
    }
    if (!least || compareExact(step, least) < 0) least = step;
  }
  const value = number && inUnit(number, unit);
  if (!value || !least) return held;
  const steps = nearestWhole(dividedBy(minus(value, from), least));
  return { kind: "number", number: plus(from, times(least, exact(steps))), unit };
}

function termOf(ref: Ref, slotOf: SlotOf): Pick<Slot, "code" | "whole"> {
  const slot = slotOf(ref);
  if (ref.part === null || slot?.code?.kind !== "bits") return { code: slot?.code ?? null, whole: slot?.whole ?? null };
  const part = slot.code.parts.find(({ name }) => name === ref.part);
  const room = part ? 2 ** (part.to - part.from + 1) - 1 : 0;
  return { code: part?.code ?? null, whole: part?.code ? null : { from: 0, to: room } };
}

/** What two sets of slots hold together; null where they disagree. */
export function togetherHeld(a: Helds, b: Helds, isSame: (a: Held, b: Held) => boolean): Map<string, Held> | null {
  const all = new Map(a);
  for (const [slot, held] of b) {
    const before = all.get(slot);
    if (before?.kind === "parts" && held.kind === "parts") {
      const parts = new Map(before.parts);
      for (const [name, part] of held.parts) {
        const own = parts.get(name);
        if (own && !isSame(own, part)) return null;
        parts.set(name, part);
      }
      all.set(slot, { kind: "parts", parts });
    } else if (before && !isSame(before, held)) return null;
    else all.set(slot, held);
  }
  return all;
}

export type Spelled =
  | { readonly kind: "spelled"; readonly texts: ReadonlyMap<string, string>; readonly isRounded: boolean }
  | { readonly kind: "cannot"; readonly why: string };

/**
 * The texts of the slots that change, or for a new line of all that are known. `row`: the line that stands there; what
 * it says of a slot already stays as it is spelled.
 */
export function spellSlots({ pattern }: Left, helds: Helds, row: Row | null): Spelled {
  const texts = new Map<string, string>();
  let isRounded = false;
  for (const slot of pattern.slots.values()) {
    const held = helds.get(slot.name);
    if (!held) continue;
    const raw = row?.parse.kind === "fits" ? (row.parse.slots.get(slot.name)?.text ?? null) : null;
    if (raw !== null && saysHeld(slot, raw, held)) continue;
    const encoded = encodeSlot(slot, withOtherParts(slot, held, raw ?? slot.default), raw ?? slot.default);
    if (encoded.kind === "cannot") return encoded;
    isRounded ||= encoded.means !== null;
    // A line that says the nearest step already stays.
    if (raw !== null && encoded.means !== null && saysHeld(slot, raw, encoded.means)) continue;
    texts.set(slot.name, encoded.text);
  }
  return { kind: "spelled", texts, isRounded };
}

/** The parts that nobody asks for stay as they stand. */
function withOtherParts(slot: Slot, held: Held, raw: string | null): Held {
  if (held.kind !== "parts" || raw === null) return held;
  const before = decodeSlot(slot, raw);
  return before.kind === "parts" ? { kind: "parts", parts: new Map([...before.parts, ...held.parts]) } : held;
}

/** A line with other texts in some of its slots, and every other character as it was. */
export function changedLine(row: Row, texts: ReadonlyMap<string, string>): string {
  if (row.parse.kind !== "fits") return row.text;
  const { slots } = row.parse;
  let line = row.text;
  const places = [...texts]
    .flatMap(([name, text]) => {
      const slot = slots.get(name)!;
      return [slot, ...(slot.again ?? [])].map((at) => ({ text, at }));
    })
    .sort((a, b) => b.at.start - a.at.start);
  for (const { text, at } of places) line = line.slice(0, at.start) + text + line.slice(at.end);
  return line;
}

/** A new line; a reason where a slot is left of which nobody knows what it holds. */
export function newLine(
  { pattern }: Left,
  texts: ReadonlyMap<string, string>,
): { readonly line: string } | { readonly why: string } {
  for (const slot of pattern.slots.values())
    if (!texts.has(slot.name) && slot.default === null)
      return { why: `nobody says what {${slot.name}} of “${pattern.key}” is` };
  return { line: fillPattern(pattern, texts) };
}
