/** What people write by habit from elsewhere: what is said of it, and the line after the first repair. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import type { Fix } from "../../../shared/syntax/span.ts";
import { workspaceOf } from "../check.ts";

const HEAD = 'craft "Jug"\nuse "wheel.fettle"\n';
const HANDSET = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch7 1000 us to 2000 us
`;

/** The findings of a craft with these sections, and its text once the first of them is repaired. */
function firstRepair(sections: string, head = HEAD) {
  const text = `${head}${sections}`;
  const found = findingsOf(workspaceOf({ "jug.fettle": text, "wheel.fettle": HANDSET }), "jug.fettle");
  const errors = found.filter(({ severity }) => severity === "error");
  const [first] = errors;
  const fix = first?.fixes[0];
  return { messages: errors.map(({ message }) => message), text: fix ? repaired(text, fix).slice(head.length) : null };
}

function repaired(text: string, { edits }: Fix): string {
  const lines = text.split("\n");
  for (const { range, text: written } of edits.toReversed()) {
    const { line, character } = range.start;
    expect(range.end.line).toBe(line);
    lines[line] = lines[line]!.slice(0, character) + written + lines[line]!.slice(range.end.character);
  }
  return lines.join("\n");
}

describe("one finding that says what to write, and a repair that leaves nothing to be found", () => {
  test.each([
    // Numbers.
    ["pack\n  warn-at 3,5 V/cell", "Decimals stand after a point", "pack\n  warn-at 3.5 V/cell"],
    ["pack\n  capacity 1,300 mAh", "between the thousands", "pack\n  capacity 1300 mAh"],
    ["pack\n  cells 4S", "cells is a bare number without unit: remove “S”.", "pack\n  cells 4"],
    ["pack\n  cells 4 V", "cells is a bare number without unit: remove “V”.", "pack\n  cells 4"],
    ['pack\n  cells "4"', "A number is expected here", "pack\n  cells 4"],
    ["camera\n  uptilt +20 deg", "A number is expected here", "camera\n  uptilt 20 deg"],
    ["camera\n  uptilt 20°", "uptilt needs a unit", "camera\n  uptilt 20 deg"],
    ['frame\n  propeller-diameter 5"', "propeller-diameter needs a unit", "frame\n  propeller-diameter 5 in"],
    ["pack\n  capacity 1300 mah", "Did you mean “mAh”?", "pack\n  capacity 1300 mAh"],
    ["video\n  frequency 5800 Mhz", "Did you mean “MHz”?", "video\n  frequency 5800 MHz"],
    // Words.
    ['pack\n  chemistry "lipo"', "chemistry is one of lipo", "pack\n  chemistry lipo"],
    ["motors\n  spin props_in", "spin is one of", "motors\n  spin props-in"],
    [
      "rates\n  throttle-limit 0.8",
      "as a share of the whole 0.8 is 80 %, or was 0.8 % meant?",
      "rates\n  throttle-limit 80 %",
    ],
    ["motors\n  reversible true", "Did you mean “yes”?", "motors\n  reversible yes"],
    ["pack\n  warn_at 3.5 V/cell", "with “-” between words: “warn-at”", "pack\n  warn-at 3.5 V/cell"],
    ["pack\n  cells = 4", "remove “=”", "pack\n  cells 4"],
    ["pack\n  chemistry: lipo", "remove “:”", "pack\n  chemistry lipo"],
    ["pack\n  cells 4 chemistry lipo", "“chemistry” begins a line of its own", "pack\n  cells 4\n  chemistry lipo"],
    ["pack\n  cells 4, chemistry lipo # x", "One entry a line", "pack\n  cells 4\n  chemistry lipo # x"],
    ["pack\n  cells 4 // four", "A comment begins with “#”", "pack\n  cells 4 # four"],
    ["pack\n  // four", "A comment begins with “#”", "pack\n  # four"],
    ["; mine\npack\n  cells 4", "A comment begins with “#”", "# mine\npack\n  cells 4"],
    // Sections and files.
    ["pack:\n# none yet", "remove “:”", "pack\n# none yet"],
    ["pack long\n# none yet", 'Here belongs the name in quotes, as in pack "Long"', 'pack "long"\n# none yet'],
    ["pack “long”\n# none yet", "Quotes are straight and double", 'pack "long"\n# none yet'],
    ['pack\n  use "wheel.fettle"', "remove its indent", 'pack\nuse "wheel.fettle"'],
    ["pack\n  cells 4\n frame\n", "“frame” is the name of a section", "pack\n  cells 4\nframe\n"],
    [
      "adjust\n  gains.overall follows KN from 0.8 to 1.2",
      "A setting is named without its section here: “overall”.",
      "adjust\n  overall follows KN from 0.8 to 1.2",
    ],
    // Conditions.
    ["modes\n  arm when TL down", "Between a control and its position stands “is”", "modes\n  arm when TL is down"],
    ["modes\n  arm = TL is down", "“when” is expected after arm", "modes\n  arm when TL is down"],
    ["modes\n  arm if TL is down", "“when” is expected after arm", "modes\n  arm when TL is down"],
    ["modes\n  arm TL is down", "“when” is expected after arm", "modes\n  arm when TL is down"],
    ["modes\n  arm when ch5 > 1500 us", "“>” is written “above” here", "modes\n  arm when ch5 above 1500 us"],
    ["modes\n  arm when TL == down", "“==” is written “is” here", "modes\n  arm when TL is down"],
    ["modes\n  arm when channel 5 above 1.5 ms", "A channel is written “ch5”", "modes\n  arm when ch5 above 1.5 ms"],
    ["modes\n  arm when TL is down && TR is up", "“&&” stands here", "modes\n  arm when TL is down and TR is up"],
    ["modes\n  arm when TL is down, TR is up", "“,” stands here", "modes\n  arm when TL is down and TR is up"],
    ["osd\n  grid pal\n  sight 3, 5", "“at” is expected after sight", "osd\n  grid pal\n  sight at 3, 5"],
    // What only looks right.
    ["pack\n  cells\u00a04", "only looks like a space (U+00A0)", "pack\n  cells 4"],
    ["pack\n  capacity 1300\u00a0mAh", "only looks like a space (U+00A0)", "pack\n  capacity 1300 mAh"],
    ["pack\n  cells\u200b 4", "An invisible character stands here (U+200B)", "pack\n  cells 4"],
    ["pack\n  \u0441ells 4", "The “\u0441” here only looks like “c” (U+0441)", "pack\n  cells 4"],
    ["sensors\n  mount-yaw \u221290 deg", "only looks like “-” (U+2212)", "sensors\n  mount-yaw -90 deg"],
  ])("%j", (sections, said, after) => {
    const before = firstRepair(sections);
    expect(before.messages).toEqual([expect.stringContaining(said)]);
    expect(before.text).toBe(after);
    expect(firstRepair(after).messages).toEqual([]);
  });
});

