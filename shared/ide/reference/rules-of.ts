/**
 * Which rules look at which names, from a table that `npm run generate` makes by trying every rule.
 * Names are those of the language itself: of what a pilot's own catalogue adds no rule knows.
 */
import { RULE_NAMES } from "./rule-names.generated.ts";

const namesByRule: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries(RULE_NAMES).map(([code, names]) => [code, names.split(" ")]),
);

const rulesByName = new Map<string, string[]>();
for (const [code, names] of namesByRule)
  for (const name of names) rulesByName.set(name, [...(rulesByName.get(name) ?? []), code]);

/** Codes of the rules that look at a name: a setting as SECTION.NAME, a mode, an element. */
export function rulesLookingAt(name: string): readonly string[] {
  return rulesByName.get(name) ?? [];
}

/** What a rule looks at, in order of name; none for a rule that looks at every line alike. */
export function namesLookedAt(code: string): readonly string[] {
  return namesByRule.get(code) ?? [];
}
