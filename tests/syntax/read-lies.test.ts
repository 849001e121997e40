/** Where a control lies on its handset: lines as written, with the canonical text, or with the fault and its repairs. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { printValue } from "../../shared/syntax/print-value.ts";

const core = makeCore(makeCatalogue());

function read(line: string) {
  const text = `handset "Wheel"\ncontrols\n  ${line}\n`;
  return core.at(memoryFiles({ "w.fettle": text })).script("w.fettle")!;
}

const UP_DOWN = "up 1000 us down 2000 us";

describe("lines that say it rightly", () => {
  test.each([
    [`TL switch ch5 ${UP_DOWN} lies left`, "lies left"],
    [`TL switch ch5 ${UP_DOWN} lies left shoulder`, "lies left shoulder"],
    [`TL switch ch5 ${UP_DOWN} lies right face`, "lies right face"],
    [`TL switch ch5 ${UP_DOWN} lies middle back`, "lies middle back"],
    [`TL switch ch5 ${UP_DOWN} lies middle`, "lies middle"],
    [`TL switch ch5 ${UP_DOWN}   lies\tright   shoulder`, "lies right shoulder"],
    [`TL switch ch5 ${UP_DOWN} lies left # under the thumb`, "lies left"],
    [`TL switch ch5 ${UP_DOWN} rests down lies left back`, "rests down  lies left back"],
    [`TL switch ch5 ${UP_DOWN} rests up lies left back`, "lies left back"],
    ["PB button ch7 rest 1000 us held 2000 us lies right face", "lies right face"],
    ["KN dial ch9 1000 us to 2000 us lies left shoulder", "lies left shoulder"],
    ["KN dial ch9 2000 to 1000 us lies middle face", "lies middle face"],
    ["SX selector ch8 one 1000 us two 1500 us three 2000 us rests two lies middle", "rests two  lies middle"],
    ["SX selector ch8 left 1000 us middle 1500 us right 2000 us rests left lies left", "lies left"],
    ["SX switch ch8 face 1000 us back 2000 us lies right back", "lies right back"],
    [`TL switch ch5 ${UP_DOWN}`, ""],
  ])("%s", (line, expected) => {
    const script = read(line);
    expect(script.issues).toEqual([]);
    const canonical = printValue(script.entries[0]!.value!);
    expect(/(?:(?<=us {2})rests.*|lies.*)?$/.exec(canonical)![0]).toBe(expected);
    // What is printed reads as the same again.
    expect(printValue(read(`TL ${canonical}`).entries[0]!.value!)).toBe(canonical);
  });
});

/** The code, what is underlined, the message, and the line after each repair. */
function faults(line: string): string[] {
  const script = read(line);
  expect(script.entries[0]?.value ?? null).toBeNull();
  return script.issues.flatMap(({ code, span, message, fixes }) => [
    `${code} ${line.slice(span.start - 2, span.end - 2)}: ${message}`,
    ...(fixes ?? []).map(
      ({ edits: [edit] }) =>
        line.slice(0, edit!.range.start.character - 2) + edit!.text + line.slice(edit!.range.end.character - 2),
    ),
  ]);
}

const SIDES = "“left”, “right” or “middle”";
const FACES = "“shoulder”, “face” or “back”";

