/** Witnesses and moves where several would do: which one is told, and what of it. */
import { expect, test } from "vitest";
import { readBoard } from "./read-board.ts";

const WHEEL = `
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch9 1000 us to 2000 us
  KM dial ch10 1000 us to 2000 us`;
const board = (modes: string) => readBoard(`${WHEEL}\n${modes}`);

test("no move where one is there already, though another control would do as well", () => {
  const made = board("  level when TL is down or KN above 1400 us\n  finder when TL is up or KN above 1400 us");
  expect(made.movesTo(made.selected("level")!, { TL: "down" })).toEqual([]);
  expect(made.movesTo(made.selected("finder")!, { TL: "up" })).toEqual([]);
});

test("what stands nowhere yet costs nothing, however much of it, and what rests stays", () => {
  const made = board("  level when TL is down or KN above 1500 us and KM above 1500 us");
  expect(made.witness(made.selected("level")!)!.needed).toEqual({ KN: 1751, KM: 1751 });
});

test("the middle of one dial is chosen with the other where it was put, so that both are in the set", () => {
  // KN is put at 1500 us because KM is low; so KM must stay low, though it need not with a lower KN.
  const made = board(`
    level when KN below 1300 us or KM below 1450 us
    arm when KN above 1550 us or KN above 1800 us or KM above 1700 us`);
  const { positions, needed } = made.witness(made.selected("level")!)!;
  expect(positions).toMatchObject({ KN: 1500, KM: 1225 });
  expect(needed).toEqual({ KM: 1225 });
  expect(made.stateAt(positions).on).toEqual(["level"]);
});

test("where either could be left out, it is what no control drives", () => {
  const made = board(`
    level when TL is down and ch12 above 1500 us and TR is not up
    level when TL is up and ch12 above 1500 us and TR is not mid
    level when TL is down and ch12 below 1501 us and TR is down`);
  const near = { TL: "down", TR: "down", KN: 1500, KM: 1500, ch12: 1700 };
  expect(made.witness(made.selected("level")!, near)).toEqual({ positions: near, needed: { TL: "down", TR: "down" } });
});
