/** A craft in a board's own text: alone, and onto the board's last one. */
import { expect, test } from "vitest";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { boardCase } from "./board-case.ts";

const KILN = `dialect "Kiln, spring"

text
  known-by  "kiln of spring"
  comment   ";"
  heading   "firing {n}"

codes
  glaze  number 0 to 220 each 0.02 V/cell
  draw   number 0 to 60 from 880 us each 20 us
  flue   number 0 to 11 from ch5
  axis   words R roll, P pitch, Y yaw
  does   words - unset, a arm, f level, t turtle
  pot    words 3 pack-volts, 9 amps
  spot   bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset

pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999}"                 capacity {c} mAh

modes
  "shelf {#:0 to 3} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}

osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}
  cannot grid

rates
  "spin {a:axis} {s:1 to 99} {e:0 to 99}"  {a} curve 10 * ({s} * stick + {e} * stick ^ 5)
`;

const CRAFT = `craft "Jug"

use "handset.fettle"

pack
  warn-at   3.5 V/cell
  land-at   3.31 V/cell
  capacity  450 mAh

modes
  arm     when TL is up
  level   when TR is mid or TR is up
  turtle  when TL is up and TR is down

osd
  grid        30 x 16
  pack-volts  at left+2, bottom-1

rates
  roll  slope 200 deg/s  end 800 deg/s  bend 5
`;

test("without a base all that the craft says is written, and what can be is unset", () => {
  const { dialect, craft, workspace } = boardCase(KILN, CRAFT);
  const { text, changes, ...report } = writeBoard(dialect, craft, workspace, null);
  expect(text).toBe(`falls at 175, ends 165
holds 450
shelf 0 a by 0 31..60
shelf 1 f by 1 18..60
shelf 2 - by 0 0..0
shelf 3 - by 0 0..0
tile 3 408E
tile 9 0000
spin R 20 60
`);
  expect(changes).toBe(text);
  expect(report).toEqual({
    rounded: [{ what: "pack land-at", said: "3.31 V/cell", written: "3.3 V/cell" }],
    filled: [],
    unsaid: [],
    onlyBase: [],
    byHand: [],
    cannot: [
      {
        what: "modes turtle",
        why: "it asks for 2 ranges at once, and a line of the board holds 1",
        positions: { TL: "up", TR: "down" },
      },
    ],
    curves: [{ what: "rates roll", deviationDegS: 0 }],
    notes: [],
  });
});

const BASE = `; old
kiln of spring
falls at 170,   ends 165
holds 300
shelf 3 a by 0 31..60
mystery 9
tile 9 4083
spin P 10 20
`;

test("onto a base only what differs changes, where it stands, and what only the base says is unset or listed", () => {
  const { dialect, craft, workspace } = boardCase(KILN, CRAFT);
  const { text, changes, onlyBase } = writeBoard(dialect, craft, workspace, BASE);
  expect(text).toBe(`; old
kiln of spring
falls at 175,   ends 165
holds 450
shelf 0 f by 1 18..60
shelf 3 a by 0 31..60
mystery 9
tile 3 408E
tile 9 0000
spin R 20 60
spin P 10 20
`);
  expect(changes).toBe(`falls at 175,   ends 165
holds 450
shelf 0 f by 1 18..60
tile 3 408E
tile 9 0000
spin R 20 60
`);
  expect(onlyBase).toEqual(["rates pitch"]);
});

test("what the board says already is not touched", () => {
  const { dialect, craft, workspace } = boardCase(KILN, CRAFT);
  const { text } = writeBoard(dialect, craft, workspace, BASE);
  const again = writeBoard(dialect, craft, workspace, text);
  expect(again).toMatchObject({ text, changes: "" });
});
