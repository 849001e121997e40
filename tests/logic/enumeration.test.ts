import fc from "fast-check";
import { expect, test } from "vitest";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { Positions, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { arrivesAs, choices, countEveryState, everyState, modeHolds, type State } from "./enumerate.ts";
import { craft } from "./generate.ts";

// Oracle: enumeration, which follows the definitions of a state and of each test literally.

const MOST_STATES = 1500;
const small = craft(4, 5).filter((input) => countEveryState(input) <= MOST_STATES);
const runs = { numRuns: 1000, seed: 20 };
/** Enumeration is slow, more so on a busy machine. */
const PATIENCE_MS = 120_000;

interface Seen {
  readonly state: State;
  readonly on: readonly string[];
}

function enumerate(input: SwitchInput): Seen[] {
  const names = input.conditions.map(({ name }) => name);
  const seen: Seen[] = [];
  for (const state of everyState(input)) {
    seen.push({ state: { ...state }, on: names.filter((name) => modeHolds(input, name, state)) });
  }
  return seen;
}

test(
  "every mode is on in exactly the states in which its condition holds",
  () => {
    let [examples, states] = [0, 0];
    fc.assert(
      fc.property(small, (input) => {
        examples++;
        const board = makeSwitchboard(input);
        for (const { state, on } of enumerate(input)) {
          states++;
          const report = board.stateAt(state);
          // Deep comparison is slow, so it is only made for states that differ.
          if (report.on.join() !== on.join() || report.possible.length > 0) {
            expect(report).toEqual({ on, possible: [], unknown: [] });
          }
        }
      }),
      runs,
    );
    expect(states).toBeGreaterThan(10 * examples);
  },
  PATIENCE_MS,
);

test(
  "the distinct sets of modes are counted, listed and shown as enumeration finds them",
  () => {
    fc.assert(
      fc.property(small, (input) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        const distinct = new Set(all.map(({ on }) => on.join()));
        expect(board.countStates()).toBe(distinct.size);
        for (const name of board.names) {
          const having = new Set(all.filter(({ on }) => on.includes(name)).map(({ on }) => on.join()));
          expect(board.countStatesWith(name)).toBe(having.size);
        }
        const { states, complete } = board.listStates(10_000);
        expect(complete).toBe(true);
        expect(new Set(states.map(({ on }) => on.join()))).toEqual(distinct);
        expect(states).toHaveLength(distinct.size);
        for (const { on, witness } of states) expect(board.stateAt(witness.positions).on).toEqual(on);
      }),
      runs,
    );
  },
  PATIENCE_MS,
);

test(
  "a witness is in its set, has the fewest controls away from rest, and its needed part suffices",
  () => {
    fc.assert(
      fc.property(small, (input) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        const away = (state: Positions): number =>
          input.controls.filter(
            (each) => each.rest !== null && !arrivesAs(each, each.rest, input).includes(String(state[each.name])),
          ).length;
        for (const name of board.names) {
          const inside = all.filter(({ on }) => on.includes(name));
          const witness = board.witness(board.selected(name)!);
          expect(witness === null).toBe(inside.length === 0);
          if (!witness) continue;
          expect(modeHolds(input, name, witness.positions)).toBe(true);
          expect(Object.keys(witness.positions)).toEqual(choices(input).map(([variable]) => variable));
          expect(away(witness.positions)).toBe(Math.min(...inside.map(({ state }) => away(state))));
          const needed = Object.entries(witness.needed);
          const suits = all.filter(({ state }) => needed.every(([variable, at]) => state[variable] === at));
          expect(suits.every(({ on }) => on.includes(name))).toBe(true);
        }
      }),
      runs,
    );
  },
  PATIENCE_MS,
);

test(
  "the fewest moves lead into the set, and no fewer do",
  () => {
    fc.assert(
      fc.property(small, fc.nat(), (input, pick) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        const from = all[pick % all.length]!.state;
        for (const name of board.names) {
          const inside = all.filter(({ on }) => on.includes(name));
          const moves = board.movesTo(board.selected(name)!, from);
          expect(moves === null).toBe(inside.length === 0);
          if (!moves) continue;
          const moved = { ...from, ...Object.fromEntries(moves.map(({ name: control, to }) => [control, to])) };
          expect(modeHolds(input, name, moved)).toBe(true);
          const distance = (state: State): number =>
            Object.keys(from).filter((each) => state[each] !== from[each]).length;
          expect(moves).toHaveLength(Math.min(...inside.map(({ state }) => distance(state))));
        }
      }),
      runs,
    );
  },
  PATIENCE_MS,
);

