/** What slots of a board's line can hold of a range: its channel, and the pulses at its ends. */
import { encodeSlot } from "../codes/codes.ts";
import { CHANNEL, exactIn, heldOfOurs, numberIn } from "../codes/held.ts";
import { endsOf } from "../codes/number-code.ts";
import type { Code, Encoded, Held, Ref, Slot } from "../dialect.ts";
import { type Exact, exact, exactOfNumber, numberOf } from "../exact.ts";

/** A place for a channel. */
export interface ChannelPlace {
  /** The slot, or its part, that holds it; null where the line says it as it is. */
  readonly slot: string | null;
  holds(channel: number): boolean;
}

/** Pulses between two others; an end is open where it must not be reached itself. */
export interface Between {
  readonly fromUs: number;
  readonly toUs: number;
  readonly isFromOpen: boolean;
  readonly isToOpen: boolean;
}

/** A place for the end of a range. */
export interface EdgePlace {
  readonly slot: string | null;
  /** The lowest and the highest pulse that it can hold; null where it has no bounds. */
  readonly lowestUs: number | null;
  readonly highestUs: number | null;
  /** The pulse nearest to one, of two the lower; null beyond the range. */
  nearest(us: number): number | null;
  /** The nearest pulse to one that lies between; null where there is none. */
  within(between: Between, preferUs: number): number | null;
}

/** What a slot or a part of one, or a number that stands there, holds as a channel; null for a slot that does not exist. */
export function channelPlace(at: Ref | number, slotOf: (name: string) => Slot | null): ChannelPlace | null {
  if (typeof at === "number") return { slot: null, holds: (channel) => channel === at };
  const slot = slotOf(at.slot);
  if (!slot) return null;
  const known = new Map<number, boolean>();
  return {
    slot: keyOf(at),
    holds(channel) {
      let holds = known.get(channel);
      if (holds === undefined) {
        const encoded = encodeAt(slot, at, { kind: "number", number: exact(BigInt(channel)), unit: CHANNEL });
        holds = encoded.kind === "spelled" && encoded.means === null;
        known.set(channel, holds);
      }
      return holds;
    },
  };
}

/** The same for the end of a range. */
export function edgePlace(at: Ref | number, slotOf: (name: string) => Slot | null): EdgePlace | null {
  if (typeof at === "number") return listed(null, [at]);
  const slot = slotOf(at.slot);
  if (!slot) return null;
  const code = codeAt(slot, at);
  if (code?.kind === "words") return listed(keyOf(at), pulsesOf(code));
  return stepped(slot, at, code);
}

function keyOf({ slot, part }: Ref): string {
  return part === null ? slot : `${slot}.${part}`;
}

function codeAt({ code }: Slot, { part }: Ref): Code | null {
  if (part === null) return code;
  return (code?.kind === "bits" && code.parts.find(({ name }) => name === part)?.code) || null;
}

function encodeAt(slot: Slot, { part }: Ref, held: Held): Encoded {
  return encodeSlot(slot, part === null ? held : { kind: "parts", parts: new Map([[part, held]]) });
}

function pulsesOf({ words }: Extract<Code, { kind: "words" }>): number[] {
  return words.flatMap(({ ours }) => {
    const number = ours === null ? null : numberIn(heldOfOurs(ours));
    const us = number && (number.unit === "" ? number.number : exactIn(number.number, number.unit, "us"));
    return us ? numberOf(us) : [];
  });
}

/** A place that holds only these. */
function listed(slot: string | null, pulses: readonly number[]): EdgePlace {
  const rising = [...pulses].sort((a, b) => a - b);
  const nearestOf = (some: readonly number[], us: number): number | null =>
    some.reduce<number | null>((best, each) => {
      return best === null || Math.abs(each - us) < Math.abs(best - us) ? each : best;
    }, null);
  return {
    slot,
    lowestUs: rising[0] ?? null,
    highestUs: rising.at(-1) ?? null,
    nearest: (us) => (rising.includes(us) ? us : null),
    within: (between, preferUs) =>
      nearestOf(
        rising.filter((us) => isBetween(us, between)),
        preferUs,
      ),
  };
}

