/** A craft from a few questions: whatever is answered, nothing at all is found in it. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { findFiles } from "../../../shared/ide/new-craft/new-craft.ts";
import { questionsFor } from "../../../shared/ide/new-craft/questions.ts";
import type { Answers } from "../../../shared/protocol/new-craft.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { answersBy, made, modesOf, NEW, only, wheel, workspaceOf } from "./new-craft-made.ts";

const files = { "handsets/wheel.fettle": wheel };
const found = findFiles(workspaceOf(files), "/shed");
const QUESTIONS = ["size", "pack", "ducts", "link", "video", "grid", "gps", "pilot"];

function holdsClean(answers: Answers): void {
  const { text, findings } = made(files, { ...answers, layers: [] });
  expect(findings, JSON.stringify(answers)).toEqual([]);
  const entries = text.split("\n").filter((line) => /^ {2}[a-z]|^use /.test(line)).length;
  expect(entries, text).toBeGreaterThan(17);
  expect(entries, text).toBeLessThan(46);
}

test("nothing is found whatever the craft, and all of it is some thirty lines", () => {
  // Every craft that can be described, with the pilot and the link going round beside.
  const described = ["size", "pack", "ducts", "video", "grid", "gps"].reduce<Answers[]>(
    (before, id) =>
      before.flatMap((answers) => {
        const question = questionsFor(found, answers).find((each) => each.id === id)!;
        return question.choices.map(({ word }) => ({ ...answers, [id]: word }));
      }),
    [{ name: "Jug" }],
  );
  const round = (id: string, at: number) => {
    const { choices } = questionsFor(found, {}).find((each) => each.id === id)!;
    return choices[at % choices.length]!.word;
  };
  for (const [at, answers] of described.entries())
    holdsClean({ ...answers, pilot: round("pilot", at), link: round("link", Math.floor(at / 5)) });
  // Packs for each size, twice where it flies with and without ducts; two kinds of picture with their grids; satellites.
  expect(described.length).toBe((4 + 5 + 2 * 4 + 2 * 4 + 4 + 4 + 4) * (3 + 5) * 2);
});

test("nothing is found for any pair of answers", () => {
  const numbers = fc.array(fc.nat({ max: 59 }), { minLength: QUESTIONS.length, maxLength: QUESTIONS.length });
  fc.assert(
    fc.property(numbers, (all) => holdsClean(answersBy(found, (id) => all[QUESTIONS.indexOf(id)]!))),
    { numRuns: 150 },
  );
});

test("what the pilot is to fill in checks clean as well once it is filled in", () => {
  for (const size of ["31-mm", "40-mm", "2-inch", "3-inch", "5-inch", "7-inch", "10-inch"]) {
    for (const gps of ["yes", "no"]) {
      // With ducts where a craft may have them.
      const ducts = ["31-mm", "40-mm", "2-inch", "3-inch"].includes(size) ? "yes" : "no";
      const { text } = made(files, { size, ducts, gps, pilot: "freestyle", video: "analogue" });
      expect(text.includes("\n  ducts ")).toBe(ducts === "yes");
      const filled = text.replace(/^ {2}# ((mass|capacity|region|obstacle-height) )/gm, "  $1");
      expect(filled).not.toBe(text);
      const at = workspaceOf({ ...files, "craft/jug.fettle": filled });
      expect(findingsOf(at, NEW).map(({ message }) => message)).toEqual([]);
    }
  }
});

/** The demonstration's own files, craft and all: they were not made for this. */
function examples(): Record<string, string> {
  const paths = ["craft", "handsets", "layers"].flatMap((part) =>
    readdirSync(`examples/${part}`).map((name) => `${part}/${name}`),
  );
  return Object.fromEntries(paths.map((path) => [path, readFileSync(`examples/${path}`, "utf8")]));
}

