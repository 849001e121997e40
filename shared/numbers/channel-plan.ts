/**
 * New channels for craft that fly together, by which nothing is left in the way: the smallest change that does it,
 * found by an exact search (`channelPlan`).
 *
 * A plan is better than another if it changes fewer craft; then if fewer of them go to a frequency that nobody named;
 * then if more go to their own spare frequency; then by the sum of the MHz moved; then by the largest of the moves; and
 * in the end by the order of the craft, of which the first stay as they are.
 */
import { addsUp, type OpenChannels, openChannels, type Spacing, type Work } from "./channel-search.ts";

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

/** A choice, weighed: by how far it is, and far more where it is not the spare frequency. */
interface Weighed {
  readonly khz: number;
  readonly index: number;
  readonly weight: number;
  readonly moved: number;
  /** How many choices are better. */
  readonly order: number;
}

/** More than a dozen moves across all of the spectrum come to, in kHz. */
const FOR_NO_SPARE = 1e9;

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
  const search = searchFor(craft, { channels, spacing, work });
  for (let changes = 0; changes <= craft.length; changes++) {
    const movings = search.movings(changes);
    for (let unnamed = 0; unnamed <= changes && movings.length > 0; unnamed++) {
      const best = search.bestOf(movings, unnamed);
      if (work.steps <= 0) return { kind: "unknown" };
      if (best)
        return {
          kind: "plan",
          moves: new Map(best.ends.flatMap(({ moved, khz }, i) => (moved > 0 ? [[i, khz]] : []))),
        };
    }
    if (work.steps <= 0) return { kind: "unknown" };
  }
  return { kind: "none" };
}

interface Room {
  readonly channels: readonly number[];
  readonly spacing: Spacing;
  readonly work: Work;
}

/** A craft that moves, and the choices among which it has to take one, the best first. */
interface Mover {
  readonly craft: number;
  /** Movers of one kind make no difference: they are alike, and have the same choices. */
  readonly kind: string;
  readonly choices: readonly Weighed[];
}

