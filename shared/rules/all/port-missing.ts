import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { headLocation } from "../lib/locations.ts";
import { PORTS } from "../lib/name-groups.ts";
import { elementsInNeed, type InNeed, isForPort, settingsInNeed, unmetNeeds } from "../lib/needs-in-use.ts";

/** Everything in use, except modes, that needs a port and has none. */
function inVain(craft: Craft, workspace: Workspace): InNeed[] {
  const bySignal = settingOf(craft, "motors.rpm-feedback")?.text === "yes";
  return unmetNeeds(craft, workspace, isForPort).filter(({ need }) => need.port !== "esc-data" || !bySignal);
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
      const names = [...new Set(users.map(({ what }) => what))];
      const also =
        names.length > 1 ? `, as do ${names.slice(1, 4).join(", ")}${names.length > 4 ? " and more" : ""}` : "";
      return {
        at: headLocation(workspace, first.source),
        message: `${first.what} needs a port that serves ${use}${also}, and none of those said does. ${first.need.reason} Say which port it is in “ports”, or take out what needs it.`,
        related: others.map(({ what, source }) => ({
          message: `${what} needs it too`,
          at: headLocation(workspace, source),
        })),
        alsoOf: others.map(({ source }) => source),
      };
    });
  },
};
