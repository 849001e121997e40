/** The names that rules declare to look at. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { LookedAtKind, LooksAt } from "./rule.ts";

/** The declared names of one kind; those of groups are listed one by one. */
export function declaredNames(looksAt: LooksAt, kind: LookedAtKind, catalogue: Catalogue): string[] {
  const named = (looksAt[kind] ?? []).flatMap((each) => (typeof each === "string" ? each : each.names(catalogue)));
  return [...new Set(named)].sort();
}
