/** What a rule looks at, as it declares it beside its check; the pages of the reference say so at both ends. */
import type { Catalogue } from "../../catalogue/catalogue.ts";

/** A setting as SECTION.NAME. Of a second set, such as `gains-second`, the name in the first set stands for both. */
export type SettingName = `${string}.${string}`;

/** All names of the catalogue that have something in common, so that a name that is added later is among them. */
export interface NameGroup {
  /** As a sentence goes on after “It looks at”: “every port”. */
  readonly words: string;
  names(catalogue: Catalogue): readonly string[];
}

/**
 * The names on which the findings of a rule depend. Left out is what it takes from every line alike, and what
 * any reasoning about switches needs to know of the link. `tests/rules/engine/looks-at.test.ts` compares
 * this with what the check asks for.
 */
export interface LooksAt {
  readonly settings?: readonly (SettingName | NameGroup)[];
  readonly modes?: readonly (string | NameGroup)[];
  readonly elements?: readonly (string | NameGroup)[];
}

export type LookedAtKind = keyof LooksAt;

/** The names of one kind that are declared, those of groups one by one. */
export function declaredNames(looksAt: LooksAt, kind: LookedAtKind, catalogue: Catalogue): string[] {
  const named = (looksAt[kind] ?? []).flatMap((each) => (typeof each === "string" ? each : each.names(catalogue)));
  return [...new Set(named)].sort();
}
