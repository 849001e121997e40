/** The fixes that findings offer. */
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { type Range, touches } from "../../syntax/span.ts";

export interface OfferedFix {
  readonly finding: Finding;
  readonly title: string;
  readonly edits: Finding["fixes"][number]["edits"];
  /** True where it is the only fix of its finding, or the certain one; it is then offered as the preferred one. */
  readonly only: boolean;
}

/** A finding with positions of the controls that show it. */
export type WitnessedFinding = Finding & Required<Pick<Finding, "witness">>;

/** The fixes of every finding whose range touches this one. */
export function fixesAt(workspace: Workspace, file: string, range: Range): OfferedFix[] {
  return findingsOf(workspace, file)
    .filter((finding) => touches(finding.range, range))
    .flatMap((finding) =>
      finding.fixes.map(({ title, edits, certain }) => ({
        finding,
        title,
        edits,
        only: finding.fixes.length === 1 || certain === true,
      })),
    );
}

/** What is found of checks on the bench: the list says what to do then. */
const OF_BENCH: ReadonlySet<string> = new Set(["stale-check", "direction-unchecked"]);

/** The findings whose range touches this one and that the bench list answers. */
export function benchFindingsAt(workspace: Workspace, file: string, range: Range): Finding[] {
  return findingsOf(workspace, file).filter((each) => OF_BENCH.has(each.code) && touches(each.range, range));
}

/** The findings whose range touches this one and that have positions which show them. */
export function witnessedFindingsAt(workspace: Workspace, file: string, range: Range): WitnessedFinding[] {
  return findingsOf(workspace, file).flatMap((finding) => {
    const { witness } = finding;
    return witness && touches(finding.range, range) ? [{ ...finding, witness }] : [];
  });
}
