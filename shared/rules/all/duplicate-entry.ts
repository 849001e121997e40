import type { Script, Use } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { FileRule, Report } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";
import { readingReports } from "../lib/reading-reports.ts";

export const rule: FileRule = {
  code: "duplicate-entry",
  severity: "warning",
  scope: "file",
  summary: "A name is said twice in one file, and only the later line counts.",
  prose:
    "Two lines for one thing are mostly left over from trying something out, and whoever reads the first is misled. Conditions of one mode, fields of one value and repeatable settings join instead and are not reported. Remove the line that you do not mean.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 4\n  cells 6\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 6\n' },
  },
  check: (script, workspace) => [...readingReports(script, "duplicate-entry"), ...repeatedUses(script, workspace)],
};

/** Files that a file names twice, by their real paths. */
function repeatedUses(script: Script, workspace: Workspace): Report[] {
  const first = new Map<string, Use>();
  return script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind !== "script") return [];
    const before = first.get(target.script.file);
    if (!before) {
      first.set(target.script.file, use);
      return [];
    }
    return [
      {
        at: locationOf(script.file, use.at),
        message: `This file is used already on line ${before.line + 1}, and its first place counts: remove one of the lines.`,
        related: [{ message: "It is used here first", at: locationOf(script.file, before.at) }],
      },
    ];
  });
}
