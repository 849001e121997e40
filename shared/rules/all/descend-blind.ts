import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";
import { throttlePercent } from "../lib/throttle.ts";

export const rule: CraftRule = {
  code: "descend-blind",
  severity: "warning",
  scope: "craft",
  summary: "The throttle of the descent is at or above what the craft hovers with.",
  prose:
    "With that throttle the craft does not come down: it holds its height or climbs away, with nobody at the sticks. Take a value clearly below hover, tried low over grass.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  hover-throttle 30 %\n\nfailsafe\n  then descend\n  descend-throttle 35 %\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  hover-throttle 30 %\n\nfailsafe\n  then descend\n  descend-throttle 22 %\n',
    },
  },
  looksAt: {
    settings: ["failsafe.then", "failsafe.descend-throttle", "frame.hover-throttle", "link.endpoints"],
  },
  check(craft, workspace) {
    const setting = settingOf(craft, "failsafe.descend-throttle");
    const then = settingOf(craft, "failsafe.then")?.value;
    const descend = throttlePercent(craft, "failsafe.descend-throttle");
    const hover = throttlePercent(craft, "frame.hover-throttle");
    if (!setting || descend === null || hover === null || descend < hover) return [];
    if (then?.kind === "choice" && then.word !== "descend") return [];
    return [
      {
        at: valueLocation(workspace, setting.source),
        message: `The craft hovers with ${hover} % of its throttle: with ${descend} % it does not come down.`,
      },
    ];
  },
};
