/** Finds in the commits of a craft when each check on the bench was made, and what has changed since. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import type { CommitWords, CoveredValue, PastCheck, PastChecks } from "../../model/past.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Core } from "../../model/workspace.ts";
import type { Steps } from "../../text/steps.ts";
import { BENCH_CHECKS } from "./bench-checks.ts";
import { coveredBy } from "./covered-by.ts";

/**
 * A craft as one commit has it. The craft is the same object for as long as nothing of it has changed, and of the commits
 * in a row that have the same one only the first need be here.
 */
export interface PastCraft {
  readonly commit: CommitWords;
  /** Null where it cannot be read. */
  readonly craft: Craft | null;
  /** The commits before it; of a merge several. */
  before(): readonly PastCraft[];
}

/** Further back nobody looks: more commits than come after a check that still counts. */
const MOST_COMMITS = 3000;

/**
 * The checks of a craft as it is committed last. What a check covers is taken from the last commit of its day, or from
 * the one that first said the day, whichever is later, as a check may be written down after it was made. Where lines of
 * commits came together, the one that has the check is followed.
 */
export function* pastChecks(last: PastCraft, catalogue: Catalogue): Steps<PastChecks> {
  const found = new Map<string, PastCheck>();
  if (!last.craft) return found;
  for (const check of BENCH_CHECKS) {
    const day = dayOf(last.craft, check.name);
    if (day === null) continue;
    const valuesOf = valuesFor((craft) => coveredBy(check, craft, catalogue), catalogue);
    const now = valuesOf(last.craft);
    const since = new Map<string, { commit: CommitWords; value: CoveredValue | null }>();
    let at = last;
    for (let i = 0; i < MOST_COMMITS && at.commit.day > day; i++) {
      const before = at.before().find(({ craft }) => craft && dayOf(craft, check.name) === day);
      if (!before) break;
      if (before.craft !== at.craft) {
        const [a, b] = [valuesOf(before.craft!), valuesOf(at.craft!)];
        for (const name of changedNames(a, b))
          if (!since.has(name)) since.set(name, { commit: at.commit, value: now.get(name) ?? null });
      }
      at = before;
      yield;
    }
    found.set(check.name, { day, onDay: valuesOf(at.craft!), since });
  }
  return found;
}

/** What reads scripts of the past and finds their checks; whoever knows git is given it. */
export interface PastReader {
  readonly core: Core;
  checks(last: PastCraft): Steps<PastChecks>;
}

/** `core` is one of its own, so that what is remembered of the scripts as they are now is not pushed out. */
export function pastReader(core: Core): PastReader {
  return { core, checks: (last) => pastChecks(last, core.catalogue) };
}

/** The day of a check; null where none is said. */
export function dayOf(craft: Craft, check: string): string | null {
  const setting = settingOf(craft, check);
  return setting?.value?.kind === "date" ? setting.value.date : null;
}

/** The names that are known on both sides, and not the same. Hardware without a default that only one of them says is no change. */
export function changedNames(a: ReadonlyMap<string, CoveredValue>, b: ReadonlyMap<string, CoveredValue>): string[] {
  return [...b].flatMap(([name, { meaning }]) => {
    const before = a.get(name);
    return before && before.meaning !== null && meaning !== null && before.meaning !== meaning ? name : [];
  });
}

/** What is certain of a craft: of what a missing file may say nothing is known. */
export function valuesFor(covered: (craft: Craft) => Map<string, CoveredValue>, catalogue: Catalogue) {
  return (craft: Craft): Map<string, CoveredValue> => {
    const values = covered(craft);
    if (craft.gaps.length === 0) return values;
    const known = covered(knownPart(craft, catalogue));
    return new Map(
      [...values].map(([name, value]) => [
        name,
        known.get(name)?.meaning === value.meaning ? value : { ...value, meaning: null },
      ]),
    );
  };
}
