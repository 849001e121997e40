/** Duplicate entries: a line that sets what an earlier line of the same file has set. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { type Cols, type Fix, spanAt } from "../syntax/span.ts";
import type { Tree } from "../syntax/tree.ts";
import { baseOf } from "./craft.ts";
import type { Entry, Issue, SectionReading } from "./script.ts";

/**
 * One issue for each line that overrides an earlier one of the same file. Lines that combine are not
 * duplicates: conditions, different fields of one value, and settings that the catalogue calls repeatable.
 */
export function repeatedEntries(readings: readonly SectionReading[], catalogue: Catalogue, tree: Tree): Issue[] {
  const repeating = repeatingIn(readings);
  return repeating.length === 0 ? [] : repeatedIn(repeating, catalogue, tree);
}

/** The sections in which a name may stand twice: with each key a long script is looked through for it. */
function repeatingIn(readings: readonly SectionReading[]): readonly SectionReading[] {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const { about, hasNamesakes } of readings) {
    if (hasNamesakes || seen.has(about.section)) twice.add(about.section);
    seen.add(about.section);
  }
  return twice.size === 0 ? [] : readings.filter(({ about }) => twice.has(about.section));
}

function repeatedIn(readings: readonly SectionReading[], catalogue: Catalogue, tree: Tree): Issue[] {
  const entries = readings.flatMap((reading) => reading.entries);
  const issues: Issue[] = [];
  const bySection = new Map<string, Map<string, Occurrence>>();
  let section = "";
  let base = "";
  let first = new Map<string, Occurrence>();
  for (const entry of entries) {
    if (entry.kind === "mode" || entry.kind === "output") continue;
    if (entry.section !== section) {
      section = entry.section;
      base = baseOf(section);
      first = bySection.get(section) ?? new Map();
      bySection.set(section, first);
    }
    const { name, line, value } = entry;
    if (value?.kind !== "fields") {
      const before = first.get(name);
      if (!before) first.set(name, entry);
      else if (!combines(entry, base, catalogue))
        issues.push(repeatedIssue(name, entry, before, [removeLineFix(before, entry, tree)]));
      continue;
    }
    for (const field of value.fields) {
      const key = `${name} ${field.name}`;
      const here = { line, head: field.nameAt };
      const before = first.get(key);
      if (!before) first.set(key, here);
      // No fix: the line may set other fields too.
      else if (!combines(entry, base, catalogue)) issues.push(repeatedIssue(key, here, before, []));
    }
  }
  return issues;
}

/** Whether several lines of the setting belong together: asked only of a name that stands there already, as nearly none does. */
function combines({ kind, name }: Entry, base: string, catalogue: Catalogue): boolean {
  return kind === "setting" && catalogue.setting(base, name)?.repeatable === true;
}

/** Where something is set: by an entry, or by a field of one. */
interface Occurrence {
  readonly line: number;
  readonly head: Cols;
  /** The value of an entry, as it is spelled. */
  readonly text?: string;
}

function repeatedIssue(key: string, occurrence: Occurrence, before: Occurrence, fixes: readonly Fix[]): Issue {
  return {
    code: "duplicate-entry",
    message: `${key} is set already on line ${before.line + 1}; this later line counts. Remove the one that is not meant.`,
    span: spanAt(occurrence.line, occurrence.head),
    related: [{ message: `${key} is set here first`, span: spanAt(before.line, before.head) }],
    fixes,
  };
}

/** It loses nothing, and is certain, where both lines say the same and no note belongs to the earlier one. */
function removeLineFix({ line, text }: Occurrence, later: Occurrence, { lines }: Tree): Fix {
  const range = { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
  const fix: Fix = { title: "Remove the earlier line", edits: [{ range, text: "" }] };
  const isNoted = lines[line]!.comment !== null || lines[line - 1]?.node.kind === "comment";
  return text !== undefined && text === later.text && !isNoted ? { ...fix, certain: true } : fix;
}
