/** Findings at the levels that a user sets for their rules, and that levels change nothing but how they are shown. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import type { RuleLevel } from "../../../shared/model/rule-levels.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { levelsFor, readLevel } from "../../../shared/rules/engine/levels.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { exampleView } from "../example-view.ts";

const core = makeCore(makeCatalogue());
const files = {
  "jug.fettle": `craft "Jug"
use "base.fettle"
# allow osd-overlap: in races only
osd
  grid 30 x 16
  pack-volts at 2, 2
  amps at 2, 2
pack
  cells 4
  cells 6
  kettle 3
`,
  "base.fettle": 'layer "Base"\nsafety\n  arm-tilt-limit 400 deg\n',
};

type Levels = Readonly<Record<string, RuleLevel>>;

/** The codes found in the craft, each with its severity, of those that the cases are about. */
function found(levels: Levels = {}, texts: Readonly<Record<string, string>> = files, file = "jug.fettle"): string[] {
  return findingsOf(core.at(memoryFiles(texts), new Map(Object.entries(levels))), file)
    .map(({ code, severity }) => `${code} ${severity}`)
    .filter((each) => /^(use-|allow-|dup|unknown|osd-overlap|osd-essentials|out-of)/.test(each));
}

const plain = ["use-broken error", "osd-essentials hint", "duplicate-entry warning", "unknown-name error"];

describe("what is shown", () => {
  const without = (code: string) => plain.filter((each) => !each.startsWith(`${code} `));
  test.each<[string, Levels, string[]]>([
    ["nothing is set", {}, plain],
    ["a rule that finds nothing here", { "arm-at-rest": "off" }, plain],
    ["a warning off", { "duplicate-entry": "off" }, without("duplicate-entry")],
    ["a warning as an error", { "duplicate-entry": "error" }, plain.map((each) => each.replace("warning", "error"))],
    ["a hint as a warning", { "osd-essentials": "warning" }, plain.map((each) => each.replace("hint", "warning"))],
    [
      "an error that no note accepts, as a hint",
      { "unknown-name": "hint" },
      [...without("unknown-name"), "unknown-name hint"],
    ],
    [
      "several at once",
      { "duplicate-entry": "off", "osd-essentials": "off" },
      ["use-broken error", "unknown-name error"],
    ],
    ["a finding that a note accepts stays accepted at a higher level", { "osd-overlap": "error" }, plain],
    ["a note for a finding that is off is still of use", { "osd-overlap": "off" }, plain],
    ["what is off in the used file does not break its use", { "out-of-range": "off" }, without("use-broken")],
    ["what is lowered there does not either", { "out-of-range": "warning" }, without("use-broken")],
    ["what stays an error there does", { "out-of-range": "error" }, plain],
  ])("%s", (_, levels, expected) => expect(found(levels)).toEqual(expected));

  test("a note that silences nothing is told of as before, whatever the level of its rule", () => {
    const texts = { "jug.fettle": '# allow mode-clash: never\ncraft "Jug"\n' };
    const sets: Levels[] = [{}, { "mode-clash": "off" }, { "mode-clash": "hint" }];
    for (const levels of sets) expect(found(levels, texts)).toEqual(["allow-unused hint"]);
  });

  test("the used file has its own findings at their levels", () => {
    expect(found({}, files, "base.fettle")).toEqual(["out-of-range error"]);
    expect(found({ "out-of-range": "info" }, files, "base.fettle")).toEqual(["out-of-range info"]);
    expect(found({ "out-of-range": "off" }, files, "base.fettle")).toEqual([]);
  });
});

test("one craft in one core is shown by each set of levels as if there were no other", () => {
  for (let i = 0; i < 3; i++) {
    expect(found({ "osd-essentials": "off" })).toHaveLength(plain.length - 1);
    expect(found()).toEqual(plain);
    expect(found({ "osd-essentials": "error" })).toContain("osd-essentials error");
  }
});

test("every example that a rule finds is silent with the rule off, and at any other level has that level", () => {
  for (const rule of rules) {
    const [file] = Object.keys(rule.examples.bad);
    for (const level of levelsFor(rule)) {
      const view = exampleView(rule, rule.examples.bad, core);
      const own = findingsOf(core.at(view, new Map([[rule.code, level]])), file!).filter(
        ({ code }) => code === rule.code,
      );
      expect([rule.code, own.map(({ severity }) => severity)]).toEqual([rule.code, level === "off" ? [] : [level]]);
    }
  }
});

describe("what may be set", () => {
  test.each([
    ["osd-overlap", "off"],
    ["arm-at-rest", "hint"],
    ["syntax", "warning"],
    ["allow-unused", "error"],
    ["use-missing", "info"],
  ])("%s to %s", (code, level) => expect(readLevel(code, level)).toEqual({ kind: "level", level }));

  test.each([
    ["osd-overlp", "off", "there is no rule “osd-overlp”: did you mean osd-overlap?"],
    ["", "off", "there is no rule “”"],
    ["constructor", "off", "there is no rule “constructor”"],
    ["osd-overlap", "Off", "osd-overlap is set to off, hint, info, warning or error, not to “Off”"],
    ["osd-overlap", "", "osd-overlap is set to off, hint, info, warning or error, not to “”"],
    ["osd-overlap", false, "osd-overlap is set to off, hint, info, warning or error, not to anything else"],
    [
      "syntax",
      "off",
      "syntax cannot be turned off, since its findings say what was not understood: set it to hint, info, warning or error",
    ],
    ["allow-unexplained", "of", "allow-unexplained is set to hint, info, warning or error, not to “of”"],
  ])("not %s to %s", (code, level, why) => expect(readLevel(code, level)).toEqual({ kind: "refused", why }));
});
