/** What rules declare that they look at, name by name. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { LookedAtKind, LooksAt } from "./rule.ts";

/** The names of one kind that are declared, those of groups one by one. */
export function declaredNames(looksAt: LooksAt, kind: LookedAtKind, catalogue: Catalogue): string[] {
  const named = (looksAt[kind] ?? []).flatMap((each) => (typeof each === "string" ? each : each.names(catalogue)));
  return [...new Set(named)].sort();
}
