/** Every rule's own examples: the bad one gives its finding once, the good one never. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { ExampleFiles } from "../../../shared/rules/engine/rule.ts";

const core = makeCore(makeCatalogue());

function codesOf(files: ExampleFiles): string[] {
  return findingsOf(core.at(memoryFiles(files)), Object.keys(files)[0]!).map((finding) => finding.code);
}

const misunderstood = (code: string) => code === "syntax" || code === "unknown-name" || code.startsWith("use-");

describe.each(rules.map((rule) => [rule.code, rule] as const))("%s", (code, rule) => {
  test("the bad example gives exactly one finding of it", () => {
    expect(codesOf(rule.examples.bad).filter((each) => each === code)).toEqual([code]);
  });

  test("the good example gives none of it", () => {
    expect(codesOf(rule.examples.good)).not.toContain(code);
  });

  test("both examples are understood", () => {
    for (const files of [rule.examples.bad, rule.examples.good]) {
      expect(codesOf(files).filter((each) => each !== code && misunderstood(each))).toEqual([]);
    }
  });

  test("its prose says what is wrong, why it matters and what to do", () => {
    expect(rule.summary).toMatch(/\.$/);
    expect(rule.prose.length).toBeGreaterThan(120);
  });
});
