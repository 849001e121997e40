/** Entries that say again, in one file, what an earlier line of it said. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { type Cols, type Fix, spanAt } from "../syntax/span.ts";
import { baseOf } from "./craft.ts";
import type { Entry, Issue } from "./script.ts";

/**
 * One finding on each line that overrules an earlier one of the same file. Lines that join are
 * none: conditions, different fields of one value, and what the catalogue calls repeatable.
 */
export function repeatedEntries(entries: readonly Entry[], catalogue: Catalogue): Issue[] {
  const issues: Issue[] = [];
  const bySection = new Map<string, Map<string, Said>>();
  let section = "";
  let base = "";
  let first = new Map<string, Said>();
  const say = (key: string, said: Said, fixes: (before: Said) => readonly Fix[]) => {
    const before = first.get(key);
    if (before) issues.push(repeated(key, said, before, fixes(before)));
    else first.set(key, said);
  };
  for (const entry of entries) {
    if (entry.kind === "mode" || entry.kind === "output") continue;
    if (entry.section !== section) {
      section = entry.section;
      base = baseOf(section);
      first = bySection.get(section) ?? new Map();
      bySection.set(section, first);
    }
    if (entry.kind === "setting" && catalogue.setting(base, entry.name)?.repeatable) continue;
    const { name, line, value } = entry;
    if (value?.kind !== "fields") say(name, entry, removal);
    else for (const field of value.fields) say(`${name} ${field.name}`, { line, head: field.nameAt }, noFix);
  }
  return issues;
}

/** Where something is said: an entry, or a field of one. */
interface Said {
  readonly line: number;
  readonly head: Cols;
}

function repeated(key: string, said: Said, before: Said, fixes: readonly Fix[]): Issue {
  return {
    code: "duplicate-entry",
    message: `${key} is said already on line ${before.line + 1}; this later line counts. Remove the one that is not meant.`,
    span: spanAt(said.line, said.head),
    related: [{ message: `${key} is said here first`, span: spanAt(before.line, before.head) }],
    fixes,
  };
}

function removal({ line }: Said): Fix[] {
  const range = { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
  return [{ title: "Remove the earlier line", edits: [{ range, text: "" }] }];
}

/** The line of a field says others too. */
function noFix(): Fix[] {
  return [];
}
