/** The bench list of craft of every kind. */
import { describe, expect, test } from "vitest";
import { benchList } from "../../../shared/ide/bench/bench-list.ts";
import { benchMarkdown } from "../../../shared/ide/bench/bench-markdown.ts";
import { triedCraft } from "./craft-of-tests.ts";
import { expectLawful } from "./laws.ts";

const tried = triedCraft();

describe("every craft of the tests", () => {
  test("there are many", () => {
    expect(tried.length).toBeGreaterThan(50);
  });

  test.each(tried.map((each) => [each.name, each] as const))("%s", (_, { craft, workspace }) => {
    const list = benchList(craft, workspace);
    expectLawful(list);
    const due = benchList(craft, workspace, { only: "due" });
    expectLawful(due);
    const markdown = benchMarkdown(list);
    const steps = list.phases.flatMap((phase) => phase.steps);
    expect(markdown.match(/^- \[[ x]\]/gm)).toHaveLength(steps.length);
    for (const { due: state } of due.phases.flatMap((phase) => phase.steps))
      if (due.phases.length < list.phases.length) expect(["due", "each-time"]).toContain(state.state);
  });
});
