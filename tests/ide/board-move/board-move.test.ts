/** What becomes of a board's text on newer firmware. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { type BoardMove, moveBoard } from "../../../shared/ide/board-move/board-move.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const OLDER = `dialect "Ebb, old"

codes
  tenths  number 0 to 255 each 0.1 V/cell
  drum    words - unset, A arm, F level, H turtle
  ch      number 0 to 11 from ch5
  step    number 0 to 100 from 1000 us each 10 us

pack
  "low tide {w:tenths}"   warn-at {w}
  "neap {l:tenths}"       land-at {l}
  "basin {c:0 to 9999}"   capacity {c} mAh

modes
  "lock {#:0 to 3} {m:drum} {c:ch=0} {a:step=0} {b:step=0}"  {m} when {c} in {a} to {b}

finder
  "foghorn {a:50 to 5000}"  tone {a} Hz
`;

const NEWER = `dialect "Ebb, new"

codes
  fifths  number 0 to 50 each 0.2 V/cell
  drum    words none unset, arming arm, levelling level
  ch      number 0 to 11 from ch5
  step    number 0 to 50 from 1000 us each 20 us

pack
  "low water {w:fifths}"  warn-at {w}
  "neap {l:fifths}"       land-at {l}
  "basin {c:0 to 9999}"   capacity {c} mAh
  "berths {n:1 to 8}"     cells {n}

modes
  "lock {#:0 to 3} {m:drum} {c:ch=0} {a:step=0} {b:step=0}"  {m} when {c} in {a} to {b}
`;

const TEXT = `low tide 35
neap 34
basin 450
lock 0 A 0 50 100
lock 1 H 1 60 100
foghorn 500
sluice 7
`;

function move(text: string): BoardMove {
  const workspace = makeCore(makeCatalogue()).at(memoryFiles({ "/old.fettle": OLDER, "/new.fettle": NEWER }));
  return moveBoard(dialectOf(workspace, "/old.fettle")!, dialectOf(workspace, "/new.fettle")!, text, {
    workspace,
    handset: null,
  });
}

test("a text is carried over, and all that does not come along is told", () => {
  const { text, script: _, ...moved } = move(TEXT);
  expect(text).toMatchInlineSnapshot(`
    "low water 17
    neap 17
    basin 450
    lock 0 arming 0 25 50
    lock 1 none 0 0 0
    lock 2 none 0 0 0
    lock 3 none 0 0 0
    "
  `);
  expect(moved).toMatchInlineSnapshot(`
    {
      "bench": [
        {
          "because": [],
          "what": "Take the propellers off before anything on the bench that can arm the craft or spin a motor.",
        },
        {
          "because": [],
          "what": "Switch the handset off, and see what the craft does: receiver and failsafe.",
        },
        {
          "because": [],
          "what": "Move each stick: its own channel, its direction, both ends and the middle.",
        },
        {
          "because": [],
          "what": "Arm, disarm, and try each way in which arming must be refused.",
        },
        {
          "because": [
            "modes turtle",
          ],
          "what": "Move every switch through all of its positions, and watch which modes come on.",
        },
        {
          "because": [],
          "what": "Turn one motor at a time: its corner and its direction.",
        },
        {
          "because": [
            "pack warn-at",
          ],
          "what": "Hold a voltmeter to the pack, and compare; then see at which voltage it warns.",
        },
        {
          "because": [
            "finder tone",
          ],
          "what": "Try the finder, the lights and the recorder.",
        },
      ],
      "curves": [],
      "filled": [],
      "gained": [
        "pack cells",
      ],
      "kept": [
        {
          "line": 6,
          "text": "sluice 7",
          "why": null,
        },
      ],
      "lost": [
        {
          "lines": [
            "lock 1 H 1 60 100",
          ],
          "was": "when ch6 in 1600 us to 2000 us",
          "what": "modes turtle",
          "why": "the other board's dialect has no line for it",
        },
        {
          "lines": [
            "foghorn 500",
          ],
          "was": "500 Hz",
          "what": "finder tone",
          "why": "the other board's dialect has no line for it",
        },
      ],
      "notes": [
        "Conditions name channels, as it is not known which control of a handset sends which.",
      ],
      "renamed": [
        {
          "now": [
            "low water 17",
          ],
          "was": [
            "low tide 35",
          ],
          "what": "pack warn-at",
        },
      ],
      "rounded": [
        {
          "now": "3.4 V/cell",
          "was": "3.5 V/cell",
          "what": "pack warn-at",
        },
      ],
    }
  `);
});

test("onto the same dialect nothing is lost, renamed, rounded or new", () => {
  const workspace = makeCore(makeCatalogue()).at(memoryFiles({ "/old.fettle": OLDER }));
  const dialect = dialectOf(workspace, "/old.fettle")!;
  const { lost, renamed, rounded, gained } = moveBoard(dialect, dialect, TEXT, { workspace, handset: null });
  expect({ lost, renamed, rounded, gained }).toEqual({ lost: [], renamed: [], rounded: [], gained: [] });
});
