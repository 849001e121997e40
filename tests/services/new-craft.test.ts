/** A craft from eight questions: whatever is answered, nothing at all is found in it. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import type { Answers } from "../../shared/protocol/new-craft.ts";
import { findingsOf } from "../../shared/rules/engine.ts";
import { foundIn, newCraft, pathForName } from "../../shared/services/new-craft.ts";
import { readAnswers } from "../../shared/services/new-craft-answers.ts";
import { allQuestions, questionsFor } from "../../shared/services/new-craft-questions.ts";

const core = makeCore(makeCatalogue());
const NEW = "/shed/craft/jug.fettle";

const wheel = `handset "Wheel"

transmitter
  band  2.4 GHz

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  FR  switch  ch8  away 1000 us  near 2000 us
  PB  button  ch9  rest 1000 us  held 2000 us
  KN  dial    ch10 1000 us to 2000 us
`;

function workspaceOf(files: Readonly<Record<string, string>>): Workspace {
  return core.at(memoryFiles(Object.fromEntries(Object.entries(files).map(([path, text]) => [`/shed/${path}`, text]))));
}

/** The craft that answers give in a workspace, and what is found in it. */
function made(files: Readonly<Record<string, string>>, given: unknown) {
  const workspace = workspaceOf(files);
  const found = foundIn(workspace, "/shed");
  const understood = readAnswers(found, given);
  if (understood.kind === "problem") throw new Error(understood.problem);
  const { text, leftOut } = newCraft(understood.answers, found, workspace, NEW);
  const relative = { ...files, "craft/jug.fettle": text };
  const findings = findingsOf(workspaceOf(relative), NEW).map(
    ({ code, message, range }) => `${text.split("\n")[range.start.line]?.trim()} <- ${code}: ${message}`,
  );
  return { text, leftOut, findings };
}

function problemOf(files: Readonly<Record<string, string>>, given: unknown): string {
  const understood = readAnswers(foundIn(workspaceOf(files), "/shed"), given);
  return understood.kind === "problem" ? understood.problem : "no problem";
}

/** Every combination of answers that the questions admit. */
function* combinations(files: Readonly<Record<string, string>>): Generator<Answers> {
  const found = foundIn(workspaceOf(files), "/shed");
  function* from(at: number, answers: Answers): Generator<Answers> {
    const question = questionsFor(found, answers)[at];
    if (!question) return yield answers;
    if (question.many) return yield* from(at + 1, { ...answers, [question.id]: [] });
    for (const { word } of question.choices) yield* from(at + 1, { ...answers, [question.id]: word });
  }
  yield* from(0, { name: "Jug" });
}

test("there are eight questions, each with a prompt, choices that say what speaks for them, and a usual answer", () => {
  const questions = questionsFor(foundIn(workspaceOf({ "handsets/wheel.fettle": wheel }), "/shed"), {});
  expect(questions.map(({ id }) => id)).toEqual(["size", "pack", "link", "video", "grid", "gps", "pilot", "layers"]);
  for (const { id, prompt, choices, many, usual } of questions) {
    expect(prompt).toMatch(/\?$/);
    if (many) continue;
    expect(
      choices.map(({ word }) => word),
      id,
    ).toContain(usual);
    for (const { label, help } of choices) expect(`${label}${help}`.length).toBeGreaterThan(10);
  }
});

test("nothing is found in any craft that the questions can give, and all of it is some thirty lines", () => {
  const files = { "handsets/wheel.fettle": wheel };
  const found: string[] = [];
  const sizes = new Set<number>();
  let count = 0;
  for (const answers of combinations(files)) {
    // A band is one line of its own: it is tried with every answer of one pilot.
    if (/^\d+-mhz$/.test(answers.link as string) && answers.pilot !== "beginner") continue;
    count++;
    const { text, findings } = made(files, answers);
    sizes.add(text.split("\n").filter((line) => /^ {2}[a-z]|^use /.test(line)).length);
    if (findings.length > 0) found.push(`${JSON.stringify(answers)}: ${findings.join("; ")}`);
  }
  expect(count).toBe(22 * (3 + 5) * 2 * (2 * 5 + 3));
  expect(found.slice(0, 5)).toEqual([]);
  expect(Math.min(...sizes)).toBeGreaterThan(18);
  expect(Math.max(...sizes)).toBeLessThan(46);
});

