import type { CraftRule } from "../engine/rule.ts";
import { comparedSettings } from "../lib/comparison-plan.ts";
import { comparisonReports } from "../lib/comparisons.ts";

export const rule: CraftRule = {
  code: "beyond-rating",
  severity: "error",
  scope: "craft",
  summary: "The craft asks more of a part than it is said to bear.",
  prose:
    "A board that is given more volts than its input is made for burns at the first plug-in; a gyro that is turned faster than its range reads its end and no more; motors wound for fewer cells heat up until they fail. Each pack of the craft is looked at by itself. Where a part only ages faster, it is a warning. Take a part that bears it, or ask for less.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nboard\n  input-limit 17 V\n\npack\n  chemistry lipo\n  cells 6\n  full-at 4.2 V/cell\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nboard\n  input-limit 17 V\n\npack\n  chemistry lipo\n  cells 4\n  full-at 4.2 V/cell\n',
    },
  },
  looksAt: {
    settings: [comparedSettings("beyond-rating", "every setting that another asks something of")],
  },
  check: (craft, workspace) => comparisonReports(craft, workspace, "beyond-rating"),
};
