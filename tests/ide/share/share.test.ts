/** What is shared of a craft: what is taken out and told, what stays, and that it is the same craft. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { withFile } from "../../../shared/ide/context/trial.ts";
import { shareCraft } from "../../../shared/ide/share/share.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { unmarked } from "../../rules/check.ts";
import { scriptsIn } from "../../rules/fixtures.ts";
import { diceOf } from "../compare/made-lines.ts";
import { type MadePair, pairs, shown, workspaceOf } from "../compare/made-pairs.ts";

const examples = Object.fromEntries(
  ["craft", "layers", "handsets"].flatMap((folder) =>
    readdirSync(inProject("examples", folder)).map((name) => [
      `examples/${folder}/${name}`,
      readFileSync(inProject("examples", folder, name), "utf8"),
    ]),
  ),
);
const shelves: readonly (readonly [string, Record<string, string>])[] = [
  ["examples", examples],
  ["shelf", scriptsIn("shelf")],
  ["sane", scriptsIn("sane")],
  ...["rack", "kitchen", "field"].map((room) => {
    const faulty = Object.entries(scriptsIn(`faulty/${room}`)).map(([file, text]) => [file, unmarked(text)]);
    return [room, { ...scriptsIn(`sound/${room}`), ...Object.fromEntries(faulty) }] as const;
  }),
];

/** Two thousand were tried; so many are tried each time, as each is read and judged four times. */
const RUNS = Number(process.env.FETTLE_PAIRS ?? 200);

/** It uses a layer that is not there. */
const LACKING: ReadonlySet<string> = new Set(["examples/craft/wobbly-jug.fettle"]);

/** What is wrong with the shared script of a craft, in words; empty for nothing. */
function problems(workspace: Workspace, file: string): string[] {
  const craft = workspace.craft(file)!;
  const shared = shareCraft(craft, workspace, "without");
  if (shared.kind === "refused") return [shared.message];
  const there = withFile(workspace, file, shared.text);
  const listed = new Set(shared.taken.map(({ what }) => what));
  const differing = differencesOf(craft, there.craft(file)!, workspace.catalogue).map(({ what }) => what);
  const before = new Set(craft.scripts.flatMap((each) => findingsOf(workspace, each.file)).map(({ code }) => code));
  // Where a line of a used file was not understood, rules are silent about what it may have said.
  const findings = craft.gaps.length > 0 ? [] : findingsOf(there, file);
  const again = shareCraft(there.craft(file)!, there, "without");
  return [
    ...differing.filter((what) => !listed.has(what)).map((what) => `${what} differs and is not listed`),
    ...findings
      .filter(({ code }) => !before.has(code))
      .map(({ code, message, range }) => `${range.start.line + 1} ${code}: ${message}`),
    ...(again.kind === "refused" ? [again.message] : again.taken.map(({ what, why }) => `again: ${what} ${why}`)),
    ...(again.kind === "shared" && again.text !== shared.text ? [firstDifference(shared.text, again.text)] : []),
  ];
}

function firstDifference(a: string, b: string): string {
  const [before, after] = [a.split("\n"), b.split("\n")];
  const at = before.findIndex((line, i) => line !== after[i]);
  return `the second time line ${at + 1} is “${after[at]}” and was “${before[at]}”`;
}

const JUG = {
  "craft/jug.fettle": `# Maud's, for the weir. Found it? +44 7700 900123
# moved here from /home/maud/craft
craft "Jug of Maud"

use "../handsets/wheel.fettle"
use "../layers/mine.fettle"
use "../layers/osd.fettle"

# take-off is at 52.51631, 13.37777

frame
  motors  4   # the fourth is new
  # owner "Maud Potter, 0171 555 0192"

board
  model  "Kiln 30"
  # serial 30F2A91C0D on the underside
  note   "Port 3 is torn; bought from otto@kiln.example"

pack
  cells  4

# her cold ones
pack "Winter of Maud"
  capacity  900 mAh

modes
  arm  when TL is down

link
  # was glaze before you fire until May
  receiver  "Damper"

outputs
  # lights Maud up
  maud-lamp  when TL is up

verbatim "kiln"
  |set pilot = maud
  |set shelf = 4
  |set id = 24:6F:28:0A:1B:2C
`,
  "handsets/wheel.fettle": `# hangs in the shed of Maud Potter
handset "Wheel of Maud"

transmitter
  band   2.4 GHz
  power  100 mW

controls
  # arms, and nothing else
  TL  switch ch5  up 1000 us  down 2000 us
`,
  "layers/mine.fettle": `layer "Mine"

frame
  owner         "Maud Potter, the shed behind the pottery"
  registration  "POT-0417"

link
  pair-secret  "glaze before you fire"
`,
  "layers/osd.fettle": `# From Ines, with POT-0417 on her own too.
layer "OSD"

osd
  grid        30 x 16
  pilot-name  "MAUD"
  # mine and nobody else's
  pilot       at left+1, top+1
  craft       at left+7, top+1
`,
};

