/** What rules report of a craft, without what may come of a part that is missing. */
import type { Craft } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import type { Workspace } from "../../model/workspace.ts";
import { craftReports } from "./idle-allowances.ts";
import type { Report, Rule } from "./rule.ts";

/**
 * What a rule reports of a whole craft, before notes accept any of it. Where a used file is missing or has faults, only
 * what the rule reports as well of the craft in which nothing is known of what may be missing: in the same words, or
 * where the words rest on what is missing, in those that do not.
 */
export function certainReports(rule: Rule, craft: Craft, workspace: Workspace): readonly Report[] {
  const reports = craftReports(rule, craft, workspace);
  if (craft.gaps.length === 0 || reports.length === 0) return reports;
  const known = craftReports(rule, knownPart(craft, workspace.catalogue), workspace);
  const certain = takeMatching(reports, known, (report) => `${placeOf(report)}\n${report.message}`);
  const reworded = takeMatching(
    known.filter((each) => !certain.known.has(each)),
    certain.rest,
    placeOf,
  );
  return [...certain.taken, ...reworded.taken];
}

/** Those of `reports` for each of which there is one of `known` with the same key, each of which counts once. */
function takeMatching(reports: readonly Report[], known: readonly Report[], keyOf: (report: Report) => string) {
  const free = new Map<string, Report[]>();
  for (const each of known) free.set(keyOf(each), [...(free.get(keyOf(each)) ?? []), each]);
  const used = new Set<Report>();
  const taken: Report[] = [];
  const rest: Report[] = [];
  for (const report of reports) {
    const match = free.get(keyOf(report))?.pop();
    if (match) used.add(match);
    (match ? taken : rest).push(report);
  }
  return { taken, rest, known: used };
}

function placeOf({ at: { source, start }, severity }: Report): string {
  return [source.file, source.line, start, severity].join("\n");
}
