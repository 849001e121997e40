/** What can be wrong with a `use` line: one finding a line, the gravest first. */
import type { Script, Use } from "../model/script.ts";
import { leadsBack } from "../model/uses.ts";
import type { Workspace } from "../model/workspace.ts";
import { alikePositions, sharedChannels } from "./controls.ts";
import { spotOf } from "./spots.ts";
import type { Report } from "./types.ts";

export type UseCode = "use-missing" | "use-kind" | "use-cycle" | "use-broken";

/** The findings of one code on the `use` lines of a file. */
export function useReports(script: Script, workspace: Workspace, code: UseCode): Report[] {
  return script.uses.flatMap((use) => {
    const problem = problemOf(script, use, workspace);
    return problem?.code === code ? [{ at: spotOf(script.file, use.at), message: problem.message }] : [];
  });
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
        at: spotOf(script.file, use.at),
        message: `This file is used already on line ${before.line + 1}, and its first place counts: remove one of the lines.`,
        related: [{ message: "It is used here first", at: spotOf(script.file, before.at) }],
      },
    ];
  });
}

interface Problem {
  readonly code: UseCode;
  readonly message: string;
}

function problemOf(script: Script, use: Use, workspace: Workspace, onTheWay: readonly Script[] = []): Problem | null {
  if (use.path === null) return null;
  const target = workspace.target(script, use);
  if (target.kind === "unread") return null;
  if (target.kind === "none") return { code: "use-missing", message: `“${use.path}” cannot be used: ${target.why}.` };
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
  if (hasErrors(used, workspace, onTheWay)) {
    return {
      code: "use-broken",
      message: `“${use.path}” has errors of its own, and what they touch is missing here: open it and mend it there.`,
    };
  }
  return null;
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

/** Whether a file by itself has errors that no note accepts, its own `use` lines included. */
function hasErrors(script: Script, workspace: Workspace, onTheWay: readonly Script[]): boolean {
  if (onTheWay.includes(script)) return false;
  const accepted = (code: string, line: number) => script.noteOf(line).allowances.some((each) => each.code === code);
  const never = (code: string) => code === "syntax" || code === "unknown-name" || code === "edition-newer";
  if (script.issues.some(({ code, span }) => ERRORS.has(code) && (never(code) || !accepted(code, span.line))))
    return true;
  const controls = [
    ...sharedChannels(script).map((report) => ({ code: "channel-shared", report })),
    ...alikePositions(script).map((report) => ({ code: "positions-alike", report })),
  ];
  if (controls.some(({ code, report }) => !accepted(code, report.at.source.line))) return true;
  return script.uses.some((use) => problemOf(script, use, workspace, [...onTheWay, script]) !== null);
}