function sharedJug(board: "with" | "without") {
  const workspace = workspaceOf(JUG);
  const shared = shareCraft(workspace.craft("craft/jug.fettle")!, workspace, board);
  if (shared.kind === "refused") throw new Error(shared.message);
  return shared;
}

test("a comment stands where something was, notes stay without what is private in them", () => {
  expect(sharedJug("with").text).toBe(readFileSync(inProject("tests/ide/share/jug-shared.fettle"), "utf8"));
});

test("what was taken out is listed with its line and the reason", () => {
  const listed = sharedJug("with").taken.map(
    ({ what, why, source }) => `${source.file}:${source.line + 1} ${what}: ${why}`,
  );
  expect(`${listed.join("\n")}\n`).toBe(readFileSync(inProject("tests/ide/share/jug-taken.txt"), "utf8"));
});

test("board text that nobody has read is left out unless it is asked for, and then each line is looked at", () => {
  const lines = (board: "with" | "without") =>
    sharedJug(board)
      .text.split("\n")
      .filter((line) => line.includes("|set"));
  expect(lines("without")).toEqual([]);
  expect(lines("with")).toEqual(["  |set shelf = 4"]);
});

describe.each(shelves)("each craft of %s, shared, is the same craft but for what is listed", (_, texts) => {
  const workspace = workspaceOf(texts);
  const crafts = workspace.view.list().filter((file) => workspace.script(file)!.kind === "craft" && !LACKING.has(file));
  test.each(crafts)("%s", (file) => {
    expect(problems(workspace, file)).toEqual([]);
  });
});

/** Private values, and where else they may be said: each is looked for in what is shared. */
const SECRETS = {
  "glaze before you fire": (text: string) => `link\n  pair-secret  "${text}"\n`,
  "Maud Potter": (text: string) => `frame\n  owner  "${text}, the shed"\n`,
  "POT-0417": (text: string) => `frame\n  registration  "${text}"\n`,
  "0417-30-SHED": (text: string) => `frame\n  identification-number  "${text}"\n`,
  MAUDFLIES: (text: string) => `osd\n  pilot-name  "${text}"\n`,
  "maud@pottery.example": (text: string) => `board\n  note  "write to ${text}"\n`,
  "52.51631, 13.37777": (text: string) => `rates\n  note  "for the field at ${text}"\n`,
} as const;

/** The craft of a pair with a layer of private settings, and private words in notes, titles and board text at random. */
function withSecrets({ texts, mine, seed }: MadePair): Record<string, string> {
  const dice = diceOf(seed);
  const words = Object.keys(SECRETS) as (keyof typeof SECRETS)[];
  const said = dice.some(words, 1 + dice.below(words.length));
  const layer = `layer "Mine"\n\n${said.map((each) => SECRETS[each](each)).join("\n")}`;
  const strew = (text: string): string =>
    text
      .split("\n")
      .flatMap((line) => {
        const word = dice.pick(said);
        const indent = /^\s*/.exec(line)![0];
        // A byte-order mark is one at the beginning of a file only.
        if (dice.chance(0.05) && !line.startsWith("\uFEFF")) return [`${indent}# as ${word} said`, line];
        if (line.trimStart().startsWith("|") && dice.chance(0.3)) return [`${indent}|set it = ${word}`, line];
        if (/^\s+# /.test(line) && dice.chance(0.2)) return [`${line} (${word})`];
        return [line];
      })
      .join("\n");
  const strewn = Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, strew(text)]));
  const uses = strewn[mine]!.replace(/^(\uFEFF?craft "[^"\n]*"\r?)$/m, `$1\nuse "../private/mine.fettle"`);
  return { ...strewn, [mine]: uses, "/shed/private/mine.fettle": layer };
}

test("nothing private is said anywhere in it, whatever the craft and wherever it was said", () => {
  fc.assert(
    fc.property(pairs, (pair: MadePair) => {
      const texts = withSecrets(pair);
      const workspace = workspaceOf(texts);
      for (const board of ["without", "with"] as const) {
        const shared = shareCraft(workspace.craft(pair.mine)!, workspace, board);
        const text = shared.kind === "shared" ? shared.text : shared.message;
        const said = Object.keys(SECRETS).filter((word) => texts["/shed/private/mine.fettle"]!.includes(word));
        expect(
          text.split("\n").filter((line) => said.some((word) => line.toLowerCase().includes(word.toLowerCase()))),
        ).toEqual([]);
        expect(shared.kind, shown({ ...pair, texts })).toBe("shared");
      }
      expect(problems(workspace, pair.mine), shown({ ...pair, texts })).toEqual([]);
    }),
    { numRuns: RUNS / 2, seed: 2026 },
  );
});

test("so is any craft that is made at random, and what is shared twice is the same text", () => {
  fc.assert(
    fc.property(pairs, (pair: MadePair) => {
      const found = problems(workspaceOf(pair.texts), pair.mine);
      expect(found, shown(pair)).toEqual([]);
    }),
    { numRuns: RUNS, seed: 2026 },
  );
});