function searchFor(craft: readonly Movable[], { channels, spacing, work }: Room) {
  const indexOf = new Map(channels.map((khz, index) => [khz, index]));
  const open = openChannels(channels, spacing, work);
  const classOf = craft.map((_, i) => firstAlike(craft, i));
  const named = craft.map((own) => weighed(own, (rank) => rank !== "any", indexOf));
  const unnamed = craft.map((own) => weighed(own, (rank) => rank === "any", indexOf));
  const taken: Weighed[] = [];
  let best: Best | null = null;

  const keep = (movers: readonly Mover[], weight: number): void => {
    const found = planOf(craft, classOf, movers, taken, weight);
    if (!best || isBetter(found, best)) best = found;
  };
  /** Of movers of one kind those that come later begin where the one before left off. */
  const firstChoices = (movers: readonly Mover[]): number[] =>
    movers.map(({ kind }) => {
      let first = 0;
      for (const [at, { order }] of taken.entries()) if (movers[at]!.kind === kind) first = order + 1;
      return first;
    });
  /** The movers get channels one after another, `weight` is that of those which have one. */
  const assign = (movers: readonly Mover[], weight: number): void => {
    if (work.steps <= 0) return;
    const most = () => best?.weight ?? Number.MAX_VALUE;
    const at = taken.length;
    const firsts = firstChoices(movers);
    const rest = movers.slice(at).map(({ choices }, k) => lightest(choices, firsts[at + k]!, open, work));
    if (weight + sumOf(rest) > most()) return;
    const { kind, choices } = movers[at]!;
    const later = movers.slice(at + 1);
    // Those after it of its kind come to no less than it does.
    const alike = later.filter((each) => each.kind === kind).length;
    const others = sumOf(later.map((each, k) => (each.kind === kind ? 0 : rest[k + 1]!)));
    for (let c = firsts[at]!; c < choices.length; c++) {
      const choice = choices[c]!;
      work.steps--;
      if (weight + choice.weight * (1 + alike) + others > most()) return;
      if (!open.isOpen(choice.index)) continue;
      taken.push(choice);
      if (at === movers.length - 1) keep(movers, weight + choice.weight);
      else {
        open.stand(choice.khz);
        assign(movers, weight + choice.weight);
        open.takeBack();
      }
      taken.pop();
    }
  };
  /** Goes on with all that stay in their places. */
  const staying = (moving: readonly number[], then: () => void): void => {
    const stays = craft.flatMap(({ khz }, i) => (moving.includes(i) ? [] : khz));
    for (const khz of stays) open.stand(khz);
    then();
    for (const _ of stays) open.takeBack();
  };
  const moversOf = (moving: readonly number[], isUnnamed: (i: number) => boolean): Mover[] => {
    const mover = (i: number): Mover => ({
      craft: i,
      kind: `${classOf[i]} ${isUnnamed(i)}`,
      choices: (isUnnamed(i) ? unnamed : named)[i]!,
    });
    // Of named channels there are few: whoever goes to one is tried first.
    return [...moving.filter((i) => !isUnnamed(i)), ...moving.filter(isUnnamed)].map(mover);
  };

  return {
    /** All ways to choose so many craft that the others go together, and that channels for these may be found. */
    movings(changes: number): number[][] {
      const found: number[][] = [];
      const choose = (i: number, moving: readonly number[]): void => {
        if (work.steps <= 0) return;
        work.steps--;
        if (i === craft.length) {
          // Whether so many go together at all is known much sooner than who of them goes where.
          if (addsUp(open, channels, changes, spacing, work) !== false) found.push([...moving]);
          return;
        }
        if (craft.length - i > changes - moving.length && open.isOpen(indexOf.get(craft[i]!.khz)!)) {
          open.stand(craft[i]!.khz);
          choose(i + 1, moving);
          open.takeBack();
        }
        if (moving.length < changes) choose(i + 1, [...moving, i]);
      };
      choose(0, []);
      return found;
    },
    /** The best plan of those by which one of these moves, so many of its craft to a frequency that nobody named. */
    bestOf(movings: readonly (readonly number[])[], count: number): Best | null {
      best = null;
      for (const moving of movings)
        staying(moving, () => {
          if (moving.length === 0) return keep([], 0);
          for (const some of subsets(moving, count))
            assign(
              moversOf(moving, (i) => some.includes(i)),
              0,
            );
        });
      return best;
    },
  };
}

function weighed(
  { khz, choices }: Movable,
  isOfThese: (rank: Rank) => boolean,
  indexOf: ReadonlyMap<number, number>,
): Weighed[] {
  return choices
    .filter((each) => each.khz !== khz && isOfThese(each.rank))
    .map((each) => {
      const moved = Math.abs(each.khz - khz);
      const weight = moved + (each.rank === "spare" ? 0 : FOR_NO_SPARE);
      return { khz: each.khz, index: indexOf.get(each.khz)!, moved, weight };
    })
    .sort((a, b) => a.weight - b.weight || a.khz - b.khz)
    .map((each, order) => ({ ...each, order }));
}

/** Every subset of so many. */
function subsets(all: readonly number[], count: number): number[][] {
  if (count === 0) return [[]];
  return all.flatMap((first, i) => subsets(all.slice(i + 1), count - 1).map((rest) => [first, ...rest]));
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0);
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

/** The plan by which each mover goes where it was put; of craft that are alike the first moves least. */
function planOf(
  craft: readonly Movable[],
  classOf: readonly number[],
  movers: readonly Mover[],
  taken: readonly Weighed[],
  weight: number,
): Best {
  const ends = craft.map(({ khz }) => ({ moved: 0, khz }));
  for (const like of new Set(movers.map((each) => classOf[each.craft]!))) {
    const alike = movers.flatMap((each, at) => (classOf[each.craft] === like ? [{ ...each, to: taken[at]! }] : []));
    const places = alike.map(({ to: { moved, khz } }) => ({ moved, khz }));
    places.sort((a, b) => a.moved - b.moved || a.khz - b.khz);
    const inOrder = alike.map((each) => each.craft).sort((a, b) => a - b);
    for (const [k, i] of inOrder.entries()) ends[i] = places[k]!;
  }
  return { weight, largest: Math.max(0, ...taken.map(({ moved }) => moved)), ends };
}

/** Of plans with as many changes, and as many to frequencies that nobody named. */
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
