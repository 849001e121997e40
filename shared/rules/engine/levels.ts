/** The level at which findings of a rule are shown, where a user sets it: read, refused in words, and applied. */
import { RULE_LEVELS, type RuleLevel, type RuleLevels } from "../../model/rule-levels.ts";
import { similarNames } from "../../model/similar-names.ts";
import type { Finding } from "../../protocol/findings.ts";
import { rules } from "./registry.generated.ts";
import type { Rule } from "./rule.ts";

const byCode: ReadonlyMap<string, Rule> = new Map(rules.map((rule) => [rule.code, rule]));

export type LevelRead =
  | { readonly kind: "level"; readonly level: RuleLevel }
  /** Why it cannot be so, as the end of a sentence that names the setting or the option. */
  | { readonly kind: "refused"; readonly why: string };

/** The levels that a rule may be set to: one that no note may accept is shown in any case, at whatever severity. */
export function levelsFor({ acceptable }: Pick<Rule, "acceptable">): readonly RuleLevel[] {
  return acceptable === false ? RULE_LEVELS.filter((level) => level !== "off") : RULE_LEVELS;
}

/** Reads the level of one rule, as a setting or an argument says it. */
export function readLevel(code: string, said: unknown): LevelRead {
  const rule = byCode.get(code);
  if (!rule) {
    const [near] = similarNames(code, [...byCode.keys()], 1);
    return refused(`there is no rule “${code}”${near ? `: did you mean ${near}?` : ""}`);
  }
  const level = RULE_LEVELS.find((each) => each === said);
  const levels = levelsFor(rule);
  if (level !== undefined && levels.includes(level)) return { kind: "level", level };
  const choices = `${levels.slice(0, -1).join(", ")} or ${levels.at(-1)}`;
  if (level === undefined)
    return refused(`${code} is set to ${choices}, not to ${typeof said === "string" ? `“${said}”` : "anything else"}`);
  return refused(`${code} cannot be turned off, since its findings say what was not understood: set it to ${choices}`);
}

function refused(why: string): LevelRead {
  return { kind: "refused", why };
}

/** The severity of a finding, by the levels that are set; null where it is not shown. */
function severityAt({ code, severity }: Pick<Finding, "code" | "severity">, levels: RuleLevels) {
  const level = levels.get(code) ?? severity;
  return level === "off" ? null : level;
}

/** Findings as they are shown by these levels. Rules, and what they keep, know nothing of levels: this is applied last. */
export function levelled(findings: Finding[], levels: RuleLevels): Finding[] {
  if (levels.size === 0) return findings;
  return findings.flatMap((finding) => {
    const severity = severityAt(finding, levels);
    if (severity === null) return [];
    return severity === finding.severity ? finding : { ...finding, severity };
  });
}

/** Whether what a rule finds in a file counts as an error of that file, by these levels. */
export function isErrorAt({ code, severity }: Rule, levels: RuleLevels): boolean {
  return (levels.get(code) ?? severity) === "error";
}
