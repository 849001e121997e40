import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

export const rule: FileRule = {
  code: "code-lossy",
  severity: "hint",
  scope: "file",
  summary: "A code of a dialect cannot give back what it reads, or what a script says.",
  prose:
    "Two words of the board for one value look the same in a script, so only the first is ever written. One word for two values is only ever read as the first. A step of more than a tenth of what is usual for a setting turns what a script says into something else. Some boards are like that, and then it is good to know: accept it in a note on that line. Otherwise correct the word, or give the code the step that the board writes.",
  examples: {
    bad: {
      "kiln.fettle":
        'dialect "Kiln"\n\ncodes\n  kind  words 0 lipo, 1 lipo, 2 li-ion\n\npack\n  "jars of {k:kind}"  chemistry {k}\n',
    },
    good: {
      "kiln.fettle":
        'dialect "Kiln"\n\ncodes\n  kind  words 0 lipo, 1 lihv, 2 li-ion\n\npack\n  "jars of {k:kind}"  chemistry {k}\n',
    },
  },
  check: (script, workspace) => dialectReports(script, workspace, "code-lossy"),
};
