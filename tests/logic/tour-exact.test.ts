import fc from "fast-check";
import { expect, test } from "vitest";
import { BUDGET } from "../../shared/logic/budget.ts";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import type { Tour } from "../../shared/logic/tour-types.ts";
import { craft } from "./generate.ts";
import { readInput } from "./read-board.ts";
import { type Board, boardOf, greedyLength, KINDS, knotted, POSITIONS, shortestLength } from "./shortest-tour.ts";
import { picker, TANGLED, tangledInput } from "./tangled.ts";

/**
 * Goes a tour step by step on the board of the oracle: each movement goes from where its control stands to another
 * place, what it says is on is what is on, and nothing is left to be seen at its end.
 */
function follow(board: Board, input: SwitchInput, tour: Tour): void {
  const names = input.conditions.map(({ name }) => name);
  const places = board.levers.map(({ start }) => start);
  const taken = places.map((place) => new Set([place]));
  let seen = 0;
  const look = ({ on, possible }: Pick<Tour["start"], "on" | "possible">): void => {
    const bits = board.seenAt[board.indexOf(places)]!;
    seen |= bits;
    expect(on).toEqual(names.filter((_, m) => (bits >> (2 * m)) & 1));
    expect(possible).toEqual(names.filter((_, m) => ((bits >> (2 * m)) & 3) === 0));
  };
  look(tour.start);
  let before = tour.start.on;
  for (const move of tour.moves) {
    const i = board.levers.findIndex(({ name }) => name === move.name);
    const lever = board.levers[i]!;
    expect(lever.indexOf(move.from)).toBe(places[i]);
    const to = lever.indexOf(move.to);
    expect(to).not.toBe(places[i]);
    places[i] = to;
    taken[i]!.add(to);
    look(move);
    expect(move.comesOn).toEqual(move.on.filter((name) => !before.includes(name)));
    expect(move.goesOff).toEqual(before.filter((name) => !move.on.includes(name)));
    before = move.on;
  }
  expect(seen).toBe(board.all);
  for (const [i, lever] of board.levers.entries()) {
    expect(taken[i]!.size).toBe(lever.places.length);
    if (lever.springs) expect(places[i]).toBe(lever.start);
  }
}

interface Seen {
  tours: number;
  longerThanBound: number;
  shorterThanGreedy: number;
}

/** Holds the tour of a craft to the oracles; a craft with too many states for them is left out. */
function hold(input: SwitchInput, seen: Seen): void {
  const board = boardOf(input);
  const bound = board.levers.reduce((sum, { places, springs }) => sum + places.length - 1 + (springs ? 1 : 0), 0);
  if (bound > 8) return;
  const best = shortestLength(board, 60_000);
  if (best === null) return;
  const tour = makeSwitchboard(input).tour()!;
  follow(board, input, tour);
  expect(tour.isShortest).toBe(true);
  expect(tour.moves.length).toBe(best);
  const greedy = greedyLength(board);
  expect(greedy).toBeGreaterThanOrEqual(best);
  seen.tours++;
  if (best > bound) seen.longerThanBound++;
  if (best < greedy) seen.shorterThanGreedy++;
}

test("property: a tour shows everything, and none is shorter, of craft of all kinds", () => {
  const seen: Seen = { tours: 0, longerThanBound: 0, shorterThanGreedy: 0 };
  fc.assert(
    fc.property(craft(4, 5), (input) => hold(input, seen)),
    { seed: 13, numRuns: 150 },
  );
  expect(seen.tours).toBeGreaterThan(120);
});

test("property: the same where modes ask for many controls at once", () => {
  const seen: Seen = { tours: 0, longerThanBound: 0, shorterThanGreedy: 0 };
  fc.assert(
    fc.property(knotted, (text) => hold(readInput(text), seen)),
    { seed: 13, numRuns: 250 },
  );
  // A simple order would not do for all of them.
  expect(seen.tours).toBeGreaterThan(200);
  expect(seen.longerThanBound).toBeGreaterThan(20);
  expect(seen.shorterThanGreedy).toBeGreaterThan(50);
});

test("property: with few steps of work a tour still shows everything, or there is none", () => {
  const seen = { tours: 0, none: 0, longer: 0 };
  fc.assert(
    fc.property(knotted, fc.integer({ min: 0, max: 1500 }), (text, steps) => {
      const input = readInput(text);
      const tour = makeSwitchboard(input, { ...BUDGET, tour: steps }).tour();
      if (tour === null) {
        seen.none++;
        return;
      }
      seen.tours++;
      follow(boardOf(input), input, tour);
      const best = makeSwitchboard(input).tour()!;
      expect(tour.moves.length).toBeGreaterThanOrEqual(best.moves.length);
      if (tour.isShortest) expect(tour.moves.length).toBe(best.moves.length);
      else if (tour.moves.length > best.moves.length) seen.longer++;
    }),
    { seed: 13, numRuns: 300 },
  );
  expect(seen.tours).toBeGreaterThan(150);
  expect(seen.none).toBeGreaterThan(0);
  expect(seen.longer).toBeGreaterThan(3);
});

test("of craft that are too large to try all tours none is longer than a greedy one", () => {
  const pick = picker(77);
  const total = { tour: 0, greedy: 0, proven: 0 };
  for (let i = 0; i < 50; i++) {
    const input = readInput(manyModes(pick));
    const tour = makeSwitchboard(input).tour()!;
    const board = boardOf(input);
    follow(board, input, tour);
    const greedy = greedyLength(board);
    expect(tour.moves.length).toBeLessThanOrEqual(greedy);
    total.tour += tour.moves.length;
    total.greedy += greedy;
    if (tour.isShortest) total.proven++;
  }
  expect(total.tour).toBeLessThan(0.85 * total.greedy);
  expect(total.proven).toBeGreaterThan(45);
});

/** Four to six controls, and up to 14 modes that each ask for two to four of them at once. */
function manyModes(pick: (below: number) => number): string {
  const range = (count: number) => Array.from({ length: count }, (_, i) => i);
  const kinds = range(4 + pick(3)).map(() => ["two", "three", "three", "button"][pick(4)]!);
  const size = 2 + pick(3);
  const test = (c: number) => `C${c} is ${POSITIONS[kinds[c]!]![pick(POSITIONS[kinds[c]!]!.length)]}`;
  const clause = () => [...new Set(range(size).map(() => pick(kinds.length)))].map(test).join(" and ");
  const modes = range(4 + pick(11)).map(
    (m) =>
      `m${m} when ${range(1 + pick(2))
        .map(() => `(${clause()})`)
        .join(" or ")}`,
  );
  return [...kinds.map((kind, i) => KINDS[kind]!(`C${i}`, 5 + i)), ...modes].join("\n");
}

test.each(TANGLED.filter(({ conditions }) => conditions.length < 1000).map((each) => [each.title, each] as const))(
  "there is a tour of %s",
  (_, made) => {
    const tour = makeSwitchboard(tangledInput(made)).tour()!;
    const places = Object.entries(tour.start.positions).map(([name, at]) => `${name} ${at}`);
    const taken = new Set([...places, ...tour.moves.map(({ name, to }) => `${name} ${to}`)]);
    const positions = tangledInput(made).controls.flatMap(({ name, positions: own }) =>
      own.map((each) => `${name} ${each.name}`),
    );
    expect(positions.filter((each) => !taken.has(each))).toEqual([]);
  },
);
