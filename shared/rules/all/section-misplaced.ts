import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "section-misplaced",
  severity: "error",
  scope: "file",
  blocksUse: true,
  summary: "A section stands in a kind of file that cannot hold it.",
  prose:
    "A handset is the pilot's transmitter and holds only its module and its controls, so that any craft can use it; a transmitter's module has no place in a craft. The entries take no effect where they stand. Move the section to the file it belongs in, and let that file be used.",
  examples: {
    bad: { "wheel.fettle": 'handset "Wheel"\n\npack\n  cells 4\n' },
    good: { "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n' },
  },
  check: (script) => readingReports(script, "section-misplaced"),
};
