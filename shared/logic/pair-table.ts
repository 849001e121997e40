/**
 * A hash table for functions of two non-negative integers: the memo tables of the diagrams. It evicts
 * nothing, so no result is computed twice between two calls of `clear`.
 */

export interface PairTable {
  /** The value stored for a pair, or -1. */
  get(a: number, b: number): number;
  /** Stores a value, a non-negative integer, for a pair that has none yet. */
  set(a: number, b: number, value: number): void;
  /** Removes all entries. */
  clear(): void;
}

/** Number of slots of an empty table, less one. */
const SMALLEST_MASK = 127;
/** Clearing takes time linear in the table's size: one of which less than this share is used is replaced by a small one. */
const USED_LITTLE = 1 / 16;

/** An empty table: open addressing with linear probing, doubled when half full. It starts small, since most craft need little. */
export function makePairTable(): PairTable {
  let mask = SMALLEST_MASK;
  // Three numbers for each slot; the value is stored plus one, so that 0 means “empty”.
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
      if (mask === SMALLEST_MASK || used > mask * USED_LITTLE) slots.fill(0);
      else {
        mask = SMALLEST_MASK;
        slots = new Int32Array((mask + 1) * 3);
      }
      used = 0;
    },
  };
}

/** A 32-bit hash of a pair of integers (multiplicative hashing; the constants are odd). */
export function hashPair(a: number, b: number): number {
  let hash = Math.imul(a, 0x9e3779b1) ^ Math.imul(b + 0x7f4a7c15, 0x85ebca6b);
  hash ^= hash >>> 15;
  return Math.imul(hash, 0x2c1b3c6d) ^ (hash >>> 13);
}
