/**
 * Oracles of tours that know nothing of diagrams: the length of a shortest tour, by looking at every way to go on from
 * everything that can have been seen, and that of a greedy tour.
 */
import fc from "fast-check";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { arrivesAs, choices, everyState, modeHolds, type State } from "./enumerate.ts";

interface Lever {
  readonly name: string;
  /** For each place, the positions or pulses as which it may arrive. */
  readonly places: readonly { readonly at: string | number; readonly arrives: readonly (string | number)[] }[];
  readonly start: number;
  readonly springs: boolean;
  /** The index of a place, or of the stretch of a dial that a pulse is in. */
  indexOf(at: string | number): number;
}

/** The controls of a craft, and what is to be seen, by state: a state has a place for each control. */
export interface Board {
  readonly levers: readonly Lever[];
  /** The number of a state's places. */
  indexOf(places: readonly number[]): number;
  /** By the number of a state, as bits: which modes are surely on (even bits) and surely off (odd bits). */
  readonly seenAt: readonly number[];
  /** What can be seen in some state. */
  readonly all: number;
}

/** All states of a craft with few of them. */
export function boardOf(input: SwitchInput): Board {
  const names = input.conditions.map(({ name }) => name);
  const truths = new Map<string, number>();
  const all = choices(input);
  const keyOf = (state: State) => all.map(([name]) => state[name]).join();
  for (const state of everyState(input))
    truths.set(
      keyOf(state),
      names.reduce((bits, name, i) => bits | (modeHolds(input, name, state) ? 1 << i : 0), 0),
    );
  const levers = input.controls.map((control): Lever => {
    const isDial = control.kind === "dial";
    const pulses = isDial ? dialPlaces(control.name, all, truths) : [];
    const places = isDial
      ? pulses.map((at) => ({ at, arrives: [at] }))
      : control.positions.map(({ name }) => ({ at: name, arrives: arrivesAs(control, name, input) }));
    const falls = isDial && control.fromUs! > control.toUs!;
    if (falls) places.reverse();
    const start = Math.max(
      0,
      places.findIndex(({ at }) => at === control.rest),
    );
    const stretch = (us: number) => pulses.findLastIndex((from) => from <= us);
    const indexOf = (at: string | number) => {
      if (!isDial) return places.findIndex((each) => each.at === at);
      return falls ? pulses.length - 1 - stretch(Number(at)) : stretch(Number(at));
    };
    return { name: control.name, places, start, springs: control.kind === "button", indexOf };
  });
  const driven = new Set(input.controls.map(({ name }) => name));
  const undriven = all.filter(([name]) => !driven.has(name));
  const seenAt: number[] = [];
  const indexOf = (places: readonly number[]) =>
    places.reduce((index, place, i) => index * levers[i]!.places.length + place, 0);
  const visit = (places: readonly number[]): void => {
    const lever = levers[places.length];
    if (lever) {
      for (const p of lever.places.keys()) visit([...places, p]);
      return;
    }
    let [on, off] = [-1, -1];
    const tryAll = (state: State, i: number): void => {
      const next = levers[i] ? levers[i].places[places[i]!]!.arrives : undriven[i - levers.length]?.[1];
      if (next === undefined) {
        const truth = truths.get(keyOf(state))!;
        on &= truth;
        off &= ~truth;
        return;
      }
      const name = levers[i]?.name ?? undriven[i - levers.length]![0];
      for (const at of next) tryAll({ ...state, [name]: at }, i + 1);
    };
    tryAll({}, 0);
    let bits = 0;
    for (const m of names.keys()) bits |= (((on >> m) & 1) << (2 * m)) | (((off >> m) & 1) << (2 * m + 1));
    seenAt[indexOf(places)] = bits;
  };
  visit([]);
  return { levers, indexOf, seenAt, all: seenAt.reduce((bits, each) => bits | each, 0) };
}

/** A pulse for each stretch of a dial that some state of the other controls tells from its neighbours. */
function dialPlaces(name: string, all: ReturnType<typeof choices>, truths: ReadonlyMap<string, number>): number[] {
  const index = all.findIndex(([each]) => each === name);
  const column = new Map<number, string>();
  for (const [key, truth] of truths) {
    const us = Number(key.split(",")[index]);
    column.set(us, `${column.get(us) ?? ""} ${truth}`);
  }
  const pulses = [...column.keys()].sort((a, b) => a - b);
  return pulses.filter((us, i) => i === 0 || column.get(us) !== column.get(pulses[i - 1]!));
}

/** Where a tour stands: places, places that were taken by lever as bits, what was seen. */
interface Standing {
  readonly places: readonly number[];
  readonly taken: readonly number[];
  readonly seen: number;
}

function begin({ levers, indexOf, seenAt }: Board): Standing {
  const places = levers.map(({ start }) => start);
  return { places, taken: places.map((place) => 1 << place), seen: seenAt[indexOf(places)]! };
}

