/** How the findings of a rule are shown, where whoever looks at them wants it otherwise than the rule says. */

/** A severity, or “off”: not shown at all. */
export const RULE_LEVELS = ["off", "hint", "info", "warning", "error"] as const;
export type RuleLevel = (typeof RULE_LEVELS)[number];

/** By the code of the rule; a rule that is not here keeps its own severity. */
export type RuleLevels = ReadonlyMap<string, RuleLevel>;

export const OWN_LEVELS: RuleLevels = new Map();