describe("lines that say it wrongly", () => {
  test.each<[string, string[]]>([
    [
      "KN dial ch9 1000 us to 2000 us lies",
      [`syntax s: The side on which the hand finds it is expected here, ${SIDES}; the line ends here.`],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies lft",
      [
        `unknown-name lft: A control lies ${SIDES}; “lft” is none of them. Did you mean “left”?`,
        "KN dial ch9 1000 us to 2000 us lies left",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies centre",
      [
        `unknown-name centre: A control lies ${SIDES}; “centre” is none of them. Did you mean “middle”?`,
        "KN dial ch9 1000 us to 2000 us lies middle",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies shoulder",
      [
        `syntax shoulder: The side comes first, ${SIDES}, as in “lies left shoulder”.`,
        "KN dial ch9 1000 us to 2000 us lies left shoulder",
        "KN dial ch9 1000 us to 2000 us lies right shoulder",
        "KN dial ch9 1000 us to 2000 us lies middle shoulder",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies shoulder left",
      [
        `syntax shoulder left: The side comes first, ${SIDES}, as in “lies left shoulder”.`,
        "KN dial ch9 1000 us to 2000 us lies left shoulder",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies left sholder",
      [
        `unknown-name sholder: Behind the side stands ${FACES}, or nothing; “sholder” is none of them. Did you mean “shoulder”?`,
        "KN dial ch9 1000 us to 2000 us lies left shoulder",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies left front",
      [
        `unknown-name front: Behind the side stands ${FACES}, or nothing; “front” is none of them. Did you mean “face”?`,
        "KN dial ch9 1000 us to 2000 us lies left face",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies left underside",
      [
        `unknown-name underside: Behind the side stands ${FACES}, or nothing; “underside” is none of them. Did you mean “back”?`,
        "KN dial ch9 1000 us to 2000 us lies left back",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies Left",
      [
        `unknown-name Left: A control lies ${SIDES}; “Left” is none of them. Did you mean “left”?`,
        "KN dial ch9 1000 us to 2000 us lies left",
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us lies 3",
      [`syntax 3: The side on which the hand finds it is expected here, ${SIDES}; “3” stands here.`],
    ],
    [
      `TL switch ch5 ${UP_DOWN} lies left rests down`,
      [
        "syntax rests down: Where it rests stands before where it lies, as in “rests down lies left”.",
        `TL switch ch5 ${UP_DOWN} rests down lies left`,
      ],
    ],
    [
      `TL switch ch5 ${UP_DOWN} lies left shoulder rests down`,
      [
        "syntax rests down: Where it rests stands before where it lies, as in “rests down lies left shoulder”.",
        `TL switch ch5 ${UP_DOWN} rests down lies left shoulder`,
      ],
    ],
    [
      `TL switch ch5 ${UP_DOWN} lies left right`,
      [
        "syntax right: A control lies on one side; “left” is said already.",
        `TL switch ch5 ${UP_DOWN} lies right`,
        `TL switch ch5 ${UP_DOWN} lies left`,
      ],
    ],
    [`TL switch ch5 ${UP_DOWN} lies left shoulder face`, ["syntax face: Nothing more is expected here."]],
    [
      `TL switch ch5 ${UP_DOWN} lies left, shoulder`,
      ["syntax ,: Behind the side stands “shoulder”, “face” or “back”, or nothing; “,” stands here."],
    ],
    [
      `TL switch ch5 ${UP_DOWN} left shoulder`,
      [
        "syntax left shoulder: Where the hand finds a control is said with “lies”, as in “lies left shoulder”.",
        `TL switch ch5 ${UP_DOWN} lies left shoulder`,
      ],
    ],
    [
      "KN dial ch9 1000 us to 2000 us left",
      [
        "syntax left: Where the hand finds a control is said with “lies”, as in “lies left”.",
        "KN dial ch9 1000 us to 2000 us lies left",
      ],
    ],
    [
      "TL switch ch5 up 1000 us lies 2000 us",
      ["syntax lies: No position may be called “lies”: the language uses the word. Give it another name."],
    ],
    [
      "TL switch ch5 up 1000 us unset 2000 us",
      ["syntax unset: No position may be called “unset”: the language uses the word. Give it another name."],
    ],
    [
      "TL switch ch5 always 1000 us down 2000 us",
      ["syntax always: No position may be called “always”: the language uses the word. Give it another name."],
    ],
    [
      "TL switch ch5 all 1000 us down 2000 us",
      ["syntax all: No position may be called “all”: the language uses the word. Give it another name."],
    ],
    [
      "TL switch lies left ch5 up 1000 us down 2000 us",
      ["wrong-type lies: The channel of the control is expected here, as in “ch5”; “lies” stands here."],
    ],
    [
      "KN dial ch9 1000 us to 2000 us rests left",
      [
        "syntax rests: A dial may rest anywhere in its range, so “rests” says nothing of it.",
        "KN dial ch9 1000 us to 2000 us",
      ],
    ],
    [
      `TL switch ch5 ${UP_DOWN} lie left`,
      [
        "syntax lie left: Where the hand finds a control is said with “lies”, as in “lies left”.",
        `TL switch ch5 ${UP_DOWN} lies left`,
      ],
    ],
  ])("%s", (line, expected) => expect(faults(line)).toEqual(expected));
});
