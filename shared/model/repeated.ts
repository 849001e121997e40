/** Entries that say again, in one file, what an earlier line of it said. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import { baseOf } from "./craft.ts";
import type { Entry, Issue } from "./script.ts";

/**
 * One finding on each line that overrules an earlier one of the same file. Lines that join are
 * none: conditions, different fields of one value, and what the catalogue calls repeatable.
 */
export function repeatedEntries(entries: readonly Entry[], catalogue: Catalogue): Issue[] {
  const issues: Issue[] = [];
  const bySection = new Map<string, Map<string, { line: number; at: Cols }>>();
  let section = "";
  let base = "";
  let first = new Map<string, { line: number; at: Cols }>();
  for (const entry of entries) {
    if (entry.kind === "mode" || entry.kind === "output") continue;
    if (entry.section !== section) {
      section = entry.section;
      base = baseOf(section);
      first = bySection.get(section) ?? new Map();
      bySection.set(section, first);
    }
    if (entry.kind === "setting" && catalogue.setting(base, entry.name)?.repeatable) continue;
    const { value } = entry;
    const parts =
      value?.kind === "fields"
        ? value.fields.map((field) => ({ name: field.name, at: field.nameAt }))
        : [{ name: "", at: entry.head }];
    for (const { name, at } of parts) {
      const key = name === "" ? entry.name : `${entry.name} ${name}`;
      const before = first.get(key);
      if (!before) {
        first.set(key, { line: entry.line, at });
        continue;
      }
      issues.push({
        code: "duplicate-entry",
        message: `${key} is said already on line ${before.line + 1}; this later line counts. Remove the one that is not meant.`,
        span: spanAt(entry.line, at),
        related: [{ message: `${key} is said here first`, span: spanAt(before.line, before.at) }],
        fixes: [{ title: "Remove the earlier line", edits: name === "" ? [removal(before.line)] : [] }].filter(
          (fix) => fix.edits.length > 0,
        ),
      });
    }
  }
  return issues;
}

function removal(line: number) {
  return { range: { start: { line, character: 0 }, end: { line: line + 1, character: 0 } }, text: "" };
}
