/** Turns the logic's problems with conditions into reports. */
import { boardOf } from "../../logic/from-craft.ts";
import type { Problem } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Fix } from "../../syntax/span.ts";
import type { Report } from "../engine/rule.ts";
import { locationAt } from "./locations.ts";

/** The problems of one code, each with a repair for every likely name. */
export function problemReports(craft: Craft, workspace: Workspace, code: Problem["code"]): Report[] {
  const problems = boardOf(craft, workspace).problems.filter((problem) => problem.code === code);
  const [first] = problems;
  // Without a handset, every condition names an unknown control, and one finding says why.
  if (first?.what === "control" && craft.controls.size === 0)
    return [
      {
        at: locationAt(first.source, first),
        message: `No handset is in use, so nothing says what ${first.word} is and on which channel it comes: name your handset's file at the top, as in use "../handsets/wheel.fettle".`,
      },
    ];
  return problems.map((problem) => ({
    at: locationAt(problem.source, problem),
    message: wordProblem(problem),
    fixes: problem.candidates.map((name) => replace(problem, name)),
  }));
}

function wordProblem({ code, what, word, control, candidates }: Problem): string {
  if (code === "wrong-type")
    return `${control} is a dial and has no positions: test its pulse, as in “${control} above 1500 us”.`;
  const offered = candidates.slice(0, 3);
  const question = offered.length > 0 ? ` Did you mean ${offered.join(" or ")}?` : "";
  if (what === "position") return `${control} has no position “${word}”.${question}`;
  return `No handset of this craft has a control ${word}.${question}`;
}

function replace(problem: Problem, name: string): Fix {
  const { line } = problem.source;
  const range = { start: { line, character: problem.start }, end: { line, character: problem.end } };
  return { title: `Write ${name}`, edits: [{ range, text: name }] };
}
