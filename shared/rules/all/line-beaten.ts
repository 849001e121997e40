import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

export const rule: FileRule = {
  code: "line-beaten",
  severity: "warning",
  scope: "file",
  summary: "A line of a dialect is never used to read, as one that is tried before it fits all that it fits.",
  prose:
    "A board's line is tried by the lines of the dialect from the top down, and the first that fits counts. Where one that stands higher fits every line of this kind, or a comment, an opening or a heading does, this one never comes to its turn. Move the more special line above the more general one, or take it out.",
  examples: {
    bad: {
      "kiln.fettle": 'dialect "Kiln"\n\npack\n  "holds {c}"    capacity {c} mAh\n  "holds 1100"  capacity 1100 mAh\n',
    },
    good: {
      "kiln.fettle": 'dialect "Kiln"\n\npack\n  "holds 1100"  capacity 1100 mAh\n  "holds {c}"    capacity {c} mAh\n',
    },
  },
  check: (script, workspace) => dialectReports(script, workspace, "line-beaten"),
};
