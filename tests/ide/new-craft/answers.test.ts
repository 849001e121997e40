/** The questions of a new craft, and answers as people spell them. */
import { expect, test } from "vitest";
import { findFiles, pathForName } from "../../../shared/ide/new-craft/new-craft.ts";
import { allQuestions, questionsFor } from "../../../shared/ide/new-craft/questions.ts";
import { isAsked } from "../../../shared/protocol/new-craft.ts";
import { made, NEW, problemOf, wheel, workspaceOf } from "./new-craft-made.ts";

test("there are nine questions, each with a prompt, choices that say what speaks for them, and a usual answer", () => {
  const questions = questionsFor(findFiles(workspaceOf({ "handsets/wheel.fettle": wheel }), "/shed"), {});
  expect(questions.map(({ id }) => id)).toEqual([
    "size",
    "pack",
    "ducts",
    "link",
    "video",
    "grid",
    "gps",
    "pilot",
    "layers",
  ]);
  for (const { id, prompt, choices, many, usual } of questions) {
    expect(prompt).toMatch(/\?$/);
    if (many) continue;
    expect(
      choices.map(({ word }) => word),
      id,
    ).toContain(usual);
    // Five inches never have ducts: a question with one answer is none.
    expect(isAsked(questions.find((each) => each.id === id)!)).toBe(id !== "ducts");
    for (const { label, help } of choices) expect(`${label}${help}`.length).toBeGreaterThan(10);
  }
});

test("files that cannot be used are not offered, with the reason", () => {
  const workspace = workspaceOf({
    "handsets/wheel.fettle": wheel,
    "layers/bad.fettle": 'layer "Bad"\n\npack\n  cells  x\n',
  });
  const found = findFiles(workspace, "/shed");
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

test.each(["", "  ", "two\nlines", "x".repeat(41), 7, null, "a\u2028b"])("%j is rejected as a name", (name) => {
  expect(problemOf({}, { name })).toMatch(name === null ? /^no problem$/ : /^name: /);
});

test("a word may be spelled as a person spells it", () => {
  for (const pack of ["6-li-ion", "6 li-ion", "6 LI ION", "6 cells, li-ion"]) {
    expect(made({}, { pack }).text).toContain("  chemistry  li-ion\n  cells      6\n");
  }
  expect(made({}, { grid: "60 X 22", gps: true }).text).toMatch(/grid +60 x 22\n(.|\n)*home-arrow/);
});
