import type { BothRule } from "../engine/rule.ts";
import { unknownDials } from "../lib/adjust-dials.ts";
import { problemReports } from "../lib/condition-problems.ts";
import { dialectReports } from "../lib/dialect-reports.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: BothRule = {
  code: "unknown-name",
  severity: "error",
  scope: "both",
  acceptable: false,
  blocksUse: true,
  summary: "No section, setting, mode, element, control, position, unit or choice has this name.",
  prose:
    "A name that nobody knows does nothing on a craft, however right it looks, and a control that the handset does not have can never be moved. The nearest names are offered, found by spelling and by plain words: take the one that is meant. Names of controls and positions are looked up in the craft's handset, so they are checked only where a whole craft is known.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cels 4\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\npack\n  cells 4\n\nmodes\n  arm when TL is down\n',
      "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
    },
  },
  looksAt: {},
  checkFile: (script, workspace) => [
    ...readingReports(script, "unknown-name"),
    ...dialectReports(script, workspace, "unknown-name"),
  ],
  checkCraft: (craft, workspace) => [
    ...problemReports(craft, workspace, "unknown-name"),
    ...unknownDials(craft, workspace),
  ],
};