test("what the pilot is to fill in checks clean as well once it is filled in", () => {
  const files = { "handsets/wheel.fettle": wheel };
  for (const size of ["31-mm", "2-inch", "3-inch", "5-inch", "7-inch", "10-inch"]) {
    for (const gps of ["yes", "no"]) {
      const { text } = made(files, { size, gps, pilot: "freestyle", video: "analogue" });
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
  const found = foundIn(workspaceOf(files), "/shed");
  expect(found.handsets.map(({ name }) => name)).toEqual(["Wheel", "Bellows"]);
  const picks = fc.record({
    at: fc.array(fc.nat({ max: 59 }), { minLength: 7, maxLength: 7 }),
    layers: fc.subarray(found.layers.map(({ path }) => path)),
  });
  let kept = 0;
  fc.assert(
    fc.property(picks, ({ at, layers }) => {
      let answers: Answers = { name: "Jug" };
      for (const i of at.keys()) {
        const { id, choices } = questionsFor(found, answers)[i]!;
        answers = { ...answers, [id]: choices[at[i]! % choices.length]!.word };
      }
      const { findings, leftOut, text } = made(files, { ...answers, layers });
      expect(findings).toEqual([]);
      expect(text.match(/^use "..\/layers/gm)?.length ?? 0).toBe(layers.length - leftOut.length);
      kept += layers.length - leftOut.length;
    }),
    { numRuns: 150 },
  );
  expect(kept).toBeGreaterThan(100);
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
      expect(lines[line]).toBe(`  ${name.padEnd(width)}  ${said}`);
    }
    expect(text).not.toMatch(/\n\n\n|[ \t]\n|\n\n$|^.{101}/m);
    for (const { section, line } of script.sections) {
      expect(lines[line - 1]).toMatch(/^(#.*)?$/);
      const notes =
        lines
          .slice(line - 1)
          .join("\n")
          .split("\n\n")[0]!
          .match(/^ *# /gm) ?? [];
      expect(notes.length, section).toBeGreaterThan(0);
    }
    expect(text).toContain("Propellers off");
    expect(text).toContain("local law");
  }
});

/** A switch with two or three positions at any pulses, resting anywhere; or a control that cannot arm. */
const controlLine = fc.record({
  kind: fc.constantFrom("switch2", "switch3", "selector", "button", "dial"),
  pulses: fc.uniqueArray(fc.integer({ min: 20, max: 40 }), { minLength: 4, maxLength: 4 }),
  rests: fc.nat({ max: 2 }),
});

test("nothing is found whatever the handset, and arming is never at rest, in a middle or on a low pulse", () => {
  fc.assert(
    fc.property(
      fc.array(controlLine, { maxLength: 5 }),
      fc.constantFrom("beginner", "racing"),
      fc.constantFrom("yes", "no"),
      (controls, pilot, gps) => {
        const lines = controls.map(({ kind, pulses, rests }, i) => {
          const us = pulses.map((pulse) => pulse * 50);
          const positions = (names: string[]) => names.map((name, at) => `${name} ${us[at]} us`).join("  ");
          const head = `  K${i}  ${kind.replace(/\d/, "")}  ch${i + 5}  `;
          if (kind === "dial") return `${head}${us[0]} us to ${us[1]} us`;
          if (kind === "button") return `${head}${positions(["up", "held"])}`;
          const names = ["up", "mid", "down", "far"].slice(0, kind === "switch2" ? 2 : kind === "switch3" ? 3 : 4);
          return `${head}${positions(names)}  rests ${names[rests % names.length]}`;
        });
        const handset = `handset "Odd"\n\ncontrols\n${lines.join("\n")}\n`;
        const { text, findings } = made(
          { "handsets/odd.fettle": handset },
          { link: "handsets/odd.fettle", pilot, gps },
        );
        expect(findings, `${handset}\n${text}`).toEqual([]);
      },
    ),
    { numRuns: 300 },
  );
});

const only = (...lines: string[]) => ({ "handsets/odd.fettle": `handset "Odd"\n\ncontrols\n${lines.join("\n")}\n` });
const modesOf = (text: string) =>
  text
    .split("\n")
    .filter((line) => /^ {2}[a-z-]+ +when /.test(line))
    .map((line) => line.trim().replace(/ +/g, " "));

test("the first switch that can arm does, and a beginner's craft is level at rest", () => {
  const { text } = made({ "handsets/wheel.fettle": wheel }, { pilot: "beginner", gps: "yes" });
  expect(modesOf(text)).toEqual([
    "arm when TL is down",
    "level when TR is up",
    "level-blend when TR is mid",
    "return-home when FR is near",
  ]);
  expect(modesOf(made({ "handsets/wheel.fettle": wheel }, { pilot: "racing" }).text)).toEqual([
    "arm when TL is down",
    "level when TR is down",
    "level-blend when TR is mid",
  ]);
});

test.each([
  ["a switch that rests at its high pulse", "  TL  switch  ch5  up 1000 us  down 2000 us  rests down"],
  ["a button", "  PB  button  ch5  rest 1000 us  held 2000 us"],
  ["a dial", "  KN  dial  ch5  1000 us to 2000 us"],
  ["a selector", "  SX  selector  ch5  one 1000 us  two 2000 us"],
])("nothing arms on %s, and a note says what is wanted", (_, line) => {
  const { text, findings } = made(only(line), { link: "Odd" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual([]);
  expect(text).toMatch(/# No switch of the handset can arm it: one is wanted with two or three positions(.|\n)*# arm /);
});

test("a switch of three positions arms at its end where there is no other, and the free middle is accepted", () => {
  const { text, findings } = made(only("  SA  switch  ch5  up 1000 us  mid 1500 us  down 2000 us"), { link: "Odd" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual(["arm when SA is down"]);
  expect(text).toContain(
    '# allow control-idle: a position is left free until there is something for it to do\nuse "../handsets/odd',
  );
});

test("without a handset the modes are comments that say what to do", () => {
  const { text } = made({}, { link: "868 MHz" });
  expect(text).toContain("  band     868 MHz\n");
  expect(modesOf(text)).toEqual([]);
  expect(text).toMatch(/# No switch does anything yet(.|\n)*\n {2}# arm {4}when TL is down\n/);
});

test("the band is the handset's, and a handset that says none has it filled in by the pilot", () => {
  expect(made({ "handsets/wheel.fettle": wheel }, {}).text).toContain("  band     2.4 GHz\n");
  const { text } = made(only("  TL  switch  ch5  up 1000 us  down 2000 us"), { link: "odd" });
  expect(text).toContain(
    "# The handset's file does not say its band; as printed on the receiver:\n  # band  2.4 GHz\n",
  );
});

test("a mode is where most craft of the same handset have it", () => {
  const craft = (name: string, arm: string) =>
    `craft "${name}"\n\nuse "../handsets/wheel.fettle"\n\nmodes\n  arm    when ${arm}\n  level  when TL is down\n`;
  const files = {
    "handsets/wheel.fettle": wheel,
    "craft/a.fettle": craft("A", "FR is near"),
    "craft/b.fettle": craft("B", "FR is near"),
    "craft/c.fettle": craft("C", "TR is down"),
  };
  const { text, findings } = made(files, { link: "Wheel", pilot: "racing" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual(["arm when FR is near", "level when TL is down"]);
  // A habit in which something is found is no example.
  const bad = Object.fromEntries(
    Object.entries(files).map(([path, file]) => [path, file.replaceAll("FR is near", "TL is up")]),
  );
  expect(modesOf(made(bad, { link: "Wheel" }).text)[0]).toBe("arm when TL is down");
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
  expect(text).toMatch(/\n\n# Left out, because: .*FR.*\n# use "..\/layers\/habits.fettle"\n\n/);
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

test("files that cannot be used are not offered, with the reason", () => {
  const workspace = workspaceOf({
    "handsets/wheel.fettle": wheel,
    "layers/bad.fettle": 'layer "Bad"\n\npack\n  cells  x\n',
  });
  const found = foundIn(workspace, "/shed");
  expect(found.notOffered).toEqual([{ path: "layers/bad.fettle", why: expect.stringMatching(/^line 4: /) }]);
  expect(allQuestions(found).at(-1)!.choices).toEqual([]);
});

test.each(["Jug \u201cthe second\u201d", 'a "quoted" \\ name', "Käse-Glocke", "#1", "壺"])(
  "%s can be a name",
  (name) => {
    const { text, findings } = made({}, { name });
    expect(findings).toEqual([]);
    expect(workspaceOf({ "craft/jug.fettle": text }).craft(NEW)!.name).toBe(name);
  },
);

test.each([
  ["Tea Pot", "craft/tea-pot.fettle"],
  ["Käse-Glocke", "craft/kase-glocke.fettle"],
  ["../../etc", "craft/etc.fettle"],
  ["壺", "craft/new-craft.fettle"],
])("%s is kept as %s", (name, path) => {
  expect(pathForName(name)).toBe(path);
});

test.each(["", "  ", "two\nlines", "x".repeat(41), 7, null, "a\u2028b"])("%j can be no name", (name) => {
  expect(problemOf({}, { name })).toMatch(name === null ? /^no problem$/ : /^name: /);
});

test("a word may be spelled as a person spells it", () => {
  for (const pack of ["6-li-ion", "6 li-ion", "6 LI ION", "6 cells, li-ion"]) {
    expect(made({}, { pack }).text).toContain("  chemistry  li-ion\n  cells      6\n");
  }
  expect(made({}, { grid: "60 X 22", gps: true }).text).toMatch(/grid +60 x 22\n(.|\n)*home-arrow/);
});
