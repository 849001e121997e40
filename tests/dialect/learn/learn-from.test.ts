/** What is learned from pairs of a script and its board's text, and what stays open. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { learnFrom } from "../../../shared/dialect/learn/learn-from.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const core = makeCore(makeCatalogue());

function learn(...pairs: readonly (readonly [script: string, text: string])[]) {
  const files = Object.fromEntries(pairs.map(([script], i) => [`/${i}.fettle`, `craft "Jug"\n\n${script}`]));
  const workspace = core.at(memoryFiles(files));
  return learnFrom(
    pairs.map(([, text], i) => ({ craft: workspace.craft(`/${i}.fettle`)!, text, name: `pair ${i + 1}` })),
    workspace,
  );
}

test("numbers in steps, words, text, places and fields, each from the lines that follow it", () => {
  const { dialect, open } = learn(
    [
      `pack\n  warn-at 3.5 V/cell\n  land-at 3.3 V/cell\n  capacity 450 mAh\n\nlink\n  on-loss silent\n\nosd\n  pilot-name "Jug"\n  pack-volts at 2, 14\n\nrates\n  roll  slope 200 deg/s  end 800 deg/s\n`,
      'loom of autumn\nweft 35 warp 330\nyarn 450 grey\ncall "Jug"\nknot open\npatch 7 x2 y14\nturn 20 40 r\n',
    ],
    [
      `pack\n  warn-at 3.6 V/cell\n  land-at 3.2 V/cell\n  capacity 550 mAh\n\nlink\n  on-loss hold\n\nosd\n  pilot-name "Mug"\n  pack-volts at 3, 12\n\nrates\n  roll  slope 210 deg/s  end 700 deg/s\n`,
      'loom of autumn\nweft 36 warp 320\nyarn 550 grey\ncall "Mug"\nknot shut\npatch 7 x3 y12\nturn 21 35 r\n',
    ],
  );
  expect(dialect).toMatchInlineSnapshot(`
    "dialect "Learned"

    text
      known-by  "loom of autumn"

    codes
      warn-at  number each 0.1 V/cell
      land-at  number each 0.01 V/cell
      on-loss  words open silent, shut hold
      pilot-name  text within '"'
      roll  number each 10 deg/s
      roll-2  number each 20 deg/s

    pack
      "weft {a:warn-at} warp {b:land-at}"  warn-at {a}
      "weft {a:warn-at} warp {b:land-at}"  land-at {b}
      "yarn {a} grey"                      capacity {a} mAh

    link
      "knot {a:on-loss}"  on-loss {a}

    osd
      "call {a:pilot-name}"  pilot-name {a}
      "patch 7 x{a} y{b}"    pack-volts at {a}, {b}

    rates
      "turn {a:roll} {b:roll-2} r"  roll slope {a} end {b}
    "
  `);
  expect(open).toMatchInlineSnapshot(`[]`);
});

test("a line by which the dialect is known, with braces of its own", () => {
  const { dialect } = learn(
    ["pack\n  capacity 450 mAh\n", "loom of {autumn}\nyarn 450\n"],
    ["pack\n  capacity 550 mAh\n", "loom of {autumn}\nyarn 550\n"],
  );
  expect(dialect).toContain('known-by  "loom of {{autumn}"\n');
});
