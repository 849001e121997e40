/** What happens after a lost signal: craft of every kind, with the expected courses below them. */
import { describe, expect, test } from "vitest";
import { armedInWords, courseName, phaseLabel, spanInWords } from "../../shared/draw/signal-words.ts";
import { signalLossOf } from "../../shared/loss/signal-loss.ts";
import type { SignalLoss } from "../../shared/protocol/signal.ts";
import { workspaceOf } from "../rules/check.ts";
import { lossCases } from "./cases.ts";

function lossOf(files: Readonly<Record<string, string>>): SignalLoss {
  const workspace = workspaceOf(files);
  return signalLossOf(workspace.craft("jug.fettle")!, workspace);
}

/** The courses, a line each. */
function told({ courses }: SignalLoss): string[] {
  return courses.map((course) => {
    const phases = course.phases.map(
      (each) => `${phaseLabel(each.deed)}, ${spanInWords(each)}, ${armedInWords(each.armed)}`,
    );
    const name = courseName(course);
    return `${name === "" ? "" : `${name}: `}${phases.join(" > ")}`;
  });
}

describe("craft of every kind", () => {
  test.each(lossCases())("$title", ({ files, expected }) => {
    expect(told(lossOf(files))).toEqual(expected);
  });
});
