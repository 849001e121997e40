import type { FileRule } from "../engine/rule.ts";
import { useReports } from "../lib/use-problems.ts";

export const rule: FileRule = {
  code: "use-broken",
  severity: "error",
  scope: "file",
  summary: "A used file has errors of its own.",
  prose:
    "Lines with errors leave their names without value, so this file does not get what it asks for. Open the used file and mend it there; its own findings say what is wrong.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 25\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 25 deg\n',
    },
  },
  check: (script, workspace) => useReports(script, workspace, "use-broken"),
};
