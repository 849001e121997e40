import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "wrong-unit",
  severity: "error",
  scope: "file",
  blocksUse: true,
  summary: "A number carries a unit of another kind than its setting takes.",
  prose:
    "Units are converted inside a family and never across: 14 V is not 3.5 V/cell until somebody says how many cells there are, and guessing is how packs are ruined. Give the value in a unit that the message names.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  warn-at 14 V\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  warn-at 3.5 V/cell\n' },
  },
  check: (script) => readingReports(script, "wrong-unit"),
};
