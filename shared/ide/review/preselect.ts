/** What is chosen before anybody has looked: nothing that would bring an error or a warning. */
import { type FoundAfter, isGrave, type Outcome } from "./outcome.ts";

/** How often what brings a finding is looked for by halves; what is then still not known is not chosen. */
const MOST_SEARCHES = 6;
/** A finding may show only once another is gone, as of a port that many names need: each of these costs one trial. */
const MOST_TRIALS = 48;

/**
 * Of `wanted` those with which nothing grave is new. `tryWith` says what is found with some of them; a finding that
 * stands on a line of theirs takes that one out, and one that stands elsewhere is traced by halves.
 */
export function withoutHarm(
  wanted: readonly string[],
  tryWith: (whats: readonly string[]) => Outcome,
): { readonly chosen: readonly string[]; readonly harmful: ReadonlyMap<string, FoundAfter> } {
  const harmful = new Map<string, FoundAfter>();
  let chosen = wanted;
  let searches = 0;
  for (let trial = 0; trial < MOST_TRIALS && searches < MOST_SEARCHES && chosen.length > 0; trial++) {
    const grave = tryWith(chosen).findings.filter(isGrave);
    if (grave.length === 0) return { chosen, harmful };
    const tied = grave.filter(({ what }) => what !== null);
    for (const each of tied) harmful.set(each.what!, each);
    if (tied.length > 0) chosen = chosen.filter((what) => !harmful.has(what));
    else {
      searches++;
      const blamed = chosen.length === 1 ? chosen : bringing(chosen, grave[0]!, tryWith);
      for (const what of blamed) harmful.set(what, grave[0]!);
      chosen = chosen.filter((what) => !harmful.has(what));
    }
  }
  if (chosen.length > 0 && tryWith(chosen).findings.some(isGrave)) return { chosen: [], harmful };
  return { chosen, harmful };
}

/** By halves, the name with which a finding comes; where it takes several, all that are left. */
function bringing(
  whats: readonly string[],
  finding: FoundAfter,
  tryWith: (whats: readonly string[]) => Outcome,
): readonly string[] {
  let suspects = whats;
  while (suspects.length > 1) {
    const half = Math.ceil(suspects.length / 2);
    const parts = [suspects.slice(0, half), suspects.slice(half)];
    const guilty = parts.find((part) =>
      tryWith(part).findings.some(
        (each) => each.isNew && each.code === finding.code && each.message === finding.message,
      ),
    );
    if (!guilty) return suspects;
    suspects = guilty;
  }
  return suspects;
}
