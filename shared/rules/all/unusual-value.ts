import { unusualInCraft } from "../../model/unusual-values.ts";
import type { BothRule } from "../engine/rule.ts";
import { locationAt } from "../lib/locations.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: BothRule = {
  code: "unusual-value",
  severity: "hint",
  scope: "both",
  summary: "A value lies outside what is usual for a craft of this size and kind.",
  prose:
    "What is usual may depend on the propellers, their number, the cells, where the throttle rests and whether a notch is at work: a layer is judged by what it says of them itself, and in each craft once more by what that craft says. Nothing is wrong with being unusual, but a value far from the others' is worth a second look before it flies. If you mean it, say so on the line: # allow unusual-value: and the reason.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nframe\n  propeller-diameter 10 in\n\nmotors\n  kv 5000 rpm/V\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nframe\n  propeller-diameter 3 in\n\nmotors\n  kv 5000 rpm/V\n' },
  },
  looksAt: {
    settings: [
      "frame.propeller-diameter",
      "frame.motors",
      "pack.cells",
      "motors.reversible",
      "motors.reverse-band",
      "safety.arm-throttle",
      "filters.motor-notches",
      "filters.tracking-notches",
      "filters.notch",
    ],
  },
  checkFile: (script) => readingReports(script, "unusual-value"),
  checkCraft: (craft, workspace) =>
    unusualInCraft(craft, workspace.catalogue).flatMap(({ source, message, start, end }) => {
      // A value that is unusual for the used file's own size is reported in that file already.
      const reported = workspace
        .script(source.file)
        ?.issues.some(
          ({ code, span }) => code === "unusual-value" && span.line === source.line && span.start === start,
        );
      return reported ? [] : [{ at: locationAt(source, { start, end }), message }];
    }),
};
