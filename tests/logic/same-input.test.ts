/** A board is reused as long as each of its answers would be the same. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { switchboardOf } from "../../shared/logic/from-craft.ts";
import type { Switchboard } from "../../shared/logic/switchboard-types.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { swapped } from "../swapped.ts";

const core = makeCore(makeCatalogue());

const HANDSET = `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  KN  dial    ch9  1000 us to 2000 us
`;
const CRAFT = `craft "Tankard"

use "wheel.fettle"

pack
  cells  4

link
  channels   12
  endpoints  990 us to 2010 us
  on-loss    preset
  preset-channels  1500 us, 1500 us, 1000 us, 1500 us, 1000 us

modes
  arm     when TL is down
  level   when TR is mid
  level   when KN above 1500 us
  finder  when ch3 below 1100 us
`;

function boardOf(craft: string, handset = HANDSET): Switchboard {
  const files = { "/wheel.fettle": handset, "/tankard.fettle": craft };
  return switchboardOf(core.at(memoryFiles(files)).craft("/tankard.fettle")!, core.catalogue.modeRelations.precedence);
}

test("an edit that no switch depends on keeps the board", () => {
  const board = boardOf(CRAFT);
  expect(boardOf(swapped(CRAFT, "cells  4", "cells  6"))).toBe(board);
  expect(boardOf(swapped(CRAFT, "channels   12", "channels   16"))).toBe(board);
});

test.each([
  ["a condition", swapped(CRAFT, "TR is mid", "TR is down"), HANDSET],
  ["a line that moves", swapped(CRAFT, "pack\n", "# here\npack\n"), HANDSET],
  ["a mode more", `${CRAFT}  lights when TR is up\n`, HANDSET],
  ["the ends of the link", swapped(CRAFT, "990 us", "1000 us"), HANDSET],
  ["two levels", swapped(CRAFT, "  channels", "  two-level  6\n  channels"), HANDSET],
  ["a stick as measured", `${CRAFT}\nbench\n  throttle  1004 us to 1996 us\n`, HANDSET],
  ["loss", swapped(CRAFT, "preset\n", "hold\n"), HANDSET],
  ["a preset", swapped(CRAFT, "1000 us, 1500 us, 1000 us", "1000 us, 1500 us, 2000 us"), HANDSET],
  ["a pulse", CRAFT, swapped(HANDSET, "mid 1500", "mid 1490")],
  ["a rest", CRAFT, swapped(HANDSET, "mid 1500 us  down 2000 us", "mid 1500 us  down 2000 us  rests mid")],
  ["a dial's range", CRAFT, swapped(HANDSET, "1000 us to", "1100 us to")],
  ["a name", CRAFT.replaceAll("TR is", "TX is"), swapped(HANDSET, "TR ", "TX ")],
  ["a control with a fault", CRAFT, swapped(HANDSET, "ch6", "six")],
])("%s makes another board", (_, craft, handset) => {
  const board = boardOf(CRAFT);
  expect(boardOf(craft, handset)).not.toBe(board);
});