test.each([
  ["craft Jug\n", "Here belongs a name in quotes", 'craft "Jug"\n'],
  ["craft “Jug”\n", "Quotes are straight and double", 'craft "Jug"\n'],
  ["craft 'Jug'\n", "Quotes are straight and double", 'craft "Jug"\n'],
  ['craft "Jug"\nuse wheel.fettle\n', "Here belongs the file's name in quotes", 'craft "Jug"\nuse "wheel.fettle"\n'],
  ['craft "Jug"\nuse "far\\wheel.fettle"\n', "between folders stands “/”", 'craft "Jug"\nuse "far/wheel.fettle"\n'],
])("quotes of %j", (text, said, after) => {
  expect(firstRepair(text, "")).toEqual({ messages: [expect.stringContaining(said)], text: after });
});

test("a list parts its values by commas, and a number in it keeps its comma", () => {
  expect(firstRepair("rates\n  throttle-curve 0 %,5 %,100 %").messages.join()).not.toContain("Decimals");
  for (const channels of ["5,8", "5,8,9", "5 ,8 , 9", "1,100"])
    expect(firstRepair(`link\n  two-level ${channels}`).messages.join()).not.toMatch(/Decimals|thousands/);
});

test("a name that is at home in another section is shown where", () => {
  expect(firstRepair("safety\n  arm when TL is down").messages).toEqual([
    "“safety” has no setting “arm”: it belongs in “modes”.",
  ]);
  expect(firstRepair("pack\n  pack-volts at 2, 3").messages).toEqual([
    "“pack” has no setting “pack-volts”: it belongs in “osd”.",
  ]);
});

