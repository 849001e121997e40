import { expect, test } from "vitest";
import type { Positions } from "../../shared/logic/switchboard-types.ts";
import { readBoard } from "./read-board.ts";

test("minimisation example: minterms 0 1 3 7 8 9 11 15 of A B C D are B'C' + CD", () => {
  // Source: a web-maths data set on minimisation, read there and confirmed by enumeration below.
  const minterms = [0, 1, 3, 7, 8, 9, 11, 15];
  const names = ["A", "B", "C", "D"];
  const word = (minterm: number): string =>
    names.map((name, i) => `${name} is ${(minterm >> (3 - i)) & 1 ? "one" : "zero"}`).join(" and ");
  const board = readBoard(
    [
      ...names.map((name, i) => `${name} switch ch${5 + i} zero 1000 us one 2000 us`),
      ...minterms.map((minterm) => `f when ${word(minterm)}`),
      "short when B is zero and C is zero or C is one and D is one",
    ].join("\n"),
  );
  const f = board.selected("f")!;
  expect(f).toBe(board.selected("short"));
  const inWords = (ways: ReturnType<typeof board.waysTo>["ways"]): string[] =>
    ways.map(({ demands }) => demands.map((each) => `${each.variable.name} ${each.positions}`).join(", "));
  const { ways, all, complete } = board.waysTo(f);
  expect(complete).toBe(true);
  expect(inWords(ways)).toEqual(expect.arrayContaining(["B zero, C zero", "C one, D one"]));
  expect(ways).toHaveLength(2);
  // The third prime implicant, B'D, is covered by the two; computed by hand with the consensus method.
  expect(inWords(all).sort()).toEqual(["B zero, C zero", "B zero, D one", "C one, D one"]);
  for (let minterm = 0; minterm < 16; minterm++) {
    const at = Object.fromEntries(names.map((name, i) => [name, (minterm >> (3 - i)) & 1 ? "one" : "zero"]));
    expect(board.stateAt(at).on.includes("f")).toBe(minterms.includes(minterm));
  }
});

test("bounds that touch: at 1500 us, which both ranges include, both modes are on", () => {
  const board = readBoard(`
    KN dial ch9 1000 us to 2000 us
    video-low  when KN in 1000 to 1500 us
    video-high when KN in 1500 to 2000 us`);
  expect(board.clashes([["video-low", "video-high"]])).toEqual([
    { modes: ["video-low", "video-high"], witness: { positions: { KN: 1500 }, needed: { KN: 1500 } } },
  ]);
  expect(board.map().controls[0]!.spans).toEqual([
    { fromUs: 1000, toUs: 1499, modes: ["video-low"] },
    { fromUs: 1500, toUs: 1500, modes: ["video-low", "video-high"] },
    { fromUs: 1501, toUs: 2000, modes: ["video-high"] },
  ]);
});

test("above and below leave their bound out: nothing is on at 1500 us, and nothing clashes", () => {
  const board = readBoard(`
    KN dial ch9 1000 us to 2000 us
    video-low  when KN below 1500 us
    video-high when KN above 1500 us`);
  expect(board.clashes([["video-low", "video-high"]])).toEqual([]);
  expect(board.stateAt({ KN: 1500 }).on).toEqual([]);
  expect(board.countStates()).toBe(3);
});

test("a gap of 1 us is found", () => {
  const board = readBoard(`
    KN dial ch9 1000 us to 2000 us
    level       when KN in 1000 to 1499 us
    level-blend when KN in 1501 to 2000 us`);
  const { sets } = board;
  const neither = sets.not(sets.or(board.selected("level"), board.selected("level-blend"))!);
  expect(board.witness(neither)?.positions).toEqual({ KN: 1500 });
});

