import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "permit-idle",
  severity: "warning",
  scope: "craft",
  summary:
    "The permission to arm is there in every state in which arm is on, so that it guards nothing; or in none (then an error).",
  prose:
    "A permission is a second move that has to be meant, so that one switch caught in a bag does not start the motors. Here the one move gives both. Where both ask for positions that cannot be had at once, the craft never arms. Put arm-permit on a control that arm does not look at, or take the line away, so that nobody relies on it.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  arm-permit when TL is down or PB is held\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  arm-permit when PB is held\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", "arm-permit"] },
  check(craft, workspace) {
    const { selected, sets } = boardOf(craft, workspace);
    const arm = selected("arm");
    const never = neverArmed(craft, workspace);
    if (never.length > 0) return never;
    if (arm === sets.none || sets.within(arm, selected("arm-permit")) !== true) return [];
    return [
      {
        ...conditionLocations(craft, workspace, "arm-permit", "arm"),
        message:
          "Wherever arm is on, arm-permit is on as well, so it guards nothing: hang it on a control that arm does not look at.",
      },
    ];
  },
};

/** Arming and its permission can each be on, and never together. */
function neverArmed(craft: Craft, workspace: Workspace): Report[] {
  const { selected, armed, sets } = boardOf(craft, workspace);
  if (armed !== sets.none || [selected("arm"), selected("arm-permit")].includes(sets.none)) return [];
  if (!craft.modes.has("arm") || !craft.modes.has("arm-permit")) return [];
  return [
    {
      ...conditionLocations(craft, workspace, "arm-permit", "arm"),
      severity: "error",
      message:
        "No state of the controls makes arm and arm-permit true together, so the craft can never arm: ask for positions that can be had at once.",
    },
  ];
}
