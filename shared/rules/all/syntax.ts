import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "syntax",
  severity: "error",
  scope: "file",
  acceptable: false,
  blocksUse: true,
  summary: "A line does not follow the grammar, so its meaning is not known.",
  prose:
    "What cannot be read is not guessed at: the line is kept as it is and takes no effect, and nothing that an earlier file said of its name shows through. Unresolved marks of a merge are reported once for each conflict, and one side is read so that the rest of the file keeps its meaning. Correct the line as the message says, or make it a comment with #.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4 4\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4\n' },
  },
  check: (script, workspace) => [...readingReports(script, "syntax"), ...dialectReports(script, workspace, "syntax")],
};
