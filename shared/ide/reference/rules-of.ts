/** Which rules look at which names, as the rules declare it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { declaredNames } from "../../rules/engine/looks-at.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import type { LookedAtKind, Rule } from "../../rules/engine/rule.ts";

type RulesByName = Readonly<Record<LookedAtKind, ReadonlyMap<string, readonly Rule[]>>>;

const known = new WeakMap<Catalogue, RulesByName>();

/** The rules that look at a name, besides those that look at every line alike. A setting is named as SECTION.NAME. */
export function rulesLookingAt(catalogue: Catalogue, kind: LookedAtKind, name: string): readonly Rule[] {
  let byName = known.get(catalogue);
  if (!byName) {
    byName = {
      settings: rulesByName(catalogue, "settings"),
      modes: rulesByName(catalogue, "modes"),
      elements: rulesByName(catalogue, "elements"),
    };
    known.set(catalogue, byName);
  }
  return byName[kind].get(name) ?? [];
}

function rulesByName(catalogue: Catalogue, kind: LookedAtKind): ReadonlyMap<string, readonly Rule[]> {
  const byName = new Map<string, Rule[]>();
  for (const rule of rules) {
    if (rule.scope === "file") continue;
    for (const name of declaredNames(rule.looksAt, kind, catalogue))
      byName.set(name, [...(byName.get(name) ?? []), rule]);
  }
  return byName;
}

/** What a rule looks at: names as code, then groups in words; empty for a rule that looks at all lines alike. */
export function lookedAtInWords(rule: Rule): string {
  if (rule.scope === "file") return "";
  const { settings = [], modes = [], elements = [] } = rule.looksAt;
  const all = [...settings, ...modes, ...elements];
  const names = all.filter((each) => typeof each === "string").sort();
  const groups = all.flatMap((each) => (typeof each === "string" ? [] : each.words));
  return [...names.map((name) => `\`${name}\``), ...groups].join(", ");
}
