import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { linkOf, switchboardOf } from "../../shared/logic/from-craft.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

const core = makeCore(makeCatalogue());

const HANDSET = `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us
  PB  button    ch7  rest 1000 us  held 2000 us
`;

function craftOf(files: Record<string, string>): Craft {
  return core.at(memoryFiles(files)).craft("/tankard.fettle")!;
}

test("a craft's board has its handset's controls, its modes and its outputs", () => {
  const craft = craftOf({
    "/wheel.fettle": HANDSET,
    "/tankard.fettle": `craft "Tankard"

use "wheel.fettle"

link
  endpoints        990 to 2010 us
  on-loss          preset
  preset-channels  1500, 1500, 990, 1500, 1000 us
  two-level        5, 7
  channels         12

modes
  arm    when TL is down
  level  when TR is mid and ch9 above 1900 us

outputs
  # the strip under the arms
  strip  when arm
`,
  });
  const board = switchboardOf(craft);
  expect(board.names).toEqual(["arm", "level", "outputs.strip"]);
  expect(board.variables.map(({ name }) => name)).toEqual(["TL", "TR", "PB", "ch9"]);
  expect(board.selected("outputs.strip")).toBe(board.armed);
  expect(board.rest).toEqual({ TL: "up", TR: "up", PB: "rest" });
  expect(board.map().channels[0]!.spans.map(({ fromUs, toUs }) => [fromUs, toUs])).toEqual([
    [990, 1900],
    [1901, 2010],
  ]);
  expect(board.loss().armed).toBe("off");
  expect(linkOf(craft)).toMatchObject({ twoLevelChannels: [5, 7], channels: 12, resolutionUs: null });
  expect(switchboardOf(craft)).toBe(board);
});

test("on a channel with two levels a middle position arrives as either end, or as the nearer one", () => {
  const board = switchboardOf(
    craftOf({
      "/wheel.fettle": `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us
  SX  selector  ch7  one 1000 us  two 1300 us  three 1700 us  four 2000 us  rests two
  KN  dial      ch8  1000 us to 2000 us
`,
      "/tankard.fettle": `craft "Tankard"

use "wheel.fettle"

link
  two-level  6, 7, 8

modes
  level        when TR is mid
  level-blend  when TR is down
  finder       when SX is one
  lights       when KN above 1500 us
`,
    }),
  );
  expect(board.selected("level")).toBe(board.sets.none);
  expect(board.stateAt({ TR: "mid", SX: "two", KN: 1400 })).toEqual({
    on: ["finder"],
    possible: ["level-blend"],
    unknown: [],
  });
  expect(board.stateAt(board.rest)).toMatchObject({ on: ["finder"], possible: ["lights"] });
  expect(board.movesTo(board.selected("level-blend")!, { TR: "mid" })).toEqual([
    { name: "TR", from: "mid", to: "down" },
  ]);
  expect(board.map().controls[1]!.positions.map(({ name, modes }) => [name, ...modes])).toEqual([
    ["up"],
    ["mid", "level-blend"],
    ["down", "level-blend"],
  ]);
  expect(board.map().controls[3]!.spans).toEqual([
    { fromUs: 1000, toUs: 1000, modes: [] },
    { fromUs: 2000, toUs: 2000, modes: ["lights"] },
  ]);
  expect(board.waysTo(board.selected("lights")!).ways).toMatchObject([
    { demands: [{ positions: [], pulses: [{ fromUs: 2000, toUs: 2000 }] }] },
  ]);
  expect(board.idlePositions()).toEqual([]);
});

test("two files that both set a mode: the later one's lines replace the earlier one's", () => {
  const board = switchboardOf(
    craftOf({
      "/wheel.fettle": HANDSET,
      "/habits.fettle": `layer "Habits"

modes
  arm  when TL is down
  arm  when PB is held
`,
      "/tankard.fettle": `craft "Tankard"

use "wheel.fettle"
use "habits.fettle"

modes
  arm  when TR is down
  arm  when TR is mid
`,
    }),
  );
  expect(board.sets.dependsOn(board.armed!)).toEqual(["TR"]);
  expect(board.armed).toBe(board.sets.not(board.sets.where({ TR: "up" })));
});

test("a mode does not act while one with precedence in the catalogue is on", () => {
  const craft = craftOf({
    "/wheel.fettle": HANDSET,
    "/tankard.fettle": `craft "Tankard"

use "wheel.fettle"

modes
  arm          when TL is down
  level        when TR is mid
  level-blend  when TR is mid or TR is down
  finder       when PB is held
`,
  });
  const board = switchboardOf(craft, core.catalogue.modeRelations.precedence);
  expect(board.acts("level-blend")).toBe(board.sets.where({ TR: "down" }));
  expect(board.acts("finder")).toBe(board.sets.where({ PB: "held", TL: "up" }));
});

test("a control whose line has a fault is left out, and a mode that names it is not known", () => {
  const board = switchboardOf(
    craftOf({
      "/wheel.fettle": HANDSET.replace("ch5  up", "chan5 up"),
      "/tankard.fettle": `craft "Tankard"

use "wheel.fettle"

modes
  arm    when TL is down
  level  when TR is mid
`,
    }),
  );
  expect([board.problems, board.armed]).toEqual([[], null]);
  expect(board.selected("level")).toBe(board.sets.where({ TR: "mid" }));
});

test("without a handset a control's name is a finding, unless a used file could not be read", () => {
  const modes = "\n\nmodes\n  arm  when TL is down\n";
  const bare = switchboardOf(craftOf({ "/tankard.fettle": `craft "Tankard"${modes}` }));
  expect(bare.problems.map(({ code, word }) => [code, word])).toEqual([["unknown-name", "TL"]]);
  const missing = switchboardOf(craftOf({ "/tankard.fettle": `craft "Tankard"\n\nuse "gone.fettle"${modes}` }));
  expect(missing.problems).toEqual([]);
});
