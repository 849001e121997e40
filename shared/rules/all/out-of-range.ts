import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "out-of-range",
  severity: "error",
  scope: "file",
  blocksUse: true,
  summary: "A value lies outside what its setting can be.",
  prose:
    "Beyond these limits a value makes no sense for any craft, so it is most likely a slip of a digit or of a unit. The value still counts, so that everything else can be checked against what the script says. Correct it; the page of the setting tells where the limits come from.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 99\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 6\n' },
  },
  check: (script) => readingReports(script, "out-of-range"),
};
