import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

export const rule: FileRule = {
  code: "slot-unmatched",
  severity: "warning",
  scope: "file",
  summary: "A slot of a dialect stands on one side of its line only.",
  prose:
    "A slot carries a value from the board's text to the entry, and back. One on the right alone has no value when the board's text is read, so the line says nothing. One on the left alone stands beside the entry: nobody says what to write there, so a new line cannot be written. Name it on the other side too, or give the left one a default, as in “{s=0}”.",
  examples: {
    bad: { "kiln.fettle": 'dialect "Kiln"\n\npack\n  "holds {c}"  capacity {d} mAh\n' },
    good: { "kiln.fettle": 'dialect "Kiln"\n\npack\n  "holds {c} on shelf {s=0}"  capacity {c} mAh\n' },
  },
  check: (script, workspace) => dialectReports(script, workspace, "slot-unmatched"),
};
