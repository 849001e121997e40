/**
 * Craft, and below each how its controls are gone through: by the name of a step what to do, what is seen then (→), a caution (!), and
 * what is not known (?). `UPDATE_SWITCHES=1` writes what comes out, to be looked at.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { benchView } from "../../../shared/ide/bench/bench-view.ts";
import { switchSteps } from "../../../shared/ide/bench/switch-steps.ts";
import type { BenchStep } from "../../../shared/protocol/bench.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const FILE = new URL("switches.txt", import.meta.url);

interface Case {
  readonly title: string;
  readonly script: string;
  readonly expected: string;
}

function readCase(text: string): Case {
  const [head = "", expected = ""] = text.split(/\n--\n/);
  const [title = "", ...script] = head.trimEnd().split("\n");
  return { title, script: `${script.join("\n").trimEnd()}\n`, expected: expected.trimEnd() };
}

const cases = readFileSync(FILE, "utf8").split(/^== /m).slice(1).map(readCase);

function stepsOf(script: string): { readonly steps: readonly BenchStep[]; readonly unknowns: readonly string[] } {
  const workspace = workspaceOf({
    "wheel.fettle": WHEEL,
    "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\n${script}`,
  });
  const view = benchView(workspace.craft("jug.fettle")!, workspace);
  return { steps: switchSteps(view), unknowns: view.unknowns };
}

function asText({ steps, unknowns }: ReturnType<typeof stepsOf>): string {
  const lines = steps.flatMap(({ id, what, expect: seen, caution, risk }) => [
    `${id.replace("switches.", "")} (${risk}): ${what}`,
    `  → ${seen}`,
    ...(caution === null ? [] : [`  ! ${caution}`]),
  ]);
  return [...lines, ...unknowns.map((sentence) => `? ${sentence}`)].join("\n");
}

test("there are many", () => {
  expect(cases.length).toBeGreaterThanOrEqual(10);
  if (process.env.UPDATE_SWITCHES) {
    const texts = cases.map(({ title, script }) => `== ${title}\n${script}--\n${asText(stepsOf(script))}\n`);
    writeFileSync(FILE, texts.join("\n"));
  }
});

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { script, expected }) => {
  expect(asText(stepsOf(script))).toBe(expected);
});
