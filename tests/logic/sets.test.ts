/** Operations on sets of states, held to going through every state. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { StateSet } from "../../shared/logic/switchboard-types.ts";
import { countEveryState, everyState, modeHolds, type State } from "./enumerate.ts";
import { craft } from "./generate.ts";
import { readBoard } from "./read-board.ts";

/** Two modes of a craft and some of its variables, by a number whose bits choose. */
const asked = fc.tuple(
  craft(3, 4).filter((input) => countEveryState(input) <= 600),
  fc.nat(),
  fc.nat(),
);

test("given, some, all, dependsOn, within and meet are what every state, one after another, says", () => {
  fc.assert(
    fc.property(asked, ([input, chosen, place]) => {
      const { sets, names, variables, selected } = makeSwitchboard(input);
      const states = Array.from(everyState(input), (state) => ({ ...state }));
      const all = variables.map(({ name }) => name);
      const picked = all.filter((_, i) => (chosen >> i) & 1);
      const [a, b] = [selected(names[0]!)!, selected(names.at(-1)!)!];
      const inside = (set: StateSet) => states.map((state) => sets.meet(set, sets.where(state)));
      const [inA, inB] = [names[0]!, names.at(-1)!].map((name) => states.map((state) => modeHolds(input, name, state)));
      expect(inside(a)).toEqual(inA);

      const group = (state: State, open: readonly string[]) =>
        JSON.stringify(all.filter((name) => !open.includes(name)).map((name) => state[name]));
      const groups = new Map<string, boolean[]>();
      states.forEach((state, i) => {
        const key = group(state, picked);
        groups.set(key, [...(groups.get(key) ?? []), inA![i]!]);
      });
      const members = states.map((state) => groups.get(group(state, picked))!);
      expect(inside(sets.some(a, picked)!)).toEqual(members.map((each) => each.includes(true)));
      expect(inside(sets.all(a, picked)!)).toEqual(members.map((each) => !each.includes(false)));

      const at = states[place % states.length]!;
      const fixed = Object.fromEntries(picked.map((name) => [name, at[name]!]));
      const index = new Map(states.map((state, i) => [group(state, []), i]));
      const moved = states.map((state) => inA![index.get(group({ ...state, ...fixed }, []))!]!);
      expect(inside(sets.given(a, fixed))).toEqual(moved);

      const tells = (name: string) => {
        const seen = new Map<string, boolean>();
        return states.some((state, i) => {
          const key = group(state, [name]);
          const before = seen.get(key) ?? inA![i]!;
          seen.set(key, before);
          return before !== inA![i];
        });
      };
      expect(sets.dependsOn(a)).toEqual(all.filter(tells));
      expect(sets.within(a, b)).toBe(inA!.every((holds, i) => !holds || inB![i]));
      expect(sets.meet(a, b)).toBe(inA!.some((holds, i) => holds && inB![i]));
    }),
    { numRuns: 200, seed: 31 },
  );
}, 120_000);

test("a place that there is not holds no state, a name that there is not leaves all open", () => {
  const { sets, stateAt } = readBoard(`
    TL switch ch5 up 1000 us down 2000 us
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    KN dial ch9 1000 us to 2000 us
    arm when TL is down and KN above 1500 us
    level when TR is mid`);
  expect(sets.where({ TL: "sideways" })).toBe(sets.none);
  expect(sets.where({ TL: 1001 })).toBe(sets.none);
  expect(sets.where({ TL: 1000.4 })).toBe(sets.none);
  expect(sets.where({ KN: 2001 })).toBe(sets.none);
  expect(sets.where({ XX: "up", ch12: 1500 })).toBe(sets.every);
  // A name that ends as a channel's does is none.
  expect(sets.where({ TX5: "up", xch6: "mid", ch5x: "up" })).toBe(sets.every);
  expect(sets.given(sets.every, { TL: "sideways" })).toBe(sets.none);
  expect(sets.given(sets.every, { XX: "up" })).toBe(sets.every);
  expect(sets.some(sets.where({ TL: "up" }), ["XX"])).toBe(sets.where({ TL: "up" }));
  expect(sets.where({ ch5: 2000 })).toBe(sets.where({ TL: "down" }));
  expect(sets.where({ KN: 1500.4 })).toBe(sets.where({ KN: 1500 }));
  expect(stateAt({ KN: 1500.4, TL: "down" }).on).toEqual([]);
  expect(stateAt({ KN: 1500.6, TL: "down" }).on).toEqual(["arm"]);
});

test("on a channel of two levels a place between arrives as the nearer end, half-way as either", () => {
  const board = readBoard(
    `TR selector ch6 a 1000 us b 1400 us c 1500 us d 1600 us e 2000 us
     KN dial ch9 2000 us to 1000 us
     level when TR is a
     lights when KN above 1500 us
     finder when ch12 below 1500 us`,
    { twoLevelChannels: [6, 9, 12] },
  );
  const { sets } = board;
  const at = (positions: Record<string, string | number>) => board.stateAt(positions);
  expect(["a", "b", "c", "d", "e"].map((TR) => at({ TR }).on.includes("level"))).toEqual([
    true,
    true,
    false,
    false,
    false,
  ]);
  expect(at({ TR: "c" }).possible).toContain("level");
  expect(at({ TR: "d" }).possible).not.toContain("level");
  expect(sets.where({ TR: 1400 })).toBe(sets.where({ TR: "a" }));
  expect(sets.where({ TR: 1450 })).toBe(sets.none);
  expect([1000, 1499, 1500, 1501, 2000].map((KN) => at({ KN }).on.includes("lights"))).toEqual([
    ...[false, false, false, true, true],
  ]);
  expect(at({ KN: 1500 }).possible).toContain("lights");
  expect([1000, 1499, 1501, 2000].map((ch12) => at({ ch12 }).on.includes("finder"))).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect([sets.where({ ch12: "up" }), sets.where({ KN: "up" })]).toEqual([sets.none, sets.none]);
  expect(sets.where({ KN: 999 })).toBe(sets.none);
  expect(sets.where({ KN: 2001 })).toBe(sets.none);
  expect([sets.where({ KN: 1000 }), sets.where({ KN: 2000 })]).not.toContain(sets.none);
});
