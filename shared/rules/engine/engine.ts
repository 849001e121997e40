/** Runs all rules on a file: what they find, where it is shown, and what a note accepts. */

import type { Craft, Source } from "../../model/craft.ts";
import { isAsRead } from "../../model/listened-craft.ts";
import { perFile } from "../../model/memo.ts";
import { listenTo, type Reads } from "../../model/reads.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding, PlaceRange, RelatedPlace } from "../../protocol/findings.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { withItsLine } from "../lib/words-of-place.ts";
import { acceptedBy, linesInCraft, linesOf, scriptsOf, shownIn } from "./acceptance.ts";
import { certainReports } from "./certain.ts";
import { levelled } from "./levels.ts";
import { fileRules, otherRules, reportsOf } from "./other-rules.ts";
import { rules } from "./registry.generated.ts";
import type { Location, Report, Rule } from "./rule.ts";

/**
 * All findings of a file: by the rules of single files and, for a craft, by those of a whole
 * craft, at the levels that the workspace has for them. Sorted by place and code. `handset`
 * replaces the craft's own.
 */
export function findingsOf(workspace: Workspace, file: string, handset?: string): Finding[] {
  return finish(findingSteps(workspace, file, handset));
}

/** The same rule by rule: all of them take a tenth of a second on the longest craft that is read for the first time. */
export function* findingSteps(workspace: Workspace, file: string, handset?: string): Steps<Finding[]> {
  const found = withSafeFixes(yield* foundIn(workspace, file, handset), workspace);
  return levelled(withLineEnds(found, workspace), workspace.levels);
}

/** No fix writes to a file that holds other bytes than the text which is shown of it: to save that would lose them. */
function withSafeFixes(found: Finding[], { view }: Workspace): Finding[] {
  const isSafe = ({ edits }: Finding["fixes"][number]) =>
    edits.every(({ file }) => {
      const answer = view.read(file);
      return answer?.kind !== "text" || answer.validUtf8;
    });
  if (found.every(({ fixes }) => fixes.every(isSafe))) return found;
  return found.map((finding) => ({ ...finding, fixes: finding.fixes.filter(isSafe) }));
}

/** A fix that writes a line more gives it the line end of its file; a reader of a single line does not know that. */
function withLineEnds(found: Finding[], workspace: Workspace): Finding[] {
  const writesLines = ({ edits }: Finding["fixes"][number]) => edits.some(({ text }) => /[\r\n]/.test(text));
  if (!found.some(({ fixes }) => fixes.some(writesLines))) return found;
  return found.map((finding) => {
    if (!finding.fixes.some(writesLines)) return finding;
    const fixes = finding.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => {
        const tree = workspace.script(edit.file)?.tree;
        return tree ? { ...edit, text: edit.text.replace(/\r\n|\r|\n/g, lineEnd(tree, edit.range.start.line)) } : edit;
      }),
    }));
    return { ...finding, fixes };
  });
}

/** The findings at their rules' own severities. */
function* foundIn(workspace: Workspace, file: string, handset: string | undefined): Steps<Finding[]> {
  const script = workspace.script(file);
  if (!script) return [];
  const found = fileFindings(workspace, script);
  if (script.tree.newer) return found;
  const craft = workspace.craft(file, handset);
  if (!craft) return found;
  const ofCraft = yield* craftFindings(workspace, craft);
  return sorted([...found, ...standInFindings(workspace, script, handset), ...ofCraft]);
}

function standInFindings(workspace: Workspace, script: Script, handset: string | undefined): Finding[] {
  const standIn = handset === undefined ? undefined : workspace.script(handset);
  if (!standIn) return [];
  const others = otherRules(workspace, undefined);
  return rules.flatMap((rule) => {
    const reports = rule.scope === "file" ? rule.checkStandIn?.(script, standIn, workspace, others) : undefined;
    return reports?.map((report) => toFinding(rule, report, report.at)) ?? [];
  });
}

/** The findings of the rules of single files, at their own severities. A file in a newer edition has only the finding that says so. */
export function fileFindings(workspace: Workspace, script: Script): Finding[] {
  return sorted(
    fileRules.flatMap((rule) => {
      const reports = reportsOf(rule, script, workspace);
      if (reports.length === 0) return [];
      const scripts = scriptsOf(script, workspace);
      return reports
        .filter((report) => acceptedBy(rule, linesOf(report), scripts, workspace).length === 0)
        .map((report) => toFinding(rule, report, report.at));
    }),
  );
}

