/** Holds merged lines of a dialect to their headings: each stands under the one that a side has it under. */
import type { Unit } from "./document.ts";
import type { Side } from "./match.ts";
import type { OrderedSides, OrderedStep } from "./ordered.ts";

interface Headings {
  readonly keyOf: (unit: Unit) => string;
  readonly isHeading: (unit: Unit) => boolean;
}

/** Whether every line stands under the heading that the side says which changed that. */
export function keepsHeadings(
  steps: readonly OrderedStep<Unit>[],
  sides: OrderedSides<Unit>,
  { keyOf, isHeading }: Headings,
): boolean {
  if (![sides.base, sides.ours, sides.theirs].some((units) => units.some(isHeading))) return true;
  const names = new Map<Unit, string>();
  for (const step of steps) {
    if (step.kind === "clash") continue;
    const { base, ours, theirs } = step;
    for (const unit of [base, ours, theirs]) if (unit) names.set(unit, keyOf((base ?? ours ?? theirs)!));
  }
  const nameOf = (unit: Unit) => names.get(unit) ?? keyOf(unit);
  const headingsOf = (units: readonly Unit[]) => {
    const found = new Map<string, string>();
    let heading = "";
    for (const unit of units) {
      if (isHeading(unit)) heading = nameOf(unit);
      else if (unit.kind === "fact") found.set(nameOf(unit), heading);
    }
    return found;
  };
  const heads = { base: headingsOf(sides.base), ours: headingsOf(sides.ours), theirs: headingsOf(sides.theirs) };
  for (const [name, head] of heads.base) {
    const [ours, theirs] = [heads.ours.get(name), heads.theirs.get(name)];
    // One side has the line no more, the other has it under another heading.
    if ((ours === undefined) !== (theirs === undefined) && (ours ?? theirs) !== head) return false;
  }
  // Below a conflict it is not known.
  let heading: string | null = "";
  for (const step of steps) {
    if (step.kind === "clash") {
      if ([...step.ours, ...step.theirs].some(isHeading)) heading = null;
      continue;
    }
    const unit = step.ours ?? step.theirs;
    // What one side has no more goes from here.
    if (!unit || (step.base && !(step.ours && step.theirs))) continue;
    if (isHeading(unit)) heading = nameOf(unit);
    else if (unit.kind === "fact" && heading !== null && heading !== saidHeading(heads, nameOf(unit))) return false;
  }
  return true;
}

/** The heading by the side that changed it; null where both did, in different ways. */
function saidHeading(heads: Readonly<Record<Side, ReadonlyMap<string, string>>>, name: string): string | null {
  const [base, ours, theirs] = [heads.base.get(name), heads.ours.get(name), heads.theirs.get(name)];
  if (ours === undefined || theirs === undefined || ours === theirs) return ours ?? theirs ?? null;
  if (ours === base) return theirs;
  return theirs === base ? ours : null;
}
