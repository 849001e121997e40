/** How many findings a script has, remembered for as long as nothing changes that they rest on. */
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding, Severity } from "../../protocol/findings.ts";
import type { FindingCounts } from "../../protocol/workspace-tree.ts";
import { findingsOf } from "../../rules/engine/engine.ts";

/** By file: the findings, and all that they rest on. */
export type CountedFindings = Map<string, { readonly restsOn: readonly unknown[]; readonly counts: FindingCounts }>;

/** The counts of a script's findings, of a craft with those of the whole craft. */
export function countFindings(workspace: Workspace, script: Script, known: CountedFindings): FindingCounts {
  const restsOn = [workspace.catalogue, workspace.levels, ...filesBehind(workspace, script)];
  const before = known.get(script.file);
  if (before && isSame(before.restsOn, restsOn)) return before.counts;
  const counts = countsOf(findingsOf(workspace, script.file));
  known.set(script.file, { restsOn, counts });
  return counts;
}

/** As much of a finding as is counted. */
export type Weighed = Pick<Finding, "severity" | "range">;

/** Findings by their severity; `worst` is the first of the gravest. */
export function countsOf(findings: readonly Weighed[]): FindingCounts {
  const of = (severity: Severity) => findings.filter((each) => each.severity === severity);
  const [errors, warnings, infos, hints] = (["error", "warning", "info", "hint"] as const).map(of);
  const first = [...errors!, ...warnings!, ...infos!, ...hints!][0];
  return {
    errors: errors!.length,
    warnings: warnings!.length,
    infos: infos!.length,
    hints: hints!.length,
    worst: first ? { severity: first.severity, line: first.range.start.line } : null,
  };
}

/**
 * The script with every script that it leads to, and why it does not lead further. Whether a note of
 * a layer silences anything is for all craft to say: its findings rest on all scripts.
 */
function filesBehind(workspace: Workspace, script: Script): unknown[] {
  if (script.kind !== "craft" && script.allowances.length > 0)
    return workspace.view.list().map((file) => workspace.script(file));
  const behind: unknown[] = [];
  const seen = new Set<Script>();
  const pending = [script];
  for (let each = pending.pop(); each; each = pending.pop()) {
    if (seen.has(each)) continue;
    seen.add(each);
    behind.push(each);
    for (const use of each.uses) {
      const target = workspace.target(each, use);
      if (target.kind === "script") pending.push(target.script);
      else behind.push(target.kind === "none" ? target.why : target.file);
    }
  }
  return behind;
}

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => each === b[i]);
}
