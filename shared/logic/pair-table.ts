/** A memory for functions of two whole numbers from 0: it forgets only when told to, so no work is done twice. */

export interface PairTable {
  /** The value kept for a pair, or -1. */
  get(a: number, b: number): number;
  /** Keeps a value, itself a whole number from 0, for a pair that has none yet. */
  set(a: number, b: number, value: number): void;
  /** Forgets everything. */
  clear(): void;
}

/** Slots less one of an empty memory. */
const SMALLEST = 127;
/** Clearing takes as long as a memory is large: one of which less than this share was used starts small again. */
const USED_LITTLE = 1 / 16;

/** An empty memory. It starts small, because most craft need little, and doubles when half full. */
export function makePairTable(): PairTable {
  let mask = SMALLEST;
  // Three numbers a slot; the value is kept plus one, so that 0 says "empty".
  let slots = new Int32Array((mask + 1) * 3);
  let used = 0;

  const slotOf = (a: number, b: number): number => {
    let at = hashPair(a, b) & mask;
    while (slots[at * 3 + 2] !== 0 && (slots[at * 3] !== a || slots[at * 3 + 1] !== b)) at = (at + 1) & mask;
    return at * 3;
  };
  const put = (a: number, b: number, kept: number): void => {
    const at = slotOf(a, b);
    slots[at] = a;
    slots[at + 1] = b;
    slots[at + 2] = kept;
  };
  const grow = (): void => {
    const old = slots;
    mask = mask * 2 + 1;
    slots = new Int32Array((mask + 1) * 3);
    for (let at = 0; at < old.length; at += 3) if (old[at + 2] !== 0) put(old[at]!, old[at + 1]!, old[at + 2]!);
  };

  return {
    get: (a, b) => slots[slotOf(a, b) + 2]! - 1,
    set: (a, b, value) => {
      if (++used * 2 > mask) grow();
      put(a, b, value + 1);
    },
    clear: () => {
      if (used === 0) return;
      if (mask === SMALLEST || used > mask * USED_LITTLE) slots.fill(0);
      else {
        mask = SMALLEST;
        slots = new Int32Array((mask + 1) * 3);
      }
      used = 0;
    },
  };
}

/** Spreads a pair of whole numbers over 32 bits (multiplicative hashing; the constants are odd primes). */
export function hashPair(a: number, b: number): number {
  let hash = Math.imul(a, 0x9e3779b1) ^ Math.imul(b + 0x7f4a7c15, 0x85ebca6b);
  hash ^= hash >>> 15;
  return Math.imul(hash, 0x2c1b3c6d) ^ (hash >>> 13);
}
