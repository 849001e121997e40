import type { FileRule } from "../engine/rule.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "edition-newer",
  severity: "error",
  scope: "file",
  acceptable: false,
  blocksUse: true,
  readsNewer: true,
  summary: "The script is written in a newer edition of the language than this tool reads.",
  prose:
    "Editions keep old scripts true: a newer one may say things that this tool would get wrong, so it reads nothing of the file, reports nothing else and never rewrites it. Update the tool; or, if the file was marked by mistake, take the edition out of the header.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug" edition 9\n\npack\n  cells 99\n' },
    good: { "jug.fettle": 'craft "Jug" edition 1\n\npack\n  cells 4\n' },
  },
  check: (script) => readingReports(script, "edition-newer"),
};
