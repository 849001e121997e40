import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { headLocation } from "../lib/locations.ts";
import { PORTS } from "../lib/name-groups.ts";
import { elementsInNeed, type InNeed, isForPort, settingsInNeed, unmetNeeds } from "../lib/needs-in-use.ts";
import { unmetInWords } from "../lib/needs-in-words.ts";

const unmet = unmetNeeds(isForPort);

/** Everything in use, except modes, that needs a port and has none. */
function inVain(craft: Craft, workspace: Workspace): InNeed[] {
  const bySignal = settingOf(craft, "motors.rpm-feedback")?.text === "yes";
  return unmet(craft, workspace).filter(({ need }) => need.port !== "esc-data" || !bySignal);
}

export const rule: CraftRule = {
  code: "port-missing",
  severity: "error",
  scope: "craft",
  summary: "Something is in use that needs a port, and no port is said to serve it.",
  prose:
    "A part that is set up without a port is either not wired, so that it never does what the script says, or wired to a port of which the script says something else. The board then waits for fixes that never come, or measures zero. Say the port that it is connected to, or take out what nobody can serve. A script that says nothing of its ports is not held to this, and what a mode needs is reported at the mode.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  then return\n\nports\n  port1 receiver\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  then return\n\nports\n  port1 receiver\n  port2 gps\n' },
  },
  looksAt: {
    settings: [settingsInNeed("every setting that needs a port", isForPort), PORTS, "motors.rpm-feedback"],
    elements: [elementsInNeed("every element that is fed by a port", isForPort)],
  },
  check(craft, workspace) {
    const byUse = new Map<string, InNeed[]>();
    for (const user of inVain(craft, workspace)) {
      const use = user.need.port!;
      const users = byUse.get(use);
      if (users) users.push(user);
      else byUse.set(use, [user]);
    }
    return [...byUse].map(([use, users]): Report => {
      const [first, ...others] = users as [InNeed, ...InNeed[]];
      const names = [...new Set(others.map(({ what }) => what))].filter((name) => name !== first.what);
      const listed = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
      const also = names.length > 0 ? ` So ${names.length > 1 ? "do" : "does"} ${joinWithAnd(listed)}.` : "";
      return {
        at: headLocation(workspace, first.source),
        message: `${unmetInWords(first.what, first.need, craft)}${also} Say in “ports” which port serves ${use}, or take out what needs it.`,
        related: others.map(({ what, source }) => ({
          message: `${what} needs it too`,
          at: headLocation(workspace, source),
        })),
        alsoOf: others.map(({ source }) => source),
      };
    });
  },
};
