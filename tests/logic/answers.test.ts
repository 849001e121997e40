/** What a board tells in words: ways, moves, margins, positions that do the same, names that stand for nothing. */
import { describe, expect, test } from "vitest";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { readBoard } from "./read-board.ts";

const WHEEL = `
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch9 1000 us to 2000 us`;
const board = (modes: string, more: Partial<SwitchInput> = {}) => readBoard(`${WHEEL}\n${modes}`, more);

describe("ways into a set", () => {
  const ways = (condition: string, limit?: number) => {
    const made = board(`  level when ${condition}`);
    const { ways: few, all, complete } = made.waysTo(made.selected("level")!, limit);
    const told = ({ demands }: (typeof few)[number]) =>
      demands
        .map(({ variable, positions, pulses }) => {
          const spans = pulses.map(({ fromUs, toUs }) => `${fromUs}-${toUs}`);
          return `${variable.name} ${[...positions, ...spans].join("/")}`;
        })
        .join(", ");
    return { ways: few.map(told), all: all.map(told), complete };
  };

  test("the fewest demands first, and of those that ask for as many the one that leaves more open", () => {
    expect(ways("TL is down and TR is mid or KN above 1500 us").ways).toEqual(["KN 1501-2000", "TL down, TR mid"]);
    expect(ways("TL is down and TR is mid or TL is up and TR is not mid").ways).toEqual([
      "TL up, TR up/down",
      "TL down, TR mid",
    ]);
  });

  test("stretches of a dial that touch are told as one, others apart", () => {
    expect(ways("KN in 1200 to 1400 us or KN in 1401 to 1500 us or KN above 1900 us").ways).toEqual([
      "KN 1200-1500/1901-2000",
    ]);
  });

  test("always has one way without demands, never has none", () => {
    expect(ways("always")).toEqual({ ways: [""], all: [""], complete: true });
    expect(ways("TL is up and TL is down")).toEqual({ ways: [], all: [], complete: true });
  });

  test("over the limit the list is not whole, and no longer than that", () => {
    const three = "TL is down or TR is mid or KN above 1500 us";
    expect(ways(three, 3)).toMatchObject({ complete: true, all: { length: 3 } });
    const some = ways(three, 2);
    expect(some.complete).toBe(false);
    expect(some.all.length).toBeLessThanOrEqual(2);
    expect(some.ways).toEqual(some.all);
  });
});

