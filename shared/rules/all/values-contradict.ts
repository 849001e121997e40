import type { Catalogue } from "../../catalogue/catalogue.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { comparedModes, comparedSettings } from "../lib/comparison-plan.ts";
import { comparisonReports } from "../lib/comparisons.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";
import { isIdle } from "../lib/met-needs.ts";
import { lineInWords } from "../lib/words-of-place.ts";

const EXCLUDING: NameGroup = {
  words: "every setting that excludes another",
  names: ({ sections }) =>
    sections.flatMap((section) =>
      section.settings.flatMap(({ name, excludes = [] }) =>
        excludes.length === 0 ? [] : [`${section.name}.${name}`, ...excludes.map(({ setting }) => setting)],
      ),
    ),
};

interface Exclusion {
  readonly path: string;
  readonly excluded: string;
  readonly reason: string;
}

const exclusionsKnown = new WeakMap<Catalogue, readonly Exclusion[]>();

/** The few settings among all that exclude another; the same list for the same catalogue. */
function exclusionsIn(catalogue: Catalogue): readonly Exclusion[] {
  let found = exclusionsKnown.get(catalogue);
  if (!found) {
    found = catalogue.sections.flatMap((section) =>
      section.settings.flatMap(({ name, excludes = [] }) =>
        excludes.map(({ setting, reason }) => ({ path: `${section.name}.${name}`, excluded: setting, reason })),
      ),
    );
    exclusionsKnown.set(catalogue, found);
  }
  return found;
}

export const rule: CraftRule = {
  code: "values-contradict",
  severity: "error",
  scope: "craft",
  summary: "Two values cannot both be true of one craft.",
  prose:
    "One of the two was misread, was written with the wrong unit, stands in the other's line, or came from another craft. Either way the craft does something else than the script says: a warning never comes, a filter does nothing, a curve is not the one that was meant. The page of each of the two settings says how they hang together. Look both of them up, and correct the one that is wrong.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  capacity 1100 mAh\n  warn-after 1500 mAh\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  capacity 1500 mAh\n  warn-after 1100 mAh\n' },
  },
  looksAt: {
    settings: [comparedSettings("values-contradict", "every setting that is compared with another"), EXCLUDING],
    modes: comparedModes("values-contradict"),
  },
  check: (craft, workspace) => [
    ...comparisonReports(craft, workspace, "values-contradict"),
    ...exclusionsIn(workspace.catalogue).flatMap(({ path, excluded, reason }) => {
      const [one, other] = [settingOf(craft, path), settingOf(craft, excluded)];
      if (!one?.value || !other?.value || isIdle(one.value) || isIdle(other.value)) return [];
      return [
        {
          at: valueLocation(workspace, one.source),
          severity: "warning" as const,
          message: `${one.name} and ${other.name} (${lineInWords(other.source, craft)}) do not go together. ${reason} Take one of them.`,
          ...restingOn([other], workspace),
        },
      ];
    }),
  ],
};
