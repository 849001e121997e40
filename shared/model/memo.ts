/** What is remembered: of a craft or a workspace for as long as it lives, and by a core from one craft to the next. */
import { listenTo, type Reads, readAgain } from "./reads.ts";

/** By the function that worked it out; `reads` is what it rests on, where somebody listened. */
export type Memo = Map<unknown, { readonly also: unknown; readonly answer: unknown; readonly reads?: Reads }>;

export interface Remembering {
  readonly memo: Memo;
}

/** What a core remembers, by the function that makes the store. It is shared by all that the core has made. */
export type CoreMemo = Map<unknown, unknown>;

/** Something that a core has made of a file. */
export interface FromCore {
  readonly file: string;
  readonly coreMemo: CoreMemo;
}

/** Gives a store that each core makes for itself and keeps for as long as it is in use. */
export function perCore<T>(make: () => T): (owner: FromCore) => T {
  return ({ coreMemo }) => {
    if (!coreMemo.has(make)) coreMemo.set(make, make());
    return coreMemo.get(make) as T;
  };
}

/** As many files as a core remembers craft of. */
const MOST_FILES = 50;

/** Gives a store for each file of each core; that of the file longest not asked about goes first. */
export function perFile<T>(make: () => T): (owner: FromCore) => T {
  const storesOf = perCore(() => new Map<string, T>());
  return (owner) => {
    const stores = storesOf(owner);
    const store = stores.get(owner.file) ?? make();
    // The order of a map is that in which its keys were set: the first is the one longest not asked about.
    stores.delete(owner.file);
    stores.set(owner.file, store);
    if (stores.size > MOST_FILES) stores.delete(stores.keys().next().value!);
    return store;
  };
}

/**
 * `work`, done once for each owner, and again where it is asked with another `also`. The memory is
 * the owner's own and no WeakMap: with every key in an editor a craft dies, and what a WeakMap
 * holds of a dead key outlives the small collections, which then take milliseconds instead of none. An answer is
 * whole when it is given: what is put into it later, nobody is told to have read.
 */
export function oncePer<O extends Remembering, A = undefined, T = unknown>(
  work: (owner: O, also: A) => T,
): (owner: O, also: A) => T {
  return (owner, also) => {
    const known = owner.memo.get(work);
    if (known && known.also === also) {
      readAgain(owner, known.reads ?? null);
      return known.answer as T;
    }
    const { answer, reads } = listenTo(owner, () => work(owner, also));
    owner.memo.set(work, { also, answer, reads });
    return answer;
  };
}