describe("witnesses and moves", () => {
  test("of a dial the widest stretch, and the middle of it; where it is already, it stays", () => {
    const made = board(
      "  level when KN below 1100 us or KN in 1500 to 1800 us\n  arm when TL is down and KN above 1200 us",
    );
    expect(made.witness(made.selected("level")!)!.positions.KN).toBe(1650);
    expect(made.witness(made.selected("level")!, { KN: 1050 })!.positions.KN).toBe(1050);
    expect(made.witness(made.selected("level")!, { KN: 1520.4 })!.positions.KN).toBe(1520);
    expect(made.movesTo(made.selected("arm")!, { TL: "up", TR: "up", KN: 1100 })).toEqual([
      { name: "TL", from: "up", to: "down" },
      { name: "KN", from: 1100, to: 1601 },
    ]);
    expect(made.movesTo(made.selected("arm")!, { TL: "up" })).toEqual([
      { name: "TL", from: "up", to: "down" },
      { name: "KN", from: null, to: 1601 },
    ]);
    expect(made.movesTo(made.selected("level")!, { KN: 1600 })).toEqual([]);
  });

  test("the middle of all that does, not of the one stretch chosen", () => {
    const middle = (level: string, cut: string) => {
      const made = board(`  level when KN ${level}\n  arm when KN ${cut}`);
      return made.witness(made.selected("level")!)!.positions.KN;
    };
    expect(middle("below 1500 us", "below 1400 us")).toBe(1250);
    expect(middle("above 1500 us", "above 1600 us")).toBe(1751);
    // Neither the stretch before nor the one after does.
    expect(middle("in 1200 to 1400 us", "in 1300 to 1500 us")).toBe(1300);
  });

  test("a dial that must stand on one microsecond needs what else it needs as well", () => {
    const made = board("  arm when KN above 1499 us and KN below 1501 us and TL is down and TR is up");
    expect(made.witness(made.armed!)!.needed).toEqual({ TL: "down", TR: "up", KN: 1500 });
  });

  test("what is needed leaves out what makes no difference as the others stand", () => {
    // Once B and E are down, it is on wherever A and D stand, though without that each of them counts.
    const made = readBoard(`
      A switch ch5 up 1000 us mid 1500 us down 2000 us
      B switch ch6 up 1000 us mid 1500 us down 2000 us rests down
      D switch ch7 up 1000 us mid 1500 us down 2000 us
      E switch ch8 up 1000 us mid 1500 us down 2000 us rests down
      level when (A is up and B is down or A is not up and B is not up) and (D is up and E is not up or D is not up and E is not mid)`);
    expect(made.witness(made.selected("level")!)).toEqual({
      positions: { A: "up", B: "down", D: "up", E: "down" },
      needed: { B: "down", E: "down" },
    });
  });

  test("a pulse that is given is told as it is", () => {
    const given = board("  arm when KN above 1500 us").withPulses(new Map([[9, 1700.4]]));
    expect(given.witness(given.armed!)!.positions.KN).toBe(1700.4);
  });

  test("what lies at rest stays at rest where it may", () => {
    const made = readBoard(`
      A switch ch5 up 1000 us down 2000 us rests down
      B switch ch6 up 1000 us mid 1500 us down 2000 us rests mid
      level when A is up
      arm when B is not up`);
    expect(made.rest).toEqual({ A: "down", B: "mid" });
    expect(made.witness(made.selected("arm")!)).toEqual({ positions: { A: "down", B: "mid" }, needed: { B: "mid" } });
    expect(made.witness(made.selected("level")!)).toEqual({ positions: { A: "up", B: "mid" }, needed: { A: "up" } });
    expect(made.witness(made.sets.none)).toBeNull();
    expect(made.movesTo(made.sets.none, {})).toBeNull();
  });
});

describe("margins", () => {
  const margins = (modes: string, withinUs: number, more: Partial<SwitchInput> = {}) =>
    board(modes, more)
      .margins(withinUs)
      .map(
        ({ in: mode, control, position, boundUs, marginUs }) =>
          `${mode}: ${control.name} ${position} ${marginUs} us from ${boundUs}`,
      );

  test("both bounds of a range, and those of above and below, up to the distance asked for", () => {
    expect(
      margins("  level when TR in 1490 to 1520 us\n  arm when ch6 above 1480 us\n  lights when TR below 1530 us", 20),
    ).toEqual(["level: TR mid 10 us from 1490", "level: TR mid 20 us from 1520", "arm: TR mid 20 us from 1480"]);
    expect(
      margins("  level when always\n  arm when not level\n  lights when KN above 1500 us\n  broken finder", 500),
    ).toEqual([]);
    expect(margins("  level when ch12 above 1500 us", 500)).toEqual([]);
  });

  test("a position that does not arrive is near to nothing", () => {
    const modes = "  level when TR above 1510 us\n  arm when TR above 1990 us";
    expect(margins(modes, 20)).toEqual(["level: TR mid 10 us from 1510", "arm: TR down 10 us from 1990"]);
    expect(margins(modes, 20, { twoLevelChannels: [6] })).toEqual(["arm: TR down 10 us from 1990"]);
  });
});

test("positions that do the same are neighbours by their pulses, told in the handset's order", () => {
  const made = readBoard(`
    A selector ch5 far 2000 us near 1000 us half 1500 us
    B switch ch6 up 1000 us down 2000 us
    KN dial ch9 1000 us to 2000 us
    arm when A is far and B is up
    level when KN above 1500 us`);
  const idle = made.idlePositions().map(({ control, positions }) => `${control.name} ${positions.join(" = ")}`);
  expect(idle).toEqual(["A near = half"]);
});

