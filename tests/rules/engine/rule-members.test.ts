/** What a rule says of itself is what happens: whether a note may accept it, whether it blocks the use of a file. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { ExampleFiles, Rule } from "../../../shared/rules/engine/rule.ts";
import { exampleView } from "../example-view.ts";

const core = makeCore(makeCatalogue());

function codesIn(rule: Rule, files: ExampleFiles): string[] {
  return findingsOf(core.at(exampleView(rule, files, core)), Object.keys(files)[0]!).map(({ code }) => code);
}

/** The files with a note that accepts the code, at the end of the line on which its finding stands. */
function withNote(rule: Rule, files: ExampleFiles): ExampleFiles {
  const first = Object.keys(files)[0]!;
  const finding = findingsOf(core.at(exampleView(rule, files, core)), first).find(({ code }) => code === rule.code)!;
  const lines = files[first]!.split("\n");
  const { line } = finding.range.start;
  return { ...files, [first]: lines.with(line, `${lines[line]} # allow ${rule.code}: so it is here`).join("\n") };
}

/** The example of that one has a note already, and what it lacks is the reason. */
const acceptedByNotes = rules.filter(({ code }) => code !== "allow-unexplained");

test.each(acceptedByNotes.map((rule) => [rule.code, rule] as const))(
  "a note accepts %s, unless it is not acceptable",
  (code, rule) => {
    // Its example has a note already, which gives no reason: a reason is what is missing.
    if (code === "allow-unexplained") return;
    const accepted = !codesIn(rule, withNote(rule, rule.examples.bad)).includes(code);
    expect(accepted).toBe(rule.acceptable !== false);
  },
);

const fileRules = rules.filter((rule) => rule.scope !== "craft");

/** A craft that uses the example, which is then no craft itself. */
function used(files: ExampleFiles): ExampleFiles {
  const first = Object.keys(files)[0]!;
  const layer = files[first]!.replace(/^craft /, "layer ");
  return { "user.fettle": `craft "User"\n\nuse "${first}"\n`, ...files, [first]: layer };
}

test.each(fileRules.map((rule) => [rule.code, rule] as const))(
  "a file that has %s is broken, if that blocks its use",
  (code, rule) => {
    const found = codesIn(rule, used(rule.examples.bad));
    // What breaks a file that is used by a used one breaks both.
    expect(found.includes("use-broken")).toBe(rule.blocksUse === true || code === "use-broken");
    if (rule.acceptable === false || !rule.blocksUse) return;
    expect(codesIn(rule, used(withNote(rule, rule.examples.bad)))).not.toContain("use-broken");
  },
);

test("what is not understood is never acceptable, nor what a craft then lacks, nor what is said of such notes", () => {
  expect(rules.filter(({ acceptable }) => acceptable === false).map(({ code }) => code)).toEqual(
    "allow-unexplained allow-unknown allow-unused edition-newer syntax unknown-name use-broken use-cycle use-kind use-missing".split(
      " ",
    ),
  );
});

test("every error of a single file blocks its use, but for the one that only passes such errors on", () => {
  const errors = fileRules.filter(({ severity, code }) => severity === "error" && code !== "use-broken");
  expect(fileRules.filter(({ blocksUse }) => blocksUse)).toEqual(errors);
});
