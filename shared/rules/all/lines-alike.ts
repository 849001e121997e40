import type { FileRule } from "../engine/rule.ts";
import { dialectReports } from "../lib/dialect-reports.ts";

/** So many lines that all begin with a slot. */
function manyLines(count: number): string {
  const lines = Array.from({ length: count }, (_, i) => `  "{c} in jar ${i}"  capacity {c} mAh\n`);
  return `dialect "Kiln"\n\npack\n${lines.join("")}`;
}

export const rule: FileRule = {
  code: "lines-alike",
  severity: "hint",
  scope: "file",
  summary: "More than 50 lines of a dialect begin alike, up to their first slot.",
  prose:
    "A board's line is tried by every line of the dialect that begins as it does, so the more there are, the longer reading takes, and the harder it is to see which of them fits. Write what tells them apart before the first slot, put them below headings by “under”, or make one line of them, with a code of words for what differs.",
  examples: {
    bad: { "kiln.fettle": manyLines(51) },
    good: { "kiln.fettle": manyLines(3) },
  },
  check: (script, workspace) => dialectReports(script, workspace, "lines-alike"),
};
