/**
 * New channels for craft that fly together, by which nothing is left in the way: the smallest change that does it,
 * found by an exact search (`channelPlan`).
 *
 * A plan is better than another if it changes fewer craft; then if fewer of them go to a frequency that nobody named;
 * then if more go to their own spare frequency; then by the sum of the MHz moved; then by the largest of the moves; and
 * in the end by the order of the craft, of which the first stay as they are.
 */
import { type OpenChannels, openChannels, type Spacing, type Work } from "./channel-search.ts";

/** Where a frequency to move to comes from, the best first: the craft's own spare, one that has a name, any other. */
export const RANKS = ["spare", "named", "any"] as const;
export type Rank = (typeof RANKS)[number];

export interface Choice {
  readonly khz: number;
  readonly rank: Rank;
}

/** A craft as it sends now, and where it may go: each frequency once. */
export interface Movable {
  readonly khz: number;
  readonly choices: readonly Choice[];
}

export type PlanFound =
  /** By index, the frequency of each craft that moves; none where nothing is in the way. */
  | { readonly kind: "plan"; readonly moves: ReadonlyMap<number, number> }
  | { readonly kind: "none" }
  /** The work was used up before it was known. */
  | { readonly kind: "unknown" };

/** A choice, weighed. Weights are whole numbers so far apart that sums of a dozen keep the order. */
interface Weighed {
  readonly khz: number;
  readonly index: number;
  readonly weight: number;
  readonly moved: number;
  /** How many choices are better. */
  readonly order: number;
}

/** More than a dozen moves by all of the spectrum come to, in kHz. */
const FOR_NO_SPARE = 1e9;
const FOR_NO_NAME = 1e11;
const FOR_RANK: Readonly<Record<Rank, number>> = {
  spare: 0,
  named: FOR_NO_SPARE,
  any: FOR_NO_SPARE + FOR_NO_NAME,
};

interface Best {
  readonly weight: number;
  readonly largest: number;
  /** For each craft by how much it moves, and where it is then. */
  readonly ends: readonly { readonly moved: number; readonly khz: number }[];
}

/** The best plan, if there is one. */
export function channelPlan(craft: readonly Movable[], spacing: Spacing, work: Work): PlanFound {
  const channels = [...new Set(craft.flatMap(({ khz, choices }) => [khz, ...choices.map((each) => each.khz)]))].sort(
    (a, b) => a - b,
  );
  const indexOf = new Map(channels.map((khz, index) => [khz, index]));
  const choices = craft.map(({ khz, choices }) =>
    choices
      .filter((each) => each.khz !== khz)
      .map((each): Weighed => {
        const moved = Math.abs(each.khz - khz);
        return { khz: each.khz, index: indexOf.get(each.khz)!, moved, weight: FOR_RANK[each.rank] + moved, order: 0 };
      })
      .sort((a, b) => a.weight - b.weight || a.khz - b.khz)
      .map((each, order) => ({ ...each, order })),
  );
  const open = openChannels(channels, spacing, work);
  const search = searchFor(craft, choices, open, work);
  for (let changes = 0; changes <= craft.length; changes++) {
    const best = search(changes, (i) => open.isOpen(indexOf.get(craft[i]!.khz)!));
    if (work.steps <= 0) return { kind: "unknown" };
    if (!best) continue;
    const moves = best.ends.flatMap(({ moved, khz }, i) => (moved > 0 ? [[i, khz] as const] : []));
    return { kind: "plan", moves: new Map(moves) };
  }
  return { kind: "none" };
}

