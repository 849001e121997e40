import type { FileRule } from "../engine/rule.ts";
import { useReports } from "../lib/use-problems.ts";

export const rule: FileRule = {
  code: "use-kind",
  severity: "error",
  scope: "file",
  summary: "A used file is of a kind that cannot be used here.",
  prose:
    "A craft or a layer may use layers and handsets, a handset only handsets. A craft is one whole machine: using one in another would mix what is true of two. Move what both share into a layer.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nuse "bowl.fettle"\n', "bowl.fettle": 'craft "Bowl"\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 25 deg\n',
    },
  },
  check: (script, workspace) => useReports(script, workspace, "use-kind"),
};
