import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

export const rule: FileRule = {
  code: "code-unused",
  severity: "hint",
  scope: "file",
  summary: "A code of a dialect is named by no slot and by no other code.",
  prose:
    "It changes nothing of what is read and written. Mostly the slot that should have it lacks its name, and then reads the board's number as if it were ours. Name it in the slot, as in “{w:glaze}”, or take the line out.",
  examples: {
    bad: {
      "kiln.fettle":
        'dialect "Kiln"\n\ncodes\n  glaze  number 0 to 220 each 0.02 V/cell\n\npack\n  "ends at {l}"  land-at {l} V/cell\n',
    },
    good: {
      "kiln.fettle":
        'dialect "Kiln"\n\ncodes\n  glaze  number 0 to 220 each 0.02 V/cell\n\npack\n  "ends at {l:glaze}"  land-at {l}\n',
    },
  },
  check: (script, workspace) => dialectReports(script, workspace, "code-unused"),
};
