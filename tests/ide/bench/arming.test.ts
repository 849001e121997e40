/**
 * Craft, and below each how arming is tried: by the name of a step what to do, what is seen then (→), a caution (!), and
 * what is not known (?). `UPDATE_ARMING=1` writes what comes out, to be looked at.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { armingSteps } from "../../../shared/ide/bench/arming-steps.ts";
import { benchView } from "../../../shared/ide/bench/bench-view.ts";
import type { BenchStep } from "../../../shared/protocol/bench.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const FILE = new URL("arming.txt", import.meta.url);

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

function armingOf(script: string): { readonly steps: readonly BenchStep[]; readonly unknowns: readonly string[] } {
  const workspace = workspaceOf({
    "wheel.fettle": script.includes("start-check")
      ? WHEEL.replace("controls", "transmitter\n  start-check yes\ncontrols")
      : WHEEL,
    "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\n${script}`,
  });
  const view = benchView(workspace.craft("jug.fettle")!, workspace);
  return { steps: armingSteps(view), unknowns: view.unknowns };
}

function asText({ steps, unknowns }: ReturnType<typeof armingOf>): string {
  const lines = steps.flatMap(({ id, what, expect: seen, caution, risk }) => [
    `${id.replace("arming.", "")} (${risk}): ${what}`,
    `  → ${seen}`,
    ...(caution === null ? [] : [`  ! ${caution}`]),
  ]);
  return [...lines, ...unknowns.map((sentence) => `? ${sentence}`)].join("\n");
}

test("there are many", () => {
  expect(cases.length).toBeGreaterThan(35);
  if (process.env.UPDATE_ARMING) {
    const texts = cases.map(({ title, script }) => `== ${title}\n${script}--\n${asText(armingOf(script))}\n`);
    writeFileSync(FILE, texts.join("\n"));
  }
});

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { script, expected }) => {
  expect(asText(armingOf(script))).toBe(expected);
});
