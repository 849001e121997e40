/** The bench list of craft of every kind. */
import { describe, expect, test } from "vitest";
import { benchText } from "../../../server/src/cli/bench-text.ts";
import { benchList } from "../../../shared/ide/bench/bench-list.ts";
import { benchMarkdown } from "../../../shared/ide/bench/bench-markdown.ts";
import { expectOfPairs, workspaceOf } from "../compare/made-pairs.ts";
import { triedCraft } from "./craft-of-tests.ts";
import { expectLawful, expectModesShown } from "./laws.ts";

const tried = triedCraft();

describe("every craft of the tests", () => {
  test("there are many", () => {
    expect(tried.length).toBeGreaterThan(50);
  });

  test.each(tried.map((each) => [each.name, each] as const))("%s", (_, { craft, workspace }) => {
    const list = benchList(craft, workspace);
    expectLawful(list);
    expectModesShown(list, craft, workspace);
    const due = benchList(craft, workspace, { only: "due" });
    expectLawful(due);
    const markdown = benchMarkdown(list);
    const steps = list.phases.flatMap((phase) => phase.steps);
    expect(markdown.match(/^- \[[ x]\]/gm)).toHaveLength(steps.length);
    for (const { due: state } of due.phases.flatMap((phase) => phase.steps))
      if (due.phases.length < list.phases.length) expect(["due", "each-time"]).toContain(state.state);
  });
});

test("any craft, however it is written, has a list that holds the order, and is shown whole", () => {
  expectOfPairs(50, (pair) => {
    const workspace = workspaceOf(pair.texts);
    for (const file of [pair.mine, pair.theirs]) {
      const craft = workspace.craft(file)!;
      const list = benchList(craft, workspace);
      try {
        expectLawful(list);
        expectLawful(benchList(craft, workspace, { only: "due" }));
        expectModesShown(list, craft, workspace);
      } catch (error) {
        return `${file}: ${error instanceof Error ? error.message : error}`;
      }
      const steps = list.phases.flatMap((phase) => phase.steps);
      const boxes = benchMarkdown(list).match(/^- \[[ x]\] \*\*\d+\.\d+\*\*/gm)?.length;
      if (boxes !== steps.length) return `${file}: ${steps.length} steps, ${boxes} boxes`;
      const told = benchText(list).match(/^ {2}\[[ x]\] \d+\.\d+ /gm)?.length;
      if (told !== steps.length) return `${file}: ${steps.length} steps, ${told} at the terminal`;
    }
    return null;
  });
});
