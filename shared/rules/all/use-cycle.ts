import type { FileRule } from "../engine/rule.ts";
import { useReports } from "../lib/use-problems.ts";

export const rule: FileRule = {
  code: "use-cycle",
  severity: "error",
  scope: "file",
  summary: "A file uses itself, directly or through others.",
  prose:
    "Which of two files lies over the other is what decides whose value counts; when each uses the other there is no answer. The repeated visit is skipped. Take one of the lines out, or move what both need into a third file.",
  examples: {
    bad: { "a.fettle": 'layer "A"\n\nuse "b.fettle"\n', "b.fettle": 'layer "B"\n\nuse "a.fettle"\n' },
    good: { "a.fettle": 'layer "A"\n\nuse "b.fettle"\n', "b.fettle": 'layer "B"\n' },
  },
  check: (script, workspace) => useReports(script, workspace, "use-cycle"),
};