/** Of the rules that rest on more than a craft's files, on what. */
const restsOn = rules.flatMap((rule) => (rule.scope === "file" ? [] : (rule.restsOn ?? [])));

/** What a rule found in the craft of a file, and what that rests on. */
interface Found {
  readonly reads: Reads;
  readonly also: unknown;
  readonly findings: readonly Finding[];
}

/** The last findings of each rule in the craft of a file. */
const lastFound = perFile(() => new Map<Rule, Found>());

/**
 * The findings of the rules of a whole craft; computed once for each craft and what else they rest on. With a key most
 * rules read what they read before, and their findings are the same.
 */
function* craftFindings(workspace: Workspace, craft: Craft): Steps<readonly Finding[]> {
  const also = restsOn.map((on) => on(craft, workspace));
  const known = craft.memo.get(craftFindings);
  if (known && also.every((each, i) => each === (known.also as typeof also)[i]))
    return known.answer as readonly Finding[];
  const last = lastFound(craft);
  const findings: Finding[] = [];
  for (const rule of rules) {
    if (rule.scope === "file") continue;
    const rests = rule.restsOn?.(craft, workspace);
    let found = last.get(rule);
    if (!found || found.also !== rests || !isAsRead(found.reads, craft, workspace.script)) {
      yield;
      const { answer, reads } = listenTo(craft, () => findingsOfRule(rule, craft, workspace));
      found = { reads, also: rests, findings: answer };
      last.set(rule, found);
    }
    for (const each of found.findings) findings.push(each);
  }
  craft.memo.set(craftFindings, { also, answer: findings });
  return findings;
}

function findingsOfRule(rule: Rule, craft: Craft, workspace: Workspace): Finding[] {
  const findings: Finding[] = [];
  for (const report of certainReports(rule, craft, workspace)) {
    if (acceptedBy(rule, linesInCraft(report, craft), craft.scripts, workspace).length > 0) continue;
    const shown = shownIn(report, craft);
    const at = "source" in shown ? shown : useLocation(shown, craft);
    findings.push(toFinding(rule, { ...report, message: messageAt(at, report, craft, workspace) }, at));
  }
  return findings;
}

/** The `use` line that leads to what a finding is about. */
function useLocation(source: Source, craft: Craft): Location {
  const use = craft.script.uses.find((each) => each.line === source.line);
  const text = craft.script.tree.lines[source.line]?.text ?? "";
  return { source, start: use?.at.start ?? 0, end: use?.at.end ?? text.length };
}

/** The message of a finding, with the line that it is about where that is in another file. */
function messageAt(shown: Location, { at, message }: Report, craft: Craft, workspace: Workspace): string {
  return at.source.file === craft.file ? message : withItsLine(message, at.source, shown.source, craft, workspace);
}

/** What the first related place of a finding says that is shown elsewhere than at the line that it is about. */
export const ITS_LINE = "This line says so";

function toFinding(rule: Rule, report: Report, shown: Location): Finding {
  const related: RelatedPlace[] = (report.related ?? [])
    .filter(({ at }) => at !== shown)
    .map(({ message, at }) => ({ message, ...fileRange(at) }));
  if (shown !== report.at) related.unshift({ message: ITS_LINE, ...fileRange(report.at) });
  const { file } = report.at.source;
  const fixes = (report.fixes ?? []).map(({ title, edits, certain }) => ({
    title,
    edits: edits.map((edit) => ({ file, ...edit })),
    ...(certain && { certain }),
  }));
  return {
    code: rule.code,
    severity: report.severity ?? rule.severity,
    message: report.message,
    ...fileRange(shown),
    related,
    fixes,
    ...(report.witness && { witness: report.witness }),
  };
}

function fileRange({ source, start, end }: Location): { file: string; range: PlaceRange } {
  return { file: source.file, range: rangeOf(spanAt(source.line, { start, end })) };
}

function sorted(findings: Finding[]): Finding[] {
  return findings.sort(
    (a, b) =>
      a.range.start.line - b.range.start.line ||
      a.range.start.character - b.range.start.character ||
      (a.code < b.code ? -1 : a.code > b.code ? 1 : 0) ||
      (a.message < b.message ? -1 : 1),
  );
}
