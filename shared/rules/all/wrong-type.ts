import type { BothRule } from "../engine/rule.ts";
import { notDials } from "../lib/adjust-dials.ts";
import { problemReports } from "../lib/condition-problems.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: BothRule = {
  code: "wrong-type",
  severity: "error",
  scope: "both",
  blocksUse: true,
  summary: "A value does not fit its setting.",
  prose:
    "Each setting takes one kind of value: a whole number, a choice, a place, a range that rises. What does not fit leaves the setting without value: write one of the kind that the message names. In a craft the same is reported of a dial that is tested for a position, which it does not have: test its pulse with in, above or below.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4.5\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4\n' },
  },
  looksAt: {},
  checkFile: (script) => readingReports(script, "wrong-type"),
  checkCraft: (craft, workspace) => [...problemReports(craft, workspace, "wrong-type"), ...notDials(craft)],
};