test("bounds that are not whole: there is no whole us between 1500.2 and 1500.8 us", () => {
  const board = readBoard(`
    KN dial ch9 1000 us to 2000 us
    lights     when KN in 1500.2 to 1500.8 us
    lights-off when KN in 1499.5 to 1500.5 us
    recorder   when KN above 1999.5 us
    finder     when KN below 1000.5 us`);
  expect(board.selected("lights")).toBe(board.sets.none);
  expect(board.witness(board.selected("lights-off")!)?.positions).toEqual({ KN: 1500 });
  expect(board.map().controls[0]!.spans).toEqual([
    { fromUs: 1000, toUs: 1000, modes: ["finder"] },
    { fromUs: 1001, toUs: 1499, modes: [] },
    { fromUs: 1500, toUs: 1500, modes: ["lights-off"] },
    { fromUs: 1501, toUs: 1999, modes: [] },
    { fromUs: 2000, toUs: 2000, modes: ["recorder"] },
  ]);
});

test("the map of a dial through three modes begins at its `from` end, also where that is the higher one", () => {
  const modes = `
    level       when KN below 1300 us
    level-blend when KN in 1300 to 1700 us
    turtle      when KN above 1700 us`;
  const rising = readBoard(`KN dial ch9 1000 us to 2000 us${modes}`);
  const falling = readBoard(`KN dial ch9 2000 us to 1000 us${modes}`);
  expect(rising.map().controls[0]!.spans).toEqual([
    { fromUs: 1000, toUs: 1299, modes: ["level"] },
    { fromUs: 1300, toUs: 1700, modes: ["level-blend"] },
    { fromUs: 1701, toUs: 2000, modes: ["turtle"] },
  ]);
  expect(falling.map().controls[0]!.spans).toEqual([
    { fromUs: 2000, toUs: 1701, modes: ["turtle"] },
    { fromUs: 1700, toUs: 1300, modes: ["level-blend"] },
    { fromUs: 1299, toUs: 1000, modes: ["level"] },
  ]);
  expect(rising.countStates()).toBe(3);
  expect(rising.stateAt(rising.rest)).toEqual({ on: [], possible: ["level", "level-blend", "turtle"], unknown: [] });
});

test("a button that must be held with a switch: two moves from rest, one from the switch", () => {
  const board = readBoard(`
    TL switch ch5 up 1000 us down 2000 us
    PB button ch7 rest 1000 us held 2000 us
    arm when TL is down and PB is held`);
  expect(board.movesTo(board.armed!, board.rest)).toEqual([
    { name: "TL", from: "up", to: "down" },
    { name: "PB", from: "rest", to: "held" },
  ]);
  expect(board.movesTo(board.armed!, { TL: "down", PB: "rest" })).toEqual([{ name: "PB", from: "rest", to: "held" }]);
  expect(board.sets.meet(board.armed!, board.atRest)).toBe(false);
  expect(board.sets.dependsOn(board.armed!)).toEqual(["TL", "PB"]);
});

test("`not` of a range on an undriven channel: armed at rest for some pulse of it", () => {
  const board = readBoard(`
    TL switch ch5 up 1000 us down 2000 us
    arm when not ch3 in 1000 to 1999 us`);
  expect(board.variables.map(({ name }) => name)).toEqual(["TL", "ch3"]);
  expect(board.sets.meet(board.armed!, board.atRest)).toBe(true);
  expect(board.witness(board.armed!)).toEqual({ positions: { TL: "up", ch3: 2000 }, needed: { ch3: 2000 } });
  expect(board.map().channels).toEqual([
    {
      channel: 3,
      spans: [
        { fromUs: 1000, toUs: 1999, modes: [] },
        { fromUs: 2000, toUs: 2000, modes: ["arm"] },
      ],
    },
  ]);
});

test("a chain of references four deep is followed, whatever the order of the modes", () => {
  const board = readBoard(`
    TL switch ch5 up 1000 us mid 1500 us down 2000 us
    TR switch ch6 up 1000 us down 2000 us
    recorder     when lights
    lights       when osd-hide and not TR is down
    osd-hide     when launch-hold
    launch-hold  when arm or TL is mid
    arm          when TL is down`);
  expect(board.selected("recorder")).toBe(
    board.sets.and(board.sets.where({ TR: "up" }), board.sets.not(board.sets.where({ TL: "up" }))),
  );
  expect(board.stateAt({ TL: "mid" })).toEqual({
    on: ["osd-hide", "launch-hold"],
    possible: ["recorder", "lights"],
    unknown: [],
  });
  expect(board.countStates()).toBe(5);
});

