/** Which `allow` comments of a file silence nothing, in it or in any craft that uses it. */
import type { Craft } from "../../model/craft.ts";
import { NOT_UNDERSTOOD } from "../../model/line-faults.ts";
import { perCore } from "../../model/memo.ts";
import type { Allowance, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { acceptedBy, linesInCraft, linesOf, scriptsOf } from "./acceptance.ts";
import type { BothRule, FileRule, Report, Rule } from "./rule.ts";

/** More craft than most pilots have: over so many a layer is not judged, since each key in it might look through them all. */
const MOST_CRAFTS = 40;

/** Codes of findings after which nothing can be concluded from the silence of other rules. */
const MISUNDERSTOOD: ReadonlySet<string> = new Set([...NOT_UNDERSTOOD, "edition-newer"]);

/** Findings on a whole craft after which other rules stay silent. */
const UNKNOWING = ["condition-tangled", "condition-cycle", "unknown-name", "wrong-type"];

type FileReports = (rule: FileRule | BothRule, script: Script) => readonly Report[];

/**
 * The allowances that silence nothing, for certain. None while that is not known: where a craft that
 * uses the file cannot be seen, was not read whole or has a condition too tangled to follow, or
 * where a rule rests on more than the files.
 */
export function idleAllowances(
  script: Script,
  workspace: Workspace,
  ruleOf: ReadonlyMap<string, Rule>,
  fileReports: FileReports,
): readonly Allowance[] {
  const idle = new Set(
    script.allowances.filter(({ code, holds }) => {
      const rule = ruleOf.get(code);
      return holds !== "nothing" && rule && rule.acceptable !== false && !rule.restsOnMore;
    }),
  );
  if (idle.size === 0) return [];
  if (script.kind === "dialect") {
    dismissInFile(script, { workspace, idle, ruleOf, fileReports });
    return isReadWhole(script, ruleOf, fileReports) ? [...idle] : [];
  }
  const users = script.kind === "craft" ? [script.file] : workspace.craftFilesWith(script.file);
  if (users.length === 0 || users.length > MOST_CRAFTS) return [];
  const judge = { workspace, idle, ruleOf, fileReports };
  dismissInFile(script, judge);
  // What silenced something before the last key most likely does so again, and then no other craft is asked.
  const useful = usefulCraft(workspace.craft(users[0]!)!);
  const last = useful.get(script.file);
  const inOrder = last !== undefined && users.includes(last) ? [last, ...users.filter((each) => each !== last)] : users;
  for (const file of inOrder) {
    if (idle.size === 0) return [];
    if (dismissInCraft(workspace.craft(file)!, judge)) useful.set(script.file, file);
  }
  if (idle.size === 0) return [];
  const isKnown =
    (script.kind === "craft" || isSeen(script, workspace)) &&
    users.every((file) => isUnderstood(workspace.craft(file)!, workspace, ruleOf));
  return isKnown ? [...idle] : [];
}

/** Whether every line of a dialect, which no craft uses, is understood. */
function isReadWhole(script: Script, ruleOf: ReadonlyMap<string, Rule>, fileReports: FileReports): boolean {
  return ["syntax", "unknown-name"].every((code) => {
    const rule = ruleOf.get(code);
    return !rule || rule.scope === "craft" || fileReports(rule, script).length === 0;
  });
}

/** By the file of a layer, the craft on which its notes silenced something last: it only decides who is asked first. */
const usefulCraft = perCore(() => new Map<string, string>());

interface Judge {
  readonly workspace: Workspace;
  /** What has silenced nothing so far. */
  readonly idle: Set<Allowance>;
  readonly ruleOf: ReadonlyMap<string, Rule>;
  readonly fileReports: FileReports;
}

/** Dismisses what silences something that is reported of a file by itself; gives whether there was such. */
function dismissInFile(script: Script, { workspace, idle, ruleOf, fileReports }: Judge): boolean {
  const before = idle.size;
  const scripts = scriptsOf(script, workspace);
  for (const rule of rulesOf(idle, ruleOf)) {
    if (rule.scope === "craft") continue;
    for (const report of fileReports(rule, script))
      for (const each of acceptedBy(rule, linesOf(report), scripts, workspace)) idle.delete(each);
  }
  return idle.size < before;
}

/** Dismisses what silences something that is reported of a craft; gives whether there was such. */
function dismissInCraft(craft: Craft, judge: Judge): boolean {
  const { workspace, idle, ruleOf } = judge;
  const before = idle.size;
  dismissInFile(craft.script, judge);
  for (const rule of rulesOf(idle, ruleOf)) {
    for (const report of craftReports(rule, craft, workspace))
      for (const each of acceptedBy(rule, linesInCraft(report, craft), craft.scripts, workspace)) idle.delete(each);
  }
  return idle.size < before;
}

function rulesOf(allowances: ReadonlySet<Allowance>, ruleOf: ReadonlyMap<string, Rule>): ReadonlySet<Rule> {
  return new Set([...allowances].map(({ code }) => ruleOf.get(code)!));
}

/** What a rule reports of a whole craft, before notes accept any of it. */
export function craftReports(rule: Rule, craft: Craft, workspace: Workspace): readonly Report[] {
  if (rule.scope === "craft") return rule.check(craft, workspace);
  return rule.scope === "both" ? rule.checkCraft(craft, workspace) : [];
}

/** Whether every script of the workspace that may use this one has been read. */
function isSeen(script: Script, { view, script: scriptOf }: Workspace): boolean {
  if (!view.listsUsersOf(script.file)) return false;
  return view.list().every((file) => {
    const each = scriptOf(file);
    return each !== null && !each.tree.newer;
  });
}

/** Whether all of a craft was read and can be followed, so that the silence of a rule means something. */
function isUnderstood(craft: Craft, workspace: Workspace, ruleOf: ReadonlyMap<string, Rule>): boolean {
  const isWhole =
    craft.gaps.length === 0 && !craft.scripts.some(({ issues }) => issues.some(({ code }) => MISUNDERSTOOD.has(code)));
  return isWhole && UNKNOWING.every((code) => craftReports(ruleOf.get(code)!, craft, workspace).length === 0);
}
