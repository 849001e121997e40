/** The effective craft as a script: what it says, where each line of it is from, and that it is the same craft. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { effectiveScript } from "../../../shared/ide/reports/effective-script.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { unmarked, WHEEL, workspaceOf } from "../../rules/check.ts";
import { scriptsIn } from "../../rules/fixtures.ts";

function shown(files: Record<string, string>, file = "craft/jug.fettle") {
  const workspace = workspaceOf(files);
  return effectiveScript(workspace.craft(file)!, workspace);
}

const JUG = {
  "craft/jug.fettle": `# Bram's
# allow osd-overlap: it is a race craft
craft "Jug \\"the tall\\""

use "../handsets/wheel.fettle"
# allow arm-tilt-open: these habits are for the bench
use "../layers/habits.fettle"
use "../layers/osd.fettle"

# its pack
pack
  cells     4   # and no more
  capacity  650mAh

pack "Tired"
  capacity 600 mAh

modes
  drop level
  arm  when TL is down  or  PB is held

outputs
  lamp when TR is up

filters
  gyro-notch  frequency 90 Hz  width 30 Hz
  nonsense    4

verbatim "kiln"
  |set glow = 3 # bright
  |set more
`,
  "handsets/wheel.fettle": WHEEL,
  "layers/habits.fettle": `layer "Habits"

safety
  # the left hand is slow
  arm-tilt-limit  180 deg

modes
  level  when TR is mid
  # to find it in the barley
  finder when PB is held
  finder when TR is down

motors
  motor1  place front-right
`,
  "layers/osd.fettle": `layer "OSD"

# for goggles of every kind
osd
  grid 53 x 20
  pack-volts at left + 2, bottom-1

pack
  cells 6
  warn-at 3.5 V/cell

motors
  motor1  direction clockwise
`,
};

test("every value stands once, with its notes above and its line behind, in the order of the catalogue", () => {
  expect(shown(JUG).text).toBe(readFileSync(inProject("tests/ide/reports/jug-effective.fettle"), "utf8"));
});

test("each line is linked to those that say so, and the link covers what names them", () => {
  const { text, lines } = shown(JUG);
  const rows = text.split("\n");
  const links = lines.map(({ line, start, end, sources }) => [
    rows[line]!.slice(start, end),
    sources.map((source) => `${source.file}:${source.line + 1}`).join(" "),
  ]);
  expect(links).toContainEqual(["line 12", "craft/jug.fettle:12"]);
  expect(links).toContainEqual(["../layers/osd.fettle:10", "layers/osd.fettle:10"]);
  expect(links).toContainEqual(["lamp", "craft/jug.fettle:23"]);
  expect(links).toContainEqual(['use "../handsets/wheel.fettle"', "handsets/wheel.fettle:1"]);
  expect(links).toContainEqual(["|", "craft/jug.fettle:30"]);
  const joined = links.find(([words]) => words!.includes(", "));
  expect(joined).toEqual([
    "../layers/habits.fettle:14, ../layers/osd.fettle:13",
    "layers/habits.fettle:14 layers/osd.fettle:13",
  ]);
});

test("said again it is the same text: it is its own effective craft, but for the lines", () => {
  const { text } = shown(JUG);
  const again = shown({ ...JUG, "craft/jug.fettle": text }).text;
  const bare = (script: string) =>
    script.replaceAll(/^ *# (line \d+|\.\.\/.*)\n/gm, "").replaceAll(/ *# (line \d+|\.\.\/.*)$/gm, "");
  expect(bare(again)).toBe(bare(text));
});

test("a craft that says nothing is its header", () => {
  expect(shown({ "craft/jug.fettle": 'craft "Jug"\n' })).toEqual({ text: 'craft "Jug"\n', lines: [] });
});

// --- The same craft: what is found on it ------------------------------------------------------

/**
 * The codes that are about files and no craft: of lines that say a thing twice, drop what nobody said, name a file
 * that is not there, or accept what is not found. In one file nothing of the kind is left.
 */
const OF_FILES = /^(use-|allow-|duplicate-entry|drop-nothing|syntax|unknown-name|section-misplaced)/;

function codes(files: Record<string, string>, file: string): string[] {
  return findingsOf(workspaceOf(files), file)
    .map(({ code }) => code)
    .filter((code) => !OF_FILES.test(code))
    .sort();
}

/** Two findings that are about how files stand to one another, which one file cannot say any more. */
const BETWEEN_FILES: Readonly<Record<string, string>> = {
  "faulty/field/pincushion.fettle": "It says that a layer's smoothing was dropped.",
  "examples/craft/wobbly-jug.fettle": "It says one port twice, and only the later line counts.",
};

const examples = Object.fromEntries(
  ["craft", "layers", "handsets"].flatMap((folder) =>
    readdirSync(inProject(`examples/${folder}`)).map((name) => [
      `examples/${folder}/${name}`,
      readFileSync(inProject(`examples/${folder}/${name}`), "utf8"),
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

describe.each(shelves)("of every craft in %s", (_, files) => {
  const workspace = workspaceOf(files);
  const craft = Object.keys(files).filter((file) => workspace.craft(file));

  test.each(craft)("%s the same is found", (file) => {
    const { text } = effectiveScript(workspace.craft(file)!, workspace);
    const [before, after] = [codes(files, file), codes({ ...files, [file]: text }, file)];
    if (file in BETWEEN_FILES) expect(after).not.toEqual(before);
    else expect(after).toEqual(before);
  });
});
