/** Every rule's own examples: the bad one gives its finding once, the good one never. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { ExampleFiles, Rule } from "../../../shared/rules/engine/rule.ts";
import { exampleView } from "../example-view.ts";

const core = makeCore(makeCatalogue());

function codesOf(rule: Rule, files: ExampleFiles): string[] {
  return findingsOf(core.at(exampleView(rule, files, core)), Object.keys(files)[0]!).map((finding) => finding.code);
}

const misunderstood = (code: string) => code === "syntax" || code === "unknown-name" || code.startsWith("use-");

/** A capital at the beginning, and a full stop at the end. */
const WHOLE = /^[A-Z“].*[a-z0-9)”#]\.$/;

/** How a clause begins that tells the pilot what to do. */
const ASKS = new RegExp(
  `^(${`accept add adjust arm bound change check copy correct drop give lift look make mend move open put remove say send
  separate set shorten take turn use write`
    .split(/\s+/)
    .join("|")}) `,
  "i",
);

function sentencesOf(text: string): string[] {
  return text.split(/(?<=\.) (?=[A-Z“])/);
}

/** Sentences, and the parts of them that could stand alone. */
function clausesOf(text: string): string[] {
  return text.split(/(?<=[.:;]) |, (?:and|or|so|else) |; else |, /);
}

describe.each(rules.map((rule) => [rule.code, rule] as const))("%s", (code, rule) => {
  test("the bad example gives exactly one finding of it", () => {
    expect(codesOf(rule, rule.examples.bad).filter((each) => each === code)).toEqual([code]);
  });

  test("the good example gives none of it", () => {
    expect(codesOf(rule, rule.examples.good)).not.toContain(code);
  });

  test("both examples are understood", () => {
    for (const files of [rule.examples.bad, rule.examples.good]) {
      expect(codesOf(rule, files).filter((each) => each !== code && misunderstood(each))).toEqual([]);
    }
  });

  test("its summary is one whole sentence", () => {
    expect(sentencesOf(rule.summary)).toHaveLength(1);
    expect(rule.summary).toMatch(WHOLE);
  });

  test("its prose explains in whole sentences of its own, and asks the pilot to do something", () => {
    const sentences = sentencesOf(rule.prose);
    expect(sentences.filter((each) => !WHOLE.test(each))).toEqual([]);
    expect(sentences).not.toContain(rule.summary);
    // Beside what is to be done stands why.
    expect(
      sentences.some((each) => !ASKS.test(each)),
      rule.prose,
    ).toBe(true);
    expect(
      clausesOf(rule.prose).some((each) => ASKS.test(each)),
      rule.prose,
    ).toBe(true);
  });
});

test("no two rules explain themselves by the same sentence, but for cautions", () => {
  const cautions = /^Propellers off/;
  const all = rules.flatMap(({ prose }) => sentencesOf(prose)).filter((each) => !cautions.test(each));
  expect(all.filter((each, i) => all.indexOf(each) !== i)).toEqual([]);
});
