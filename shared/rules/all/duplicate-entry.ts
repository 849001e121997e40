import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/locations.ts";
import { repeatedUses } from "../lib/use-problems.ts";

export const rule: FileRule = {
  code: "duplicate-entry",
  severity: "warning",
  scope: "file",
  summary: "A name is said twice in one file, and only the later line counts.",
  prose:
    "Two lines for one thing are mostly left over from trying something out, and whoever reads the first is misled. Conditions of one mode, fields of one value and repeatable settings join instead and are not reported. Remove the line that you do not mean.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4\n  cells 6\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 6\n' },
  },
  check: (script, workspace) => [...readingReports(script, "duplicate-entry"), ...repeatedUses(script, workspace)],
};
