/** Turns the logic's problems with conditions into reports. */
import type { Problem } from "../../logic/condition-faults.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Fix } from "../../syntax/span.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Report } from "../engine/rule.ts";
import { locationAt } from "./locations.ts";
import { type Foreign, foreignScripts } from "./other-handset.ts";

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
  const foreign = code === "unknown-name" ? foreignIn(craft, workspace) : [];
  const files = new Set(foreign.map(({ script }) => script.file));
  return [
    ...foreign.flatMap((each) => foreignReport(each, problems, craft)),
    ...problems
      .filter(({ source, what }) => what !== "control" || !files.has(source.file))
      .map((problem) => ({
        at: locationAt(problem.source, problem),
        message: wordProblem(problem),
        fixes: problem.candidates.map((name) => replace(problem, name)),
      })),
  ];
}

/** The scripts of a craft that were written for another handset: of their unknown controls there is one finding. */
export function foreignIn(craft: Craft, workspace: Workspace): readonly Foreign[] {
  return foreignScripts(craft, boardOf(craft, workspace).input.controls, workspace);
}

/** One finding for all unknown controls of a script: at the first, with the others beside it. */
function foreignReport({ script, unknown, fix }: Foreign, problems: readonly Problem[], craft: Craft): Report[] {
  const [first, ...others] = problems.filter(({ source, what }) => what === "control" && source.file === script.file);
  if (!first) return [];
  const ours = [...craft.controls.keys()];
  const what = script.file === craft.file ? "This script" : fileNameOf(script.file);
  const offer = fix
    ? "A quick fix renames them after those of this handset, and lists first which becomes which; look at every switch before you fly. Or name the handset that it was written for."
    : "None of them has a counterpart: name the handset that it was written for, or write its conditions anew.";
  return [
    {
      at: locationAt(first.source, first),
      message: `${what} is written for another handset: it names ${joinWithAnd(unknown)}, and the craft's own has ${joinWithAnd(ours)}. ${offer}`,
      related: others.map((each) => ({
        message: `${each.word} is unknown here too`,
        at: locationAt(each.source, each),
      })),
      ...(fix && { fixes: [fix] }),
    },
  ];
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
  const fix = { title: `Write ${name}`, edits: [{ range, text: name }] };
  const isSame = (each: string) => each.toLowerCase() === problem.word.toLowerCase();
  return isSame(name) && problem.candidates.filter(isSame).length === 1 ? { ...fix, certain: true } : fix;
}