test("a file that is not where it is looked for is looked for elsewhere", () => {
  const asked = (path: string) => {
    const files = {
      "craft/jug.fettle": `craft "Jug"\nuse "${path}"\n`,
      "layers/habits.fettle": 'layer "Habits"\n',
      "handsets/wheel.fettle": HANDSET,
      "craft/bowl.fettle": 'craft "Bowl"\n',
    };
    const [finding] = findingsOf(workspaceOf(files), "craft/jug.fettle");
    return finding!.fixes.map(({ edits }) => edits[0]!.text);
  };
  expect(asked("../layers/hobits.fettle")).toEqual(['"../layers/habits.fettle"']);
  expect(asked("habits.fettle")).toEqual(['"../layers/habits.fettle"']);
  expect(asked("../layers/habits")).toEqual(['"../layers/habits.fettle"']);
  expect(asked("C:/handsets/wheel.fettle")).toEqual(['"../handsets/wheel.fettle"']);
  // A craft is none that could be used.
  expect(asked("bowls.fettle")).toEqual([]);
});

describe("one finding for one fault", () => {
  test("without a handset it is not every control that is unknown", () => {
    const { messages } = firstRepair("modes\n  arm when TL is down\n  level when TR is up\n", 'craft "Jug"\n');
    expect(messages).toEqual([expect.stringContaining("No handset is in use, so nothing says what TL is")]);
  });

  test.each([
    ['crafft "Jug"\npack\n  cells 4\n', "“crafft” is no kind of file", 'craft "Jug"\npack\n  cells 4\n'],
    ['Craft "Jug"\npack\n  cells 4\n', "Names are in small letters", 'craft "Jug"\npack\n  cells 4\n'],
    [
      'craft "Jug"\nPack\n  cells 4\n  chemistry lipo\n',
      "Names are in small letters",
      'craft "Jug"\npack\n  cells 4\n  chemistry lipo\n',
    ],
    [
      'handset "Wheel"\ncontrols\nTL  switch ch5 up 1000 us down 2000 us\n',
      "A control stands in its section",
      'handset "Wheel"\ncontrols\n  TL  switch ch5 up 1000 us down 2000 us\n',
    ],
    [
      'craft "Jug"\n  pack\n    cells 4\n    chemistry lipo\n',
      "“pack” is indented and stands in no section",
      'craft "Jug"\npack\n    cells 4\n    chemistry lipo\n',
    ],
  ])("%j", (text, said, after) => {
    expect(firstRepair(text, "")).toEqual({ messages: [expect.stringContaining(said)], text: after });
    expect(firstRepair(after, "").messages).toEqual([]);
  });

  test("lines of a board's own text, which are kept as they are", () => {
    const board = "glaze depth = 3\n# kiln\nfire 1 0 900 1200\n\nfire 2 0 900 1300\ncool";
    const kept = firstRepair(`pack\n  cells 4\n${board}\n\nframe\n  mass 600 g`);
    expect(kept.messages).toEqual([expect.stringContaining("from here to line 10 read like a board's own text")]);
    expect(kept.text).toBe(
      'pack\n  cells 4\nverbatim "board"\n  | glaze depth = 3\n  | # kiln\n  | fire 1 0 900 1200\n  | \n  | fire 2 0 900 1300\n  | cool\n\nframe\n  mass 600 g',
    );
    expect(firstRepair(kept.text!).messages).toEqual([]);
    // One such line, or entries that lost their indent, are slips of the hand.
    expect(firstRepair("pack\n  cells 4\nglaze depth").messages).toEqual([expect.stringContaining("stands alone")]);
    expect(firstRepair("pack\ncells 4\nchemistry lipo").messages).toHaveLength(2);
  });

  test("what is no text is said to be none, and nothing else", () => {
    for (const text of ["\ufffdPNG\r\n\0\0\0\rIHDR\n x", "c\0r\0a\0f\0t\0\n\0"])
      expect(firstRepair(text, "").messages).toEqual([expect.stringContaining("it holds zero bytes")]);
  });
});
