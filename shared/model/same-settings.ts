/** Settings that are known again after a change of the lines around them. */
import type { Setting, Source } from "./craft.ts";

/** The settings of a section after a change of its lines: those of which nothing has changed are the objects from before. */
export function withSame(
  before: ReadonlyMap<string, Setting>,
  now: Map<string, Setting>,
): ReadonlyMap<string, Setting> {
  for (const [name, setting] of now) {
    const known = before.get(name);
    if (known && isSameSetting(known, setting)) now.set(name, known);
  }
  return now;
}

function isSameSetting(a: Setting | null, b: Setting | null): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  return (
    a.value === b.value &&
    a.text === b.text &&
    isSameSource(a.source, b.source) &&
    isSameItems(a.items, b.items) &&
    isSameFields(a.fieldSources, b.fieldSources) &&
    isSameSetting(a.before, b.before)
  );
}

function isSameItems(a: Setting["items"], b: Setting["items"]): boolean {
  if (a === null || b === null) return a === b;
  return (
    a.length === b.length &&
    a.every(({ value, source }, i) => value === b[i]!.value && isSameSource(source, b[i]!.source))
  );
}

function isSameFields(a: Setting["fieldSources"], b: Setting["fieldSources"]): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [field, source] of a) {
    const other = b.get(field);
    if (!other || !isSameSource(source, other)) return false;
  }
  return true;
}

function isSameSource(a: Source, b: Source): boolean {
  return a.line === b.line && a.file === b.file;
}