test("a control that counts only with another has positions that do the same, too", () => {
  const idle = (modes: string) =>
    board(modes)
      .idlePositions()
      .map(({ positions }) => positions.join(" = "));
  expect(idle("  arm when TL is down and TR is down")).toEqual(["up = mid"]);
  expect(idle("  arm when TR is down and TL is down")).toEqual(["up = mid"]);
  // The stretches of a dial, or of a channel that no control drives, are none.
  expect(idle("  arm when ch12 in 1100 to 1400 us or ch12 in 1200 to 1600 us")).toEqual([]);
  expect(idle("  arm when KN in 1100 to 1400 us or KN in 1200 to 1600 us")).toEqual([]);
  expect(idle("  arm when TL is down and TR is down\n  level when TL is up and TR is up")).toEqual([]);
});

test("a bound inside a stretch that does the same is none on the map", () => {
  const spans = (mode: string) => board(`  level when ${mode}`).map().controls[2]!.spans;
  expect(spans("KN in 1100 to 1400 us or KN in 1200 to 1600 us")).toEqual([
    { fromUs: 1000, toUs: 1099, modes: [] },
    { fromUs: 1100, toUs: 1600, modes: ["level"] },
    { fromUs: 1601, toUs: 2000, modes: [] },
  ]);
  expect(spans("KN above 1500 us or KN below 1501 us")).toEqual([{ fromUs: 1000, toUs: 2000, modes: [] }]);
});

describe("names", () => {
  test("a control in a test of its pulse that there is not is told, the likeliest that was meant first", () => {
    const made = board("  arm when KM above 1500 us");
    expect(made.problems.map(({ word, what, candidates }) => [word, what, ...candidates])).toEqual([
      ["KM", "control", "KN"],
    ]);
    expect(made.selected("arm")).toBeNull();
  });

  test("a channel that two controls drive, or that one with a fault might, is not known", () => {
    const two = board(
      "  PB button ch6 rest 1000 us held 2000 us\n  arm when ch6 above 1500 us\n  level when ch5 above 1500 us",
    );
    expect(two.selected("arm")).toBeNull();
    expect(two.selected("level")).toBe(two.sets.where({ TL: "down" }));
    const faulty = board("  arm when ch12 above 1500 us\n  level when ch5 above 1500 us", { faultyControls: ["PB"] });
    expect(faulty.selected("arm")).toBeNull();
    expect(faulty.selected("level")).toBe(faulty.sets.where({ TL: "down" }));
    expect(faulty.problems).toEqual([]);
  });

  test("undriven channels come by number, each once, after the controls", () => {
    const made = board(
      "  arm when ch12 above 1500 us or ch3 below 1200 us\n  level when ch3 above 1800 us or ch5 above 1500 us",
    );
    expect(made.variables.map(({ name }) => name)).toEqual(["TL", "TR", "KN", "ch3", "ch12"]);
  });
});

test("a pulse that is given stands for its position: the nearer one, half-way the lower", () => {
  const made = board("  level when TR is mid\n  arm when ch6 above 1600 us\n  finder when ch12 above 1500 us");
  const at = (us: number) => {
    const given = made.withPulses(new Map([[6, us]]));
    return ["level", "arm"].filter((name) => given.selected(name) === given.sets.every);
  };
  expect([1249, 1250, 1251, 1601, 1750, 1751].map(at)).toEqual([
    [],
    [],
    ["level"],
    ["level", "arm"],
    ["level", "arm"],
    ["arm"],
  ]);
  const undriven = made.withPulses(new Map([[12, 1600]]));
  expect(undriven.selected("finder")).toBe(undriven.sets.every);
  expect(made.withPulses(new Map([[12, 1400]])).selected("finder")).not.toBe(undriven.sets.every);
  const backwards = readBoard(
    "A selector ch5 far 2000 us half 1500 us near 1000 us\nlevel when A is near\narm when A is half",
  );
  const half = backwards.withPulses(new Map([[5, 1250]]));
  expect([half.selected("level"), half.selected("arm")]).toEqual([half.sets.every, half.sets.none]);
});

