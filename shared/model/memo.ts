/** What was worked out of a craft or of a workspace, kept with it and gone with it. */

/** By the function that worked it out. */
export type Memo = Map<unknown, { readonly also: unknown; readonly answer: unknown }>;

export interface Remembering {
  readonly memo: Memo;
}

/**
 * `work`, done once for each owner, and again where it is asked with another `also`. The memory is
 * the owner's own and no WeakMap: with every key in an editor a craft dies, and what a WeakMap
 * holds of a dead key outlives the small collections, which then take milliseconds instead of none.
 */
export function oncePer<O extends Remembering, A = undefined, T = unknown>(
  work: (owner: O, also: A) => T,
): (owner: O, also: A) => T {
  return (owner, also) => {
    const known = owner.memo.get(work);
    if (known && known.also === also) return known.answer as T;
    const answer = work(owner, also);
    owner.memo.set(work, { also, answer });
    return answer;
  };
}
