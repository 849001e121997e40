/** What the panel, the arming and the reports say of a craft a part of which is missing. */
import { describe, expect, test } from "vitest";
import { readinessOf } from "../../../shared/ide/arming/readiness.ts";
import { missingParts } from "../../../shared/ide/context/missing-parts.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

type Files = Readonly<Record<string, string>>;

const workspaceWith = (files: Files) => workspaceOf({ "wheel.fettle": WHEEL, ...files });
const craftOf = (lines: string) => `craft "Jug"\nuse "wheel.fettle"\n${lines}\n`;

/** Each missing part as “where: message”. */
function told(files: Files): string[] {
  const craft = workspaceWith(files).craft("jug.fettle")!;
  return missingParts(craft).map(({ where, message }) => `${where}: ${message}`);
}

test.each<[string, Files, string[]]>([
  ["nothing", { "jug.fettle": craftOf("modes\n  arm when TL is down") }, []],
  [
    "a file that is not there",
    { "jug.fettle": craftOf('use "habits.fettle"') },
    ["line 3: “habits.fettle” is missing: there is no such file."],
  ],
  [
    "one further down",
    { "jug.fettle": craftOf('use "mine.fettle"'), "mine.fettle": 'layer "Mine"\n\nuse "habits.fettle"\n' },
    ["line 3 of mine.fettle: “habits.fettle” is missing: there is no such file."],
  ],
  [
    "a craft",
    { "jug.fettle": craftOf('use "bowl.fettle"'), "bowl.fettle": 'craft "Bowl"\n' },
    ["line 3: “bowl.fettle” is left out: it is a craft, and no part of another."],
  ],
  [
    "a layer in a handset",
    {
      "jug.fettle": craftOf('use "mine.fettle"'),
      "mine.fettle": 'handset "Mine"\nuse "base.fettle"\n',
      "base.fettle": 'layer "Base"\n',
    },
    ["line 2 of mine.fettle: “base.fettle” is left out: a handset may use only handsets."],
  ],
  [
    "a circle",
    {
      "jug.fettle": craftOf('use "a.fettle"'),
      "a.fettle": 'layer "A"\nuse "b.fettle"\n',
      "b.fettle": 'layer "B"\nuse "a.fettle"\n',
    },
    ["line 2 of b.fettle: “a.fettle” is left out: it leads back to the file that uses it."],
  ],
  [
    "a newer edition",
    { "jug.fettle": craftOf('use "new.fettle"'), "new.fettle": 'layer "New" edition 7\n' },
    ["line 3: “new.fettle” is left out: it is written in a newer edition of the language."],
  ],
  [
    "lines with errors, once for a file",
    { "jug.fettle": craftOf('use "a.fettle"'), "a.fettle": 'layer "A"\npack\n  cels 4\n  warn-at 3.5\n  = 3\n' },
    ["line 3 of a.fettle: “a.fettle” has errors (the first in line 3), and what those lines were to say is missing."],
  ],
  [
    "a path outside",
    { "jug.fettle": craftOf('use "/etc/habits.fettle"\nuse habits') },
    [
      "line 3: “/etc/habits.fettle” is left out: a “use” names a file from the folder of the file it stands in, with / between folders, and never by an absolute path.",
      "line 4: A file is left out: the name of the file cannot be read.",
    ],
  ],
])("%s", (_, files, expected) => expect(told(files)).toEqual(expected));

test("the panel says it above every view, with a button to the line", () => {
  const workspace = workspaceWith({ "jug.fettle": craftOf('use "habits.fettle"') });
  for (const view of ["goggles", "switches", "numbers"] as const)
    expect(panelOf(workspace, "jug.fettle", 1, { view }).missing).toEqual([
      {
        why: "“habits.fettle” is missing: there is no such file.",
        ways: [{ label: "Show line 3", action: { name: "go", at: { file: "jug.fettle", line: 2 } } }],
      },
    ]);
  expect(panelOf(workspaceWith({ "jug.fettle": craftOf("") }), "jug.fettle", 1).missing).toEqual([]);
});

describe("whether it is armed", () => {
  const armed = (lines: string, more: Files = {}, positions = {}) => {
    const workspace = workspaceWith({ ...more, "jug.fettle": craftOf(lines) });
    const craft = workspace.craft("jug.fettle")!;
    const { switches } = panelOf(workspace, "jug.fettle", 1, { positions });
    return `${switches!.state.armed}, ${readinessOf(craft, workspace, { positions }).armed}`;
  };
  const GONE = 'use "habits.fettle"\n';
  const down = { TL: "down" };

  test.each<[string, string, Files, object, string]>([
    ["all is there", "modes\n  arm when TL is down", {}, down, "yes, yes"],
    ["arm may be in the missing layer", `${GONE}modes\n  level when TR is mid`, {}, down, "unknown, depends"],
    ["a permission to arm may be", `${GONE}modes\n  arm when TL is down`, {}, down, "unknown, depends"],
    ["arm is off, whatever it says", `${GONE}modes\n  arm when TL is down`, {}, {}, "no, no"],
    ["its permission is taken back", `${GONE}modes\n  drop arm-permit\n  arm when TL is down`, {}, down, "yes, yes"],
    [
      "a layer has an error elsewhere",
      'use "packs.fettle"\nmodes\n  arm when TL is down',
      { "packs.fettle": 'layer "Packs"\npack\n  cels 4\n' },
      down,
      "yes, yes",
    ],
    [
      "a layer has an error among its modes",
      'use "mine.fettle"\nmodes\n  arm when TL is down',
      { "mine.fettle": 'layer "Mine"\nmodes\n  arm-permitt when TR is up\n' },
      down,
      "unknown, depends",
    ],
    ["its control is not known", `${GONE}modes\n  arm when K1 is down`, {}, {}, "unknown, depends"],
  ])("%s", (_, lines, more, positions, expected) => expect(armed(lines, more, positions)).toBe(expected));

  test("what keeps it from arming says why it is not known", () => {
    const workspace = workspaceWith({ "jug.fettle": craftOf(`${GONE}modes\n  level when TR is mid`) });
    const { obstacles, moves, complete } = readinessOf(workspace.craft("jug.fettle")!, workspace);
    expect(obstacles[0]).toEqual({
      what: "modes.arm",
      state: "open",
      message: "When arm is on is not known: a part of the craft is missing, which may say it.",
      source: { file: "jug.fettle", line: 2 },
    });
    expect({ moves, complete }).toEqual({ moves: null, complete: false });
  });
});
