import { readingReports } from "./spots.ts";
import type { FileRule } from "./types.ts";

export const rule: FileRule = {
  code: "unusual-value",
  severity: "hint",
  scope: "file",
  summary: "A value lies outside what is usual for a craft of this size.",
  prose:
    "Nothing is wrong with being unusual, but a value far from the others' is worth a second look before it flies. If you mean it, say so on the line: # allow unusual-value: and the reason.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-tilt-limit 2 deg\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-tilt-limit 25 deg\n' },
  },
  check: (script) => readingReports(script, "unusual-value"),
};