/** A place that holds pulses in steps. */
function stepped(slot: Slot, at: Ref, code: Code | null): EdgePlace {
  const known = new Map<number, number | null>();
  const nearest = (us: number): number | null => {
    const before = known.get(us);
    if (before !== undefined) return before;
    const found = spelledUs(slot, at, us);
    known.set(us, found);
    return found;
  };
  const ends = endsAt(slot, at, code);
  return {
    slot: keyOf(at),
    ...ends,
    nearest,
    within(between, preferUs) {
      const most = Math.ceil(Math.max(preferUs - between.fromUs, between.toUs - preferUs, 0));
      // The pulse nearest to each whole us on either side, the near ones first, is one of those that lie between.
      let best: number | null = null;
      for (let away = 0; away <= most; away++) {
        for (const us of away === 0 ? [preferUs] : [preferUs - away, preferUs + away]) {
          const found = us < between.fromUs || us > between.toUs ? null : nearest(us);
          if (found === null || !isBetween(found, between)) continue;
          const [gain, off] = [Math.abs(found - preferUs), best === null ? Infinity : Math.abs(best - preferUs)];
          if (gain < off || (gain === off && best !== null && found < best)) best = found;
        }
        if (best !== null && Math.abs(best - preferUs) <= away) return best;
      }
      return best;
    },
  };
}

function isBetween(us: number, { fromUs, toUs, isFromOpen, isToOpen }: Between): boolean {
  return (isFromOpen ? us > fromUs : us >= fromUs) && (isToOpen ? us < toUs : us <= toUs);
}

/** The pulse that the board understands where it is told this one; null where it cannot be told. */
function spelledUs(slot: Slot, at: Ref, us: number): number | null {
  if (!Number.isFinite(us)) return null;
  const encoded = encodeAt(slot, at, { kind: "number", number: exactOfNumber(us), unit: "us" });
  if (encoded.kind === "cannot") return null;
  const { means } = encoded;
  if (means === null) return us;
  const held = means.kind === "parts" ? means.parts.get(at.part ?? "") : means;
  const number = held ? numberIn(held) : null;
  return number ? inUs(number.number, number.unit) : null;
}

function inUs(number: Exact, unit: string): number | null {
  const us = unit === "" ? number : exactIn(number, unit, "us");
  return us && numberOf(us);
}

/** The ends of what a slot, or its part, can say, in us. */
function endsAt(
  { code: ofSlot, whole }: Slot,
  { part }: Ref,
  code: Code | null,
): Pick<EdgePlace, "lowestUs" | "highestUs"> {
  if (whole && part === null) return { lowestUs: whole.from, highestUs: whole.to };
  const bits = part !== null && ofSlot?.kind === "bits" ? ofSlot.parts.find(({ name }) => name === part) : undefined;
  const room = bits ? exact((1n << BigInt(bits.to - bits.from + 1)) - 1n) : null;
  if (code?.kind === "number") {
    // Where the bounds are not said, the bits of a part, or the digits, bound a number of nought or more.
    const digits =
      code.digits === null || code.places > 0 ? null : exact(BigInt(code.base) ** BigInt(code.digits) - 1n);
    const bounded = { ...code, least: code.least ?? exact(0n), most: code.most ?? room ?? digits };
    const ends = bounded.most && endsOf(bounded);
    if (!ends) return NO_ENDS;
    return { lowestUs: inUs(ends.least, code.unit), highestUs: inUs(ends.most, code.unit) };
  }
  return room ? { lowestUs: 0, highestUs: numberOf(room) } : NO_ENDS;
}

const NO_ENDS = { lowestUs: null, highestUs: null };
