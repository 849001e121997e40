import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

export const rule: FileRule = {
  code: "slot-endless",
  severity: "warning",
  scope: "file",
  summary: "A slot of a dialect does not end where its value does.",
  prose:
    "A slot ends where the text behind it stands next, and there is no second try. Two slots without text between them cannot be told apart, and a value that holds the text behind its slot is cut short, as a list before its own separator is. Write what stands between the two slots, or a longer text behind them, or make one slot of them, with a code of bits or letters.",
  examples: {
    bad: { "kiln.fettle": 'dialect "Kiln"\n\npack\n  "jars {c}{n}"  capacity {c} mAh\n  "jars {c}{n}"  cells {n}\n' },
    good: {
      "kiln.fettle": 'dialect "Kiln"\n\npack\n  "jars {c} of {n}"  capacity {c} mAh\n  "jars {c} of {n}"  cells {n}\n',
    },
  },
  check: (script, workspace) => dialectReports(script, workspace, "slot-endless"),
};
