import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { FileRule, OtherRules } from "../engine/rule.ts";
import { headLocation, locationOf } from "../lib/locations.ts";
import { usedFiles } from "../lib/used-files.ts";

/** Whether the rules that block a use find something in a file, or in one that it uses. */
function isBroken(script: Script, workspace: Workspace, others: OtherRules): boolean {
  const seen = new Set<Script>([script]);
  // A set is iterated in insertion order, including elements added meanwhile.
  for (const each of seen) {
    if (others.blockUse(each)) return true;
    for (const { target } of usedFiles(each, workspace)) if (target.kind === "script") seen.add(target.script);
  }
  return false;
}

export const rule: FileRule = {
  code: "use-broken",
  severity: "error",
  scope: "file",
  acceptable: false,
  summary: "A used file has errors of its own.",
  prose:
    "Lines with errors leave their names without value, so this file does not get what it asks for. Open the used file and correct it there; its own findings say what is wrong.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 30\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 30 deg\n',
    },
  },
  check: (script, workspace, others) => {
    const broken = new Map<Script, boolean>();
    return usedFiles(script, workspace).flatMap(({ use, path, fitting, leadsBack }) => {
      if (!fitting || leadsBack) return [];
      if (!broken.has(fitting)) broken.set(fitting, isBroken(fitting, workspace, others));
      if (!broken.get(fitting)) return [];
      return [
        {
          at: locationOf(script.file, use.at),
          message: `“${path}” has errors of its own, and what they affect is missing here: open it and correct it there.`,
        },
      ];
    });
  },
  /** A handset that stands in has no `use` line: the craft's header says it. */
  checkStandIn(craft, handset, workspace, others) {
    if (!isBroken(handset, workspace, others)) return [];
    const name = handset.name ? `, “${handset.name}”,` : "";
    return [
      {
        at: headLocation(workspace, { file: craft.file, line: craft.tree.header ?? 0 }),
        message: `The handset that stands in${name} has errors of its own, and what they affect is missing here: correct it there.`,
      },
    ];
  },
};
