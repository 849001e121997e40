/** What a rule of single files may ask about all others. */
import { oncePer } from "../../model/memo.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { acceptedBy, linesOf } from "./acceptance.ts";
import { idleAllowances } from "./idle-allowances.ts";
import { isErrorAt } from "./levels.ts";
import { rules } from "./registry.generated.ts";
import type { BothRule, FileRule, OtherRules, Report } from "./rule.ts";

export const fileRules = rules.filter((rule): rule is FileRule | BothRule => rule.scope !== "craft");
const blockingRules = fileRules.filter((rule) => rule.blocksUse);
const codes = rules.map(({ code }) => code);
const byCode = new Map(rules.map((rule) => [rule.code, rule]));

/** The one answer for all rules that look at the files as they are. */
export const otherRules = oncePer((workspace: Workspace): OtherRules => {
  const known = new Map<Script, boolean>();
  // What is not shown as an error of the used file is none of its users' either.
  const blocking = blockingRules.filter((rule) => isErrorAt(rule, workspace.levels));
  return {
    codes,
    mayAccept: (code) => byCode.get(code)?.acceptable !== false,
    blockUse(script) {
      const blocked = known.get(script) ?? blocking.some((rule) => isBlocked(rule, script, workspace));
      known.set(script, blocked);
      return blocked;
    },
    idle: (script) => idleAllowances(script, workspace, byCode, (rule, each) => reportsOf(rule, each, workspace)),
  };
});

/** What a rule of single files reports of one, before notes accept any of it. */
export function reportsOf(rule: FileRule | BothRule, script: Script, workspace: Workspace): readonly Report[] {
  if (script.tree.newer && !rule.readsNewer) return [];
  return rule.scope === "file"
    ? rule.check(script, workspace, otherRules(workspace, undefined))
    : rule.checkFile(script, workspace);
}

/** Whether a rule finds something that the file itself does not accept. */
function isBlocked(rule: FileRule | BothRule, script: Script, workspace: Workspace): boolean {
  return reportsOf(rule, script, workspace).some(
    (report) => acceptedBy(rule, linesOf(report), [script], workspace).length === 0,
  );
}
