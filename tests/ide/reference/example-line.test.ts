/**
 * The lines that reference pages show as examples are lines that one could fly: each reads without a finding on a
 * five-inch, and all of a section together make a craft that nothing is wrong with. Whoever adds a setting, a mode or an
 * element writes its example in `shared/catalogue/examples`.
 */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { elementExamples } from "../../../shared/catalogue/examples/elements.ts";
import { settingExamples } from "../../../shared/catalogue/examples/index.ts";
import { modeExamples } from "../../../shared/catalogue/examples/modes.ts";
import { exampleOfElement, exampleOfMode, exampleOfSetting } from "../../../shared/ide/reference/example-line.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);

const HAND = `handset "Hand"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  FL switch ch7 up 1000 us mid 1500 us down 2000 us
  FR switch ch8 away 1000 us near 2000 us
  PB button ch9 rest 1000 us held 2000 us
  KN dial ch10 1000 us to 2000 us
`;
/** The files that the examples of the section `board` name. */
const BOARD = {
  "/shed/boards/kiln-spring.fettle": 'dialect "Kiln, spring"\n',
  "/shed/boards/tankard.txt": "kiln of spring\n",
};
const FIVE_INCH = "frame\n  propeller-diameter 5.1 in\npack\n  cells 6\n";

/** The findings of a craft, or of a handset, with this text; with `severities` only those. */
function found(kind: string, text: string, severities?: string): string[] {
  const file = "/shed/craft/jug.fettle";
  const head = kind === "craft" ? `craft "Jug"\nuse "hand.fettle"\n` : `${kind} "Jug"\n`;
  const workspace = core.at(memoryFiles({ ...BOARD, [file]: `${head}\n${text}\n`, "/shed/craft/hand.fettle": HAND }));
  return findingsOf(workspace, file)
    .filter(({ severity }) => severities === undefined || severities.includes(severity))
    .map(({ code, message }) => `${code}: ${message}`);
}

/** What an example must never give: that it was not understood, or is unusual on a five-inch. */
const OF_THE_LINE = /^(syntax|unknown-name|wrong-|missing-unit|out-of-range|unusual-value|duplicate-entry|section-)/;

const sections = catalogue.sections.filter(({ settings, holds }) => settings.length > 0 && holds !== "kept");
const kindOf = (name: string) => (catalogue.section(name)!.in.includes("craft") ? "craft" : "handset");
const settings = sections.flatMap((section) => section.settings.map((setting) => ({ section, setting })));

/** All examples of a section, without those that do not go together with one before them. */
function linesOf({ name, settings: all }: (typeof sections)[number]): string[] {
  return all.flatMap((setting, i) => {
    const path = `${name}.${setting.name}`;
    const clashes = all
      .slice(0, i)
      .some((each) =>
        [...(each.excludes ?? []), ...(setting.excludes ?? [])].some((no) =>
          [path, `${name}.${each.name}`].includes(no.setting),
        ),
      );
    return clashes ? [] : [`  ${setting.name} ${setting.example}`];
  });
}

test("everything built in has an example, and every example belongs to something", () => {
  const paths = settings.map(({ section, setting }) => `${section.name}.${setting.name}`);
  const written = Object.entries(settingExamples).flatMap(([section, all]) =>
    Object.keys(all).map((name) => `${section}.${name}`),
  );
  expect([...written].sort()).toEqual([...paths].sort());
  expect(Object.keys(modeExamples).sort()).toEqual(catalogue.modes.map(({ name }) => name).sort());
  expect(Object.keys(elementExamples).sort()).toEqual(catalogue.elements.map(({ name }) => name).sort());
});

test("every setting's example is understood, and usual on a five-inch", () => {
  expect(settings.length).toBeGreaterThanOrEqual(220);
  for (const { section, setting } of settings) {
    const text = exampleOfSetting(section, setting);
    expect(text).toContain(`  ${setting.name}  ${setting.example}`);
    const isSize = section.name === "frame" || section.name === "pack";
    const craft = kindOf(section.name) === "craft" && !isSize ? `${FIVE_INCH}${text}` : text;
    const wrong = found(kindOf(section.name), craft).filter((each) => OF_THE_LINE.test(each));
    expect(wrong, text).toEqual([]);
  }
});

describe("all examples of a section together leave no error and no warning", () => {
  test.each(sections.filter(({ like }) => !like).map(({ name }) => name))("%s", (name) => {
    const lines = linesOf(catalogue.section(name)!);
    const size = ["frame", "pack"].includes(name) || kindOf(name) === "handset" ? "" : FIVE_INCH;
    expect(found(kindOf(name), `${size}${name}\n${lines.join("\n")}`, "error warning")).toEqual([]);
  });

  test("and so do all sections", () => {
    const craft = sections.filter(({ name, like }) => !like && kindOf(name) === "craft");
    const text = craft.flatMap((section) => [
      section.name,
      ...linesOf(section).filter((each) => !/^ +motor[5-8]/.test(each)),
    ]);
    expect(found("craft", text.join("\n"), "error warning")).toEqual([]);
  });
});

test("every mode's example is understood, alone and with all others", () => {
  for (const mode of catalogue.modes)
    expect(
      found("craft", exampleOfMode(mode)).filter((each) => OF_THE_LINE.test(each)),
      mode.name,
    ).toEqual([]);
  const all = catalogue.modes.map(({ name, example }) => `  ${name} when ${example}`);
  expect(
    found("craft", `modes\n${all.join("\n")}`, "error warning").filter((each) => !each.startsWith("mode-needs")),
  ).toEqual([]);
});

test("every element's example is at home on the grid, alone and with all others", () => {
  const osd = "osd\n  grid 53 x 20\n  picture 16:9\n";
  for (const element of catalogue.elements) {
    const text = exampleOfElement(element).replace(/^osd\n/, osd);
    expect(
      found("craft", text).filter((each) => OF_THE_LINE.test(each) || /^osd-(off|unsafe|overlap|centre)/.test(each)),
      text,
    ).toEqual([]);
  }
  const all = catalogue.elements.map(({ name, example }) => `  ${name} at ${example}`);
  expect(found("craft", `${osd}  pilot-name "Maud"\n${all.join("\n")}`, "error warning")).toEqual([]);
});
