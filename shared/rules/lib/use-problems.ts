/** What can be wrong with a `use` line: one finding a line, the gravest first. */

import { oncePer } from "../../model/memo.ts";
import type { Script, Use } from "../../model/script.ts";
import { similarNames } from "../../model/similar-names.ts";
import { leadsBack, pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { type Fix, rangeOf } from "../../syntax/span.ts";
import type { Report } from "../engine/rule.ts";
import { alikePositions, sharedChannels } from "./controls.ts";
import { headLocation, locationOf } from "./locations.ts";

export type UseCode = "use-missing" | "use-kind" | "use-cycle" | "use-broken";

/** The findings of one code on the `use` lines of a file. */
export function useReports(script: Script, workspace: Workspace, code: UseCode): Report[] {
  return problemsOf(script, workspace).flatMap(({ use, problem }) =>
    problem.code === code
      ? [
          {
            at: locationOf(script.file, use.at),
            message: problem.message,
            fixes: (problem.meant ?? []).map(pathFix(use)),
          },
        ]
      : [],
  );
}

const pathFix =
  ({ at }: Use) =>
  (path: string): Fix => ({ title: `Write ${quote(path)}`, edits: [{ range: rangeOf(at), text: quote(path) }] });

type Problems = readonly { readonly use: Use; readonly problem: Problem }[];
const filesOf = oncePer((_: Workspace) => new Map<Script, Problems>());

/** What is wrong with each `use` of a file; four rules ask, and it is found once. */
function problemsOf(script: Script, workspace: Workspace): Problems {
  const files = filesOf(workspace, undefined);
  let problems = files.get(script);
  if (!problems) {
    const byPath = new Map<string | null, Problem | null>();
    problems = script.uses.flatMap((use) => {
      let problem = byPath.get(use.path);
      if (problem === undefined) {
        problem = problemOf(script, use, workspace);
        byPath.set(use.path, problem);
      }
      return problem ? [{ use, problem }] : [];
    });
    files.set(script, problems);
  }
  return problems;
}

/** A handset that stands in for the craft's own has no `use` line: its errors are told on the header. */
export function standInReports(craft: Script, handset: Script, workspace: Workspace): Report[] {
  if (!hasErrors(handset, workspace)) return [];
  return [
    {
      at: headLocation(workspace, { file: craft.file, line: craft.tree.header ?? 0 }),
      message: `The handset that stands in${handset.name ? `, “${handset.name}”,` : ""} has errors of its own, and what they touch is missing here: mend it there.`,
    },
  ];
}

/** Files that a file names twice, by their real paths. */
export function repeatedUses(script: Script, workspace: Workspace): Report[] {
  const first = new Map<string, Use>();
  return script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind !== "script") return [];
    const before = first.get(target.script.file);
    if (!before) {
      first.set(target.script.file, use);
      return [];
    }
    return [
      {
        at: locationOf(script.file, use.at),
        message: `This file is used already on line ${before.line + 1}, and its first place counts: remove one of the lines.`,
        related: [{ message: "It is used here first", at: locationOf(script.file, before.at) }],
      },
    ];
  });
}

interface Problem {
  readonly code: UseCode;
  readonly message: string;
  /** Files that were most likely meant, as they would be written there. */
  readonly meant?: readonly string[];
}

function problemOf(script: Script, use: Use, workspace: Workspace): Problem | null {
  const own = ownProblem(script, use, workspace);
  if (own || use.path === null) return own;
  const target = workspace.target(script, use);
  if (target.kind !== "script" || !hasErrors(target.script, workspace)) return null;
  return {
    code: "use-broken",
    message: `“${use.path}” has errors of its own, and what they touch is missing here: open it and mend it there.`,
  };
}

/** What is wrong with a `use` line itself, whatever stands in the file that it names. */
function ownProblem(script: Script, use: Use, workspace: Workspace): Problem | null {
  if (use.path === null) return null;
  const target = workspace.target(script, use);
  if (target.kind === "unread") return null;
  if (target.kind === "none") {
    const meant = pathsLike(script, use.path, workspace);
    const question = meant.length > 0 ? ` Did you mean ${meant.map((path) => `“${path}”`).join(" or ")}?` : "";
    return { code: "use-missing", message: `“${use.path}” cannot be used: ${target.why}.${question}`, meant };
  }
  const used = target.script;
  if (used.kind === "craft") {
    return {
      code: "use-kind",
      message: `“${use.path}” is a craft, one whole machine, and cannot be used by another file: move what both share into a layer.`,
    };
  }
  if (script.kind === "handset" && used.kind === "layer") {
    return { code: "use-kind", message: `A handset may use only handsets, and “${use.path}” is a layer.` };
  }
  if (leadsBack(workspace, script, used)) {
    return {
      code: "use-cycle",
      message: `Using “${use.path}” leads back to this file, so that neither lies over the other: take one of the lines out.`,
    };
  }
  return null;
}

/** Files of the workspace that a path comes near to and that may be used there: of that name first, then of that spelling. */
function pathsLike(script: Script, path: string, workspace: Workspace): string[] {
  const nameOf = (each: string) =>
    each
      .replace(/^.*[/\\]/, "")
      .replace(/\.fettle$/, "")
      .toLowerCase();
  const paths = workspace.view.list().flatMap((file) => {
    const kind = file === script.file ? undefined : workspace.script(file)?.kind;
    return kind === "handset" || (kind === "layer" && script.kind !== "handset")
      ? [pathBetween(script.file, file)]
      : [];
  });
  const named = paths.filter((each) => nameOf(each) === nameOf(path));
  return named.length > 0 ? named.slice(0, 3) : similarNames(path, paths);
}

const ERRORS: ReadonlySet<string> = new Set([
  "syntax",
  "edition-newer",
  "unknown-name",
  "wrong-type",
  "wrong-unit",
  "missing-unit",
  "out-of-range",
  "section-misplaced",
]);

/** Whether a file, or one that it uses, has errors that no note accepts, its `use` lines included. */
function hasErrors(script: Script, workspace: Workspace): boolean {
  const seen = new Set<Script>([script]);
  // A set is walked in the order of adding, what is added on the way included.
  for (const each of seen) {
    if (hasOwnErrors(each)) return true;
    for (const use of each.uses) {
      if (ownProblem(each, use, workspace)) return true;
      const target = workspace.target(each, use);
      if (target.kind === "script") seen.add(target.script);
    }
  }
  return false;
}

/** Whether the lines of a file have errors, apart from what it uses. */
function hasOwnErrors(script: Script): boolean {
  const accepted = (code: string, line: number) => script.noteOf(line).allowances.some((each) => each.code === code);
  const never = (code: string) => code === "syntax" || code === "unknown-name" || code === "edition-newer";
  if (script.issues.some(({ code, span }) => ERRORS.has(code) && (never(code) || !accepted(code, span.line))))
    return true;
  const controls = [
    ...sharedChannels(script).map((report) => ({ code: "channel-shared", report })),
    ...alikePositions(script).map((report) => ({ code: "positions-alike", report })),
  ];
  return controls.some(
    ({ code, report }) =>
      !accepted(code, report.at.source.line) && !report.alsoOf?.some(({ line }) => accepted(code, line)),
  );
}
