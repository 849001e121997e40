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

const deskOf = (modes: string) =>
  workspaceOf({
    "desk.fettle": 'handset "Desk"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
    "jug.fettle": `craft "Jug"\nuse "desk.fettle"\n${modes}`,
  });

test("what no position turns on is not asked for", () => {
  const modes = ["finder", "lights", "recorder", "camera-record", "turtle", "level", "osd-second"];
  const stepsWith = (condition: string) => {
    const workspace = deskOf(
      `modes\n  arm when TL is down\n${modes.map((name) => `  ${name} when ${condition}\n`).join("")}`,
    );
    const list = benchList(workspace.craft("jug.fettle")!, workspace);
    const asked = list.phases.flatMap(({ steps }) => steps).filter(({ what }) => what.includes(condition));
    return { asked: asked.length, never: list.unknown.filter((each) => each.startsWith("No position")).length };
  };
  expect(stepsWith("TL is up").asked).toBeGreaterThan(3);
  expect(stepsWith("TL is up and TL is down")).toEqual({ asked: 0, never: modes.length });
});

test("of modes that only a missing file may set up nothing is told but that it is missing", () => {
  const workspace = deskOf('use "gone.fettle"\nmodes\n  arm when TL is down\n  finder when TL is sideways\n');
  const { unknown } = benchList(workspace.craft("jug.fettle")!, workspace);
  expect(unknown.filter((each) => each.startsWith("When "))).toEqual([
    "When “finder” is on is not known: a part of the craft is missing, which may say it.",
  ]);
  expect(unknown.join()).not.toContain("turtle");
});
