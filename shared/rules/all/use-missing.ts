import type { FileRule } from "../engine/rule.ts";
import { useReports } from "../lib/use-problems.ts";

export const rule: FileRule = {
  code: "use-missing",
  severity: "error",
  scope: "file",
  summary: "A used file is not there, cannot be read, or lies outside the workspace.",
  prose:
    "What the file would have said is not in the craft, so nothing that depends on it can be trusted. Paths are looked up from the folder of the file in which the line stands, with / between folders. A file outside the workspace is not read: copy it in, so that git keeps it with the rest.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 25 deg\n',
    },
  },
  check: (script, workspace) => useReports(script, workspace, "use-missing"),
};
