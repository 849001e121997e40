import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";
import { usedFiles } from "../lib/used-files.ts";

export const rule: FileRule = {
  code: "use-cycle",
  severity: "error",
  scope: "file",
  acceptable: false,
  blocksUse: true,
  summary: "A file uses itself, directly or through others.",
  prose:
    "Which of two files lies over the other is what decides whose value counts; when each uses the other there is no answer. The repeated visit is skipped. Take one of the lines out, or move what both need into a third file.",
  examples: {
    bad: { "a.fettle": 'layer "A"\n\nuse "b.fettle"\n', "b.fettle": 'layer "B"\n\nuse "a.fettle"\n' },
    good: { "a.fettle": 'layer "A"\n\nuse "b.fettle"\n', "b.fettle": 'layer "B"\n' },
  },
  check: (script, workspace) =>
    usedFiles(script, workspace)
      .filter(({ leadsBack }) => leadsBack)
      .map(({ use, path }) => ({
        at: locationOf(script.file, use.at),
        message: `Using “${path}” leads back to this file, so that neither lies over the other: take one of the lines out.`,
      })),
};
