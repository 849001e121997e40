import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "missing-unit",
  severity: "error",
  scope: "file",
  blocksUse: true,
  summary: "A bare number stands where a quantity is expected.",
  prose:
    "A number without unit means one thing to the writer and another to the next reader: 850 of what, 20 in which measure? The value takes no effect until the unit is there; the fix writes the usual one, so look whether it is the one you meant.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  capacity 850\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  capacity 850 mAh\n' },
  },
  check: (script) => readingReports(script, "missing-unit"),
};