function moved({ indexOf, seenAt }: Board, { places, taken, seen }: Standing, lever: number, place: number): Standing {
  const next = places.map((each, i) => (i === lever ? place : each));
  return {
    places: next,
    taken: taken.map((each, i) => (i === lever ? each | (1 << place) : each)),
    seen: seen | seenAt[indexOf(next)]!,
  };
}

function isOver({ levers, all }: Board, { places, taken, seen }: Standing): boolean {
  return (
    seen === all &&
    levers.every((lever, i) => {
      const isBack = !lever.springs || places[i] === lever.start;
      return isBack && taken[i] === (1 << lever.places.length) - 1;
    })
  );
}

function* nextOf(board: Board, from: Standing): Generator<Standing> {
  for (const [i, { places }] of board.levers.entries())
    for (const p of places.keys()) if (p !== from.places[i]) yield moved(board, from, i, p);
}

/** The number of movements of a shortest tour, breadth first; null where more than `most` standings would be looked at. */
export function shortestLength(board: Board, most = 400_000): number | null {
  const key = ({ places, taken, seen }: Standing) => `${places} ${taken} ${seen}`;
  let front = [begin(board)];
  const met = new Set(front.map(key));
  for (let length = 0; ; length++) {
    if (front.some((each) => isOver(board, each))) return length;
    const next: Standing[] = [];
    for (const each of front) {
      for (const standing of nextOf(board, each)) {
        const text = key(standing);
        if (met.has(text)) continue;
        met.add(text);
        next.push(standing);
      }
    }
    if (met.size > most) return null;
    front = next;
  }
}

/** The number of movements of a tour that always takes the shortest way to something new, and lets go of buttons at the end. */
export function greedyLength(board: Board): number {
  let at = begin(board);
  let length = 0;
  const isNew = (from: Standing, to: Standing) =>
    (to.seen & ~from.seen) !== 0 || to.taken.some((each, i) => each !== from.taken[i]);
  const seesAll = ({ taken, seen }: Standing) =>
    seen === board.all && board.levers.every(({ places }, i) => taken[i] === (1 << places.length) - 1);
  while (!seesAll(at)) {
    let front = [at];
    const met = new Set([at.places.join()]);
    let found: Standing | undefined;
    while (!found) {
      length++;
      const next: Standing[] = [];
      for (const each of front) {
        for (const standing of nextOf(board, each)) {
          if (isNew(at, standing)) found ??= standing;
          if (met.has(standing.places.join())) continue;
          met.add(standing.places.join());
          next.push(standing);
        }
      }
      front = next;
    }
    at = found;
  }
  return length + board.levers.filter(({ springs, start }, i) => springs && at.places[i] !== start).length;
}

/**
 * Craft of two to four small controls whose modes each ask for some of them at once, as text of `readInput`: few of
 * their tours are as short as one movement for each place.
 */
export const knotted: fc.Arbitrary<string> = fc
  .record({
    kinds: fc.array(fc.constantFrom("two", "two", "three", "three", "button"), { minLength: 2, maxLength: 4 }),
    picks: fc.array(
      fc.array(fc.array(fc.nat({ max: 7 }), { minLength: 4, maxLength: 4 }), { minLength: 1, maxLength: 2 }),
      {
        minLength: 2,
        maxLength: 7,
      },
    ),
  })
  .map(({ kinds, picks }) => {
    const controls = kinds.map((kind, i) => KINDS[kind]!(`C${i}`, 5 + i));
    const test = (pick: number, i: number): string[] => {
      const positions = POSITIONS[kinds[i]!]!;
      // A quarter of the controls is not asked about.
      return pick < 6 ? [`C${i} is ${positions[pick % positions.length]}`] : [];
    };
    const clause = (each: readonly number[]): string => {
      const tests = each.slice(0, kinds.length).flatMap(test);
      return tests.length > 0 ? tests.join(" and ") : `C0 is not ${POSITIONS[kinds[0]!]![0]}`;
    };
    const modes = picks.map((clauses, m) => `m${m} when ${clauses.map((each) => `(${clause(each)})`).join(" or ")}`);
    return [...controls, ...modes].join("\n");
  });

/** The positions of a kind of control. */
export const POSITIONS: Readonly<Record<string, readonly string[]>> = {
  two: ["up", "down"],
  three: ["up", "mid", "down"],
  button: ["rest", "held"],
}; /** The line of a control of a kind. */
export const KINDS: Readonly<Record<string, (name: string, channel: number) => string>> = {
  two: (name, channel) => `${name} switch ch${channel} up 1000 us down 2000 us`,
  three: (name, channel) => `${name} switch ch${channel} up 1000 us mid 1500 us down 2000 us`,
  button: (name, channel) => `${name} button ch${channel} rest 1000 us held 2000 us`,
};
