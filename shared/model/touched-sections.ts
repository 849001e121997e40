/** Which sections of a craft another text of its files touches. */
import type { Script } from "./script.ts";
import type { Plan } from "./uses.ts";

/**
 * The sections of which some line has changed between two plans. Null where more has changed than what sections say:
 * other files take part, sections came, went or moved, or lines that reach beyond their own section.
 */
export function touchedSections(before: Plan, now: Plan): ReadonlySet<string> | null {
  if (before.parts.length !== now.parts.length || before.handset?.file !== now.handset?.file) return null;
  const touched = new Set<string>();
  for (const [i, { script, viaLine }] of now.parts.entries()) {
    const old = before.parts[i]!;
    if (old.viaLine !== viaLine) return null;
    if (old.script !== script && !addTouched(touched, old.script, script)) return null;
  }
  // What a “drop” takes away, and what comes of it, is worked out over all sections at once.
  const isDropped = now.parts.some(({ script }) => script.drops.some(({ section }) => touched.has(section)));
  return isDropped ? null : touched;
}

/** Adds the sections that differ between two texts of a file; false where more does. */
function addTouched(touched: Set<string>, old: Script, script: Script): boolean {
  const isAlike =
    old.file === script.file &&
    old.kind === script.kind &&
    old.tree.header === script.tree.header &&
    old.readings.length === script.readings.length;
  if (!isAlike) return false;
  for (const [i, reading] of script.readings.entries()) {
    const known = old.readings[i]!;
    if (known === reading) continue;
    const { section, line, known: isKnown, misplaced, cleared } = reading.about;
    const isSame =
      known.about.section === section &&
      known.about.line === line &&
      known.about.known === isKnown &&
      known.about.misplaced === misplaced &&
      known.about.cleared === cleared;
    if (!isSame || [known, reading].some(({ drops, kept }) => drops.length + kept.length > 0)) return false;
    touched.add(section);
  }
  return true;
}