test("a test of a driven channel is one of its control: only the control's pulses arrive", () => {
  const board = readBoard(`
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    level when ch6 in 1200 to 1400 us
    turtle when ch6 above 1400 us`);
  expect(board.selected("level")).toBe(board.sets.none);
  expect(board.selected("turtle")).toBe(board.sets.not(board.sets.where({ TR: "up" })));
  expect(board.sets.where({ ch6: 1500 })).toBe(board.sets.where({ TR: "mid" }));
});

test("armed means arm, and arm-permit where that is set up", () => {
  const controls = `
    TL switch ch5 up 1000 us down 2000 us
    TR switch ch6 up 1000 us down 2000 us
    arm when TL is down
    finder when TR is up`;
  const precedence = [{ over: "arm", under: ["finder"] }];
  const plain = readBoard(controls, { precedence });
  expect(plain.armed).toBe(plain.sets.where({ TL: "down" }));
  expect(plain.acts("finder")).toBe(plain.sets.where({ TL: "up", TR: "up" }));
  const permitted = readBoard(`${controls}\n arm-permit when TR is down`, { precedence });
  expect(permitted.armed).toBe(permitted.sets.where({ TL: "down", TR: "down" }));
  // Never armed with TR up, so the finder acts wherever it is selected.
  expect(permitted.acts("finder")).toBe(permitted.selected("finder"));
});

test("a mode acts where it is selected and none with precedence over it is", () => {
  const board = readBoard(
    `TR switch ch6 up 1000 us mid 1500 us down 2000 us
     level       when TR is mid or TR is down
     level-blend when TR is mid
     recorder    when always`,
    { precedence: [{ over: "level", under: ["level-blend"] }] },
  );
  expect(board.selected("level-blend")).toBe(board.sets.where({ TR: "mid" }));
  expect(board.acts("level-blend")).toBe(board.sets.none);
  expect(board.acts("level")).toBe(board.selected("level"));
  expect(board.sets.within(board.selected("level-blend")!, board.selected("level")!)).toBe(true);
  expect(board.selected("recorder")).toBe(board.sets.every);
});

test("positions that do the same are reported, but none of a control on which nothing depends", () => {
  const board = readBoard(`
    TL switch ch5 up 1000 us mid 1500 us down 2000 us
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    arm when TL is down`);
  expect(board.idlePositions().map(({ control, positions }) => [control.name, ...positions])).toEqual([
    ["TL", "up", "mid"],
  ]);
});

test("margins: bounds of ranges count, `is` and the ends of the scale do not", () => {
  const board = readBoard(`
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    level  when TR in 1515 to 2000 us
    turtle when ch6 above 1000 us
    arm    when TR is mid`);
  expect(
    board
      .margins(20)
      .map((each) => [each.in, each.control.name, each.position, each.boundUs, each.marginUs, each.source.line]),
  ).toEqual([["level", "TR", "mid", 1515, 15, 2]]);
  expect(board.margins(14)).toEqual([]);
});

test("link lost: hold and silent keep all modes, presets decide their channels, unset is not known", () => {
  const text = `
    TL switch ch5 up 1000 us down 2000 us
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    arm      when TL is down
    level    when TR is mid
    recorder when always`;
  const lossOf = (loss: {
    onLoss: "silent" | "hold" | "preset" | null;
    pulsesUs: Map<number, number>;
  }): Record<string, unknown> => {
    const { outcomes, armed, on, possible } = readBoard(text, { loss }).loss();
    return { ...Object.fromEntries(outcomes), armed, on, possible };
  };
  const kept = {
    arm: "kept",
    level: "kept",
    recorder: "on",
    armed: "kept",
    on: ["recorder"],
    possible: ["arm", "level"],
  };
  expect(lossOf({ onLoss: "silent", pulsesUs: new Map() })).toEqual(kept);
  expect(lossOf({ onLoss: "hold", pulsesUs: new Map([[5, 1000]]) })).toEqual(kept);
  expect(lossOf({ onLoss: "preset", pulsesUs: new Map([[5, 1000]]) })).toEqual({
    ...{ arm: "off", level: "either", recorder: "on", armed: "off" },
    ...{ on: ["recorder"], possible: ["level"] },
  });
  // 1749 us is nearer to the middle position than to the one at 2000 us, 1751 us is not.
  expect(
    lossOf({
      onLoss: "preset",
      pulsesUs: new Map([
        [5, 1000],
        [6, 1749],
      ]),
    }).level,
  ).toBe("on");
  expect(
    lossOf({
      onLoss: "preset",
      pulsesUs: new Map([
        [5, 1000],
        [6, 1751],
      ]),
    }).level,
  ).toBe("off");
  expect(lossOf({ onLoss: null, pulsesUs: new Map() }).arm).toBe("either");
});