describe("what does not depend on the order of the words", () => {
  const told = (condition: string) => {
    const made = board(`  level when ${condition}`);
    const { ways } = made.waysTo(made.selected("level")!);
    return ways.map(({ demands }) => demands.map(({ variable }) => variable.name).join(" "));
  };

  test("ways are sorted by what they demand, whatever is asked first", () => {
    for (const condition of [
      "KN above 1500 us or TL is down and TR is mid",
      "TL is down and TR is mid or KN above 1500 us",
      "TR is mid and TL is down or KN above 1500 us",
    ])
      expect(told(condition)).toEqual(["KN", "TL TR"]);
    for (const condition of [
      "TL is down and KN above 1500 us and TR is mid or TL is up and TR is up or KN below 1200 us",
      "TR is up and TL is up or KN below 1200 us or TR is mid and KN above 1500 us and TL is down",
    ])
      expect(told(condition)).toEqual(["KN", "TL TR", "TL TR KN"]);
  });

  test("positions that do the same are told in the handset's order, and never of those that do not arrive", () => {
    const text = `
      A selector ch5 half 1500 us far 2000 us near 1000 us
      arm when A is far`;
    const idle = (more: Partial<SwitchInput> = {}, modes = "") =>
      readBoard(text + modes, more)
        .idlePositions()
        .map(({ control, positions }) => `${control.name} ${positions.join(" = ")}`);
    expect(idle()).toEqual(["A half = near"]);
    expect(idle({ twoLevelChannels: [5] })).toEqual([]);
    // What is not known might tell any two apart.
    expect(idle({}, "\nbroken finder")).toEqual([]);
  });

  test("of two stretches as wide as each other the first", () => {
    const made = board("  level when KN in 1100 to 1200 us or KN in 1400 to 1500 us");
    expect(made.witness(made.selected("level")!)!.positions.KN).toBe(1150);
  });
});

test("what is armed where arm or its permit is not set up, or is not known", () => {
  const armed = (modes: string) => {
    const made = board(modes);
    return made.armed === null ? "not known" : made.armed === made.sets.none ? "never" : "at times";
  };
  expect(armed("  arm when TL is down\n  arm-permit when TR is up")).toBe("at times");
  expect(armed("  arm-permit when TR is up")).toBe("never");
  expect(armed("  broken arm-permit")).toBe("never");
  expect(armed("  broken arm\n  arm-permit when TR is up")).toBe("not known");
  expect(armed("  arm when TL is down\n  broken arm-permit")).toBe("not known");
  expect(armed("  broken arm")).toBe("not known");
});

test("sets of modes are listed and counted without those that are not known", () => {
  const made = board("  arm when TL is down\n  broken finder\n  level when finder");
  expect(made.listStates(10)).toMatchObject({ complete: true, states: [{ on: [] }, { on: ["arm"] }] });
  expect([made.countStates(), made.countStatesWith("arm"), made.countStatesWith("level")]).toEqual([2, 1, null]);
});

test("of ends that are not whole the whole microseconds between them count", () => {
  const ends = (fromUs: number, toUs: number) =>
    board("  finder when ch12 above 1500 us", { endpointsUs: { fromUs, toUs } }).map().channels[0]!.spans;
  expect(ends(1000.4, 1999.6)).toMatchObject([
    { fromUs: 1001, toUs: 1500 },
    { fromUs: 1501, toUs: 1999 },
  ]);
  // None lies between these two: the one below stands for them.
  expect(ends(1600.2, 1600.8)).toMatchObject([{ fromUs: 1600, toUs: 1600 }]);
});