test("nothing is found whichever handset and layers of the demonstration are chosen", () => {
  const files = examples();
  const found = findFiles(workspaceOf(files), "/shed");
  expect(found.handsets.map(({ name }) => name)).toEqual(["Wheel", "Bellows"]);
  const picks = fc.record({
    numbers: fc.array(fc.nat({ max: 59 }), { minLength: QUESTIONS.length, maxLength: QUESTIONS.length }),
    layers: fc.subarray(found.layers.map(({ path }) => path)),
  });
  let kept = 0;
  fc.assert(
    fc.property(picks, ({ numbers, layers }) => {
      const answers = answersBy(found, (id) => numbers[QUESTIONS.indexOf(id)]!);
      const { findings, leftOut, text } = made(files, { ...answers, layers });
      expect(findings).toEqual([]);
      expect(text.match(/^use "..\/layers/gm)?.length ?? 0).toBe(layers.length - leftOut.length);
      kept += layers.length - leftOut.length;
    }),
    { numRuns: 60 },
  );
  expect(kept).toBeGreaterThan(30);
});

test("every line stands as the language lays it out, and every section but the plainest says why", () => {
  for (const gps of ["yes", "no"]) {
    const { text } = made({ "handsets/wheel.fettle": wheel }, { gps, pilot: "pupil", pack: "6-li-ion" });
    const script = workspaceOf({ "craft/jug.fettle": text }).script(NEW)!;
    const lines = text.split("\n");
    for (const { section, line, name, text: value } of script.entries) {
      const width = Math.max(
        ...script.entries.filter((each) => each.section === section).map((each) => each.name.length),
      );
      const said =
        section === "modes" ? `when ${value}` : section === "osd" && / at /.test(lines[line]!) ? `at ${value}` : value;
      expect(lines[line]!.replace(/ {2}# .*/, "")).toBe(`  ${name.padEnd(width)}  ${said}`);
    }
    expect(text).not.toMatch(/\n\n\n|[ \t]\n|\n\n$|^.{101}/m);
    for (const { section, line } of script.sections) {
      expect(lines[line - 1]).toMatch(/^(#.*)?$/);
      const notes =
        lines
          .slice(line - 1)
          .join("\n")
          .split("\n\n")[0]!
          .match(/(^ *| {2})# /gm) ?? [];
      expect(notes.length, section).toBeGreaterThan(0);
    }
    expect(text).toContain("Propellers off");
    expect(text).toContain("local law");
  }
});

const habits = `layer "Habits"

modes
  arm    when FR is near
  level  when TR is down
  level-blend when TR is mid

rates
  roll  slope 100 deg/s  end 700 deg/s

link
  channels 8
`;

test("what a layer says is left to the layer", () => {
  const files = { "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits };
  const { text, leftOut, findings } = made(files, { layers: "habits", gps: "yes" });
  expect({ leftOut, findings }).toEqual({ leftOut: [], findings: [] });
  expect(modesOf(text)).toEqual(["return-home when TL is down"]);
  expect(text).not.toMatch(/^ {2}roll/m);
});

test("a layer that does not go with the other answers is a comment with the reason", () => {
  const files = { ...only("  TL  switch  ch5  up 1000 us  down 2000 us"), "layers/habits.fettle": habits };
  const { text, leftOut, findings } = made(files, { link: "Odd", layers: ["habits"] });
  expect(findings).toEqual([]);
  expect(leftOut).toEqual([{ path: "layers/habits.fettle", why: expect.stringContaining("FR") }]);
  expect(text).toMatch(/\n\n# Left out, because: .*FR(.*\n# ){1,3}use "..\/layers\/habits.fettle"\n\n/);
});

test("a layer is not left out for positions at which it wants the same", () => {
  const layer = 'layer "Habits"\n\nmodes\n  arm    when TL is down\n  level  when TR is up or TR is mid\n';
  const files = { "handsets/wheel.fettle": wheel, "layers/habits.fettle": layer };
  const { text, leftOut, findings } = made(files, { layers: "habits" });
  expect({ leftOut, findings }).toEqual({ leftOut: [], findings: [] });
  expect(text).toContain('# allow control-idle: the layers want the same at both positions\nuse "../');
});

test("the handset that was chosen counts, also over one that a layer brings in", () => {
  const files = {
    "handsets/wheel.fettle": wheel,
    ...only("  SA  switch  ch5  up 1000 us  down 2000 us"),
    "layers/own.fettle": 'layer "Own"\n\nuse "../handsets/odd.fettle"\n\nsafety\n  arm-hold  200 ms\n',
  };
  const { text, findings } = made(files, { link: "Wheel", layers: "own" });
  expect(findings).toEqual([]);
  expect(text).toContain('use "../layers/own.fettle"\nuse "../handsets/wheel.fettle"\n');
  expect(modesOf(text)[0]).toBe("arm when TL is down");
  expect(modesOf(made(files, { link: "2.4 GHz", layers: "own" }).text)[0]).toBe("arm when SA is down");
});
