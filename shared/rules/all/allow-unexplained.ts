import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "allow-unexplained",
  severity: "warning",
  scope: "file",
  summary: "A finding is accepted without a reason.",
  prose:
    "The next reader of the script, who may be you after a winter, has to know whether the finding was understood or only silenced. Write the reason after a colon: # allow CODE: why it is right on this craft.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 99 # allow out-of-range\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\npack\n  cells 99 # allow out-of-range: a bench supply stands in for the pack\n',
    },
  },
  check: (script) => readingReports(script, "allow-unexplained"),
};
