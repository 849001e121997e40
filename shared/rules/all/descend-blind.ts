import type { Craft } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { BLIND_SINK_MS, descentS } from "../../numbers/descent.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { DESCENT_SETTINGS, mayDescend } from "../lib/flies-by-itself.ts";
import { ESTIMATED_HOVERS, estimatedHovers, SAID_HOVERS, saidHovers } from "../lib/hovers.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";
import { throttlePercent } from "../lib/throttle.ts";

/** How far above a hover that is only estimated a throttle must lie to be called too much. The project's own figure. */
const DOUBT = 1.1;

function tooMuchThrottle(craft: Craft, workspace: Workspace): Report[] {
  const setting = settingOf(craft, "failsafe.descend-throttle");
  const descend = throttlePercent(craft, "failsafe.descend-throttle");
  if (!setting || descend === null) return [];
  const near = estimatedHovers(craft).map((each) => ({ ...each, about: "about " }));
  const said = saidHovers(craft).map((each) => ({ ...each, about: "" }));
  const [lowest] = [...said, ...near.filter(({ percent }) => descend >= percent * DOUBT)]
    .filter(({ percent }) => descend >= percent)
    .sort((a, b) => a.percent - b.percent);
  if (!lowest) return [];
  const { percent, pack, about, settings } = lowest;
  const withPack = pack === null ? "" : ` on pack “${pack}”`;
  return [
    {
      at: valueLocation(workspace, setting.source),
      message: `The craft hovers with ${about}${decimalText(percent, 0)} % of its throttle${withPack}: with ${decimalText(descend, 0)} % it does not come down.`,
      ...restingOn(settings, workspace),
    },
  ];
}

function tooShort(craft: Craft, workspace: Workspace): Report[] {
  const time = settingOf(craft, "failsafe.descend-for");
  const height = settingOf(craft, "navigation.return-height");
  const [timeS, heightM] = [amountIn(time, "s"), amountIn(height, "m")];
  // Zero is no end at all.
  if (!time || !height || timeS === undefined || heightM === undefined || timeS === 0) return [];
  const neededS = descentS(heightM, BLIND_SINK_MS);
  if (timeS >= neededS) return [];
  return [
    {
      at: valueLocation(workspace, time.source),
      message: `The craft may be as high as its return-height of ${height.text}, and sinking at ${BLIND_SINK_MS} m/s, as fast as a blind descent should be, it needs ${decimalText(neededS, 0)} s to come down: after ${time.text} it drops the rest.`,
      ...restingOn([height], workspace),
    },
  ];
}

export const rule: CraftRule = {
  code: "descend-blind",
  severity: "warning",
  scope: "craft",
  summary: "A blind descent does not bring the craft down: its throttle holds it up, or its time is too short.",
  prose:
    "At the throttle of a hover, or above it, the craft holds its height or climbs away with nobody at the sticks; a lighter pack, or one of more cells, hovers with less than the usual one. If the time is over before the craft is down, the motors stop in the air. Take a throttle clearly below the hover on every pack, tried low over grass, and the time that the greatest height asks for. Counted with 3 m/s (the project's own figure), or about 2 m/s to land softly (common practice, no source).",
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
    settings: [
      ...DESCENT_SETTINGS,
      ...SAID_HOVERS,
      ...ESTIMATED_HOVERS,
      "failsafe.descend-throttle",
      "failsafe.descend-for",
      "navigation.return-height",
    ],
    modes: ["return-home"],
  },
  check(craft, workspace) {
    // A throttle that is set up while nothing says when it serves is meant for some moment.
    if (!mayDescend(craft)) return settingOf(craft, "failsafe.then") ? [] : tooMuchThrottle(craft, workspace);
    return [...tooMuchThrottle(craft, workspace), ...tooShort(craft, workspace)];
  },
};