test("a count too large to enumerate is still exact: 28 selectors, each position a mode of its own", () => {
  const positions = ["a", "b", "c", "d", "e", "f"];
  const lines = Array.from({ length: 28 }, (_, i) => [
    `S${i} selector ch${5 + i} ${positions.map((name, p) => `${name} ${1000 + 200 * p} us`).join(" ")}`,
    ...positions.slice(1).map((name) => `m${i}-${name} when S${i} is ${name}`),
  ]);
  const board = readBoard(lines.flat().join("\n"));
  // 6^28, computed; a double holds it exactly, because 3^28 is below 2^53.
  expect(board.countStates()).toBe(6 ** 28);
  expect(board.listStates(100)).toMatchObject({ complete: false });
  expect(board.listStates(100).states).toHaveLength(100);
});

test("counting over the budget gives null; a smaller craft has the same count with any sufficient budget", () => {
  const positions = ["a", "b", "c", "d", "e", "f"];
  const controls = Array.from(
    { length: 28 },
    (_, i) => `S${i} selector ch${5 + i} ${positions.map((name, p) => `${name} ${1000 + 200 * p} us`).join(" ")}`,
  );
  // Each mode connects distant selectors, by steps that do not divide 28.
  const modes = Array.from({ length: 60 }, (_, m) => {
    const [a, b, c] = [(m * 5) % 28, (m * 11 + 3) % 28, (m * 17 + 8) % 28];
    return `m${m} when S${a} in 1000 to ${1200 + 200 * (m % 4)} us and not S${b} is ${positions[m % 6]} or S${c} is ${positions[(m + 2) % 6]}`;
  });
  const board = readBoard([...controls, ...modes].join("\n"));
  expect(board.countStates(2000)).toBe(null);
  expect(board.countStatesWith("m0", 2000)).toBe(null);
  // Everything else is still exact.
  expect(board.clashes([["m0", "m1"]])).toHaveLength(1);
  expect(board.listStates(5).complete).toBe(false);
  const small = readBoard([...controls, ...modes.slice(0, 12)].join("\n"));
  const patient = small.countStates(1e6);
  expect(patient).not.toBe(null);
  expect(small.countStates()).toBe(patient);
});

test("of several lines of a mode those are behind it that hold, or else those that may", () => {
  const board = readBoard(`
    TL switch ch5 up 1000 us down 2000 us
    TR switch ch6 up 1000 us mid 1500 us down 2000 us
    KN dial ch9 1000 us to 2000 us
    arm when TL is down
    level when TR is mid
    level when arm and TR is not up
    level when KN above 1500 us
    broken finder
    lights when finder`);
  const lines = (positions: Positions) =>
    board
      .linesBehind(positions)("level")
      .map(({ line }) => line);
  expect(lines({ TL: "up", TR: "mid", KN: 1000 })).toEqual([5]);
  expect(lines({ TL: "down", TR: "mid", KN: 1000 })).toEqual([5, 6]);
  expect(lines({ TL: "down", TR: "down", KN: 1600 })).toEqual([6, 7]);
  // Where no line certainly holds, those that may.
  expect(lines({ TL: "down", TR: "up" })).toEqual([7]);
  expect(lines({ TL: "down", TR: "up", KN: 1500 })).toEqual([]);
  expect(["lights", "finder"].map(board.linesBehind({}))).toEqual([[], []]);
});