test(
  "the map lists a mode at a position if it depends on that control and can be on there",
  () => {
    fc.assert(
      fc.property(small, (input) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        const possible = new Map<string, Set<string>>();
        for (const { state, on } of all) {
          for (const [variable, at] of Object.entries(state)) {
            const key = `${variable}=${at}`;
            for (const name of on) possible.set(key, (possible.get(key) ?? new Set()).add(name));
          }
        }
        const depends = (variable: string, name: string): boolean => {
          const rest = new Map<string, boolean>();
          return all.some(({ state, on }) => {
            const others = JSON.stringify({ ...state, [variable]: null });
            const now = on.includes(name);
            const before = rest.get(others);
            rest.set(others, now);
            return before !== undefined && before !== now;
          });
        };
        const expected = (variable: string, at: string | number): string[] =>
          board.names.filter((name) => possible.get(`${variable}=${at}`)?.has(name) && depends(variable, name));
        const map = board.map();
        const spans = [
          ...map.controls.map((each) => ({ name: each.control.name, spans: each.spans })),
          ...map.channels.map((each) => ({ name: `ch${each.channel}`, spans: each.spans })),
        ];
        for (const { control, positions } of map.controls) {
          for (const { name, modes } of positions) {
            const there = arrivesAs(control, name, input).flatMap((at) => expected(control.name, at));
            expect(modes).toEqual(board.names.filter((mode) => there.includes(mode)));
          }
        }
        for (const [variable, places] of choices(input)) {
          for (const at of places) {
            if (typeof at === "string") continue;
            const span = spans
              .find(({ name }) => name === variable)!
              .spans.filter(({ fromUs, toUs }) => Math.min(fromUs, toUs) <= at && at <= Math.max(fromUs, toUs));
            expect(span).toHaveLength(1);
            expect(span[0]!.modes).toEqual(expected(variable, at));
          }
        }
      }),
      { numRuns: 200, seed: 20 },
    );
  },
  PATIENCE_MS,
);

test(
  "the ways to be in a set cover it, none can be left out, and no demand can be weakened",
  () => {
    fc.assert(
      fc.property(small, (input) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        for (const name of board.names) {
          const { ways, all: every, complete } = board.waysTo(board.selected(name)!, 1000);
          expect(complete).toBe(true);
          const suits = (way: (typeof ways)[number], state: State): boolean =>
            way.demands.every(({ variable, positions, pulses }) => {
              const at = state[variable.name]!;
              if (typeof at === "string") return positions.includes(at);
              return pulses.some(({ fromUs, toUs }) => fromUs <= at && at <= toUs);
            });
          for (const { state, on } of all) {
            expect(ways.some((way) => suits(way, state))).toBe(on.includes(name));
            expect(every.some((way) => suits(way, state))).toBe(on.includes(name));
          }
          for (const way of ways) {
            const others = ways.filter((each) => each !== way);
            expect(all.some(({ state }) => suits(way, state) && !others.some((each) => suits(each, state)))).toBe(true);
          }
          for (const way of every) {
            for (const demand of way.demands) {
              const eased = { demands: way.demands.filter((each) => each !== demand) };
              for (const [variable, places] of choices(input)) {
                if (variable !== demand.variable.name) continue;
                for (const at of places.filter(
                  (each) => !all.some(({ state }) => state[variable] === each && suits(way, state)),
                )) {
                  const more = all.filter(({ state }) => state[variable] === at && suits(eased, state));
                  expect(more.every(({ on }) => on.includes(name))).toBe(false);
                }
              }
            }
          }
        }
      }),
      { numRuns: 200, seed: 20 },
    );
  },
  PATIENCE_MS,
);

test(
  "the ways beyond a known set, with that set, cover the set, lead out of it nowhere, and have no value that only leads into what is known",
  () => {
    fc.assert(
      fc.property(small, (input) => {
        const board = makeSwitchboard(input);
        const all = enumerate(input);
        for (const name of board.names) {
          for (const known of board.names) {
            const { ways, complete } = board.waysBeyond(board.selected(name)!, board.selected(known)!, 1000);
            expect(complete).toBe(true);
            const suits = (way: (typeof ways)[number], state: State): boolean =>
              way.demands.every(({ variable, positions, pulses }) => {
                const at = state[variable.name]!;
                if (typeof at === "string") return positions.includes(at);
                return pulses.some(({ fromUs, toUs }) => fromUs <= at && at <= toUs);
              });
            for (const { state, on } of all) {
              const leads = ways.some((way) => suits(way, state));
              if (leads) expect(on).toContain(name);
              if (on.includes(name) && !on.includes(known)) expect(leads).toBe(true);
            }
            for (const way of ways) {
              for (const { variable, positions } of way.demands) {
                for (const position of positions) {
                  const slice = all.filter(({ state }) => state[variable.name] === position && suits(way, state));
                  expect(slice.some(({ on }) => !on.includes(known))).toBe(true);
                }
              }
            }
          }
        }
      }),
      { numRuns: 100, seed: 21 },
    );
  },
  PATIENCE_MS,
);