function searchFor(
  craft: readonly Movable[],
  choices: readonly (readonly Weighed[])[],
  open: OpenChannels,
  work: Work,
) {
  const classOf = craft.map((_, i) => firstAlike(craft, i));
  let best: Best | null = null;
  const taken: Weighed[] = [];

  const keep = (moving: readonly number[], weight: number): void => {
    const found = bestOf(craft, classOf, moving, taken, weight);
    if (!best || isBetter(found, best)) best = found;
  };
  /**
   * The first choice of each that moves: of craft that are alike it makes no difference which of them goes where, so
   * those that come later begin where the one before left off.
   */
  const firstChoices = (moving: readonly number[]): number[] =>
    moving.map((i) => {
      let first = 0;
      for (const [at, { order }] of taken.entries()) if (classOf[moving[at]!] === classOf[i]) first = order + 1;
      return first;
    });
  /** The craft that move get channels one after another, `weight` is that of those which have one. */
  const assign = (moving: readonly number[], weight: number): void => {
    if (work.steps <= 0) return;
    const at = taken.length;
    const firsts = firstChoices(moving);
    const rest = moving.slice(at).map((i, k) => lightest(choices[i]!, firsts[at + k]!, open, work));
    const least = rest.reduce((sum, each) => sum + each, 0);
    if (weight + least > (best?.weight ?? Number.MAX_VALUE)) return;
    const own = choices[moving[at]!]!;
    // Those after it that are alike come to no less than it does.
    const alike = moving.slice(at + 1).filter((i) => classOf[i] === classOf[moving[at]!]).length;
    const unlike = moving
      .slice(at + 1)
      .reduce((sum, i, k) => sum + (classOf[i] === classOf[moving[at]!] ? 0 : rest[k + 1]!), 0);
    for (let c = firsts[at]!; c < own.length; c++) {
      const choice = own[c]!;
      work.steps--;
      if (weight + choice.weight * (1 + alike) + unlike > (best?.weight ?? Number.MAX_VALUE)) return;
      if (!open.isOpen(choice.index)) continue;
      taken.push(choice);
      if (at === moving.length - 1) keep(moving, weight + choice.weight);
      else {
        open.stand(choice.khz);
        assign(moving, weight + choice.weight);
        open.takeBack();
      }
      taken.pop();
    }
  };
  /** Each craft stays, if it goes together with those that stay, or moves. */
  const choose = (i: number, moving: number[], changes: number, mayStay: (i: number) => boolean): void => {
    if (work.steps <= 0) return;
    work.steps--;
    if (i === craft.length) {
      if (moving.length === changes && changes === 0) keep([], 0);
      else if (moving.length === changes) assign(moving, 0);
      return;
    }
    if (craft.length - i > changes - moving.length && mayStay(i)) {
      open.stand(craft[i]!.khz);
      choose(i + 1, moving, changes, mayStay);
      open.takeBack();
    }
    if (moving.length < changes) choose(i + 1, [...moving, i], changes, mayStay);
  };
  return (changes: number, mayStay: (i: number) => boolean): Best | null => {
    best = null;
    choose(0, [], changes, mayStay);
    return best;
  };
}

/** The first craft that sends as this one does and may go where it may; the craft itself where there is none before it. */
function firstAlike(craft: readonly Movable[], at: number): number {
  const { khz, choices } = craft[at]!;
  return craft.findIndex(
    (other) =>
      other.khz === khz &&
      other.choices.length === choices.length &&
      other.choices.every((each, k) => each.khz === choices[k]!.khz && each.rank === choices[k]!.rank),
  );
}

/** The weight of the lightest choice from the first on that is open; without any more than every plan. */
function lightest(choices: readonly Weighed[], first: number, open: OpenChannels, work: Work): number {
  for (let c = first; c < choices.length; c++) {
    work.steps--;
    if (open.isOpen(choices[c]!.index)) return choices[c]!.weight;
  }
  return Number.POSITIVE_INFINITY;
}

/** The plan by which each that moves goes where it was put; of craft that are alike the first moves least. */
function bestOf(
  craft: readonly Movable[],
  classOf: readonly number[],
  moving: readonly number[],
  taken: readonly Weighed[],
  weight: number,
): Best {
  const ends = craft.map(({ khz }) => ({ moved: 0, khz }));
  for (const i of moving) {
    const alike = moving.filter((other) => classOf[other] === classOf[i]);
    const theirs = alike.map((other) => taken[moving.indexOf(other)]!);
    theirs.sort((a, b) => a.moved - b.moved || a.khz - b.khz);
    const { moved, khz } = theirs[alike.indexOf(i)]!;
    ends[i] = { moved, khz };
  }
  return { weight, largest: Math.max(0, ...taken.map(({ moved }) => moved)), ends };
}

/** Of plans with as many changes. */
function isBetter(a: Best, b: Best): boolean {
  if (a.weight !== b.weight) return a.weight < b.weight;
  if (a.largest !== b.largest) return a.largest < b.largest;
  for (const [i, end] of a.ends.entries()) {
    const other = b.ends[i]!;
    if (end.moved !== other.moved) return end.moved < other.moved;
  }
  for (const [i, end] of a.ends.entries()) {
    const other = b.ends[i]!;
    if (end.khz !== other.khz) return end.khz < other.khz;
  }
  return false;
}
