import type { Need } from "../../catalogue/specs.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { headLocation, restingOn } from "../lib/locations.ts";
import { PORTS } from "../lib/name-groups.ts";
import {
  elementsInNeed,
  isForPort,
  modesNeeded,
  settingsInNeed,
  severityOfNeed,
  unmetNeeds,
} from "../lib/needs-in-use.ts";
import { settingsBehind, unmetInWords } from "../lib/needs-in-words.ts";

function isLookedAt(need: Need): boolean {
  return !isForPort(need);
}

const unmet = unmetNeeds(isLookedAt);

export const rule: CraftRule = {
  code: "setting-needs",
  severity: "warning",
  scope: "craft",
  summary: "A setting, an element or an alert is in use, and what it needs is missing or said to be otherwise.",
  prose:
    "A horizon without an accelerometer stays empty, an alert by charge without a current sensor never comes, and notches that follow the motors stand still where nobody reports how fast they turn. A setting that merely lies idle, as a pulse rate does beside a digital signal, is worth a hint, and none where it stands in a layer. A need of which the script says nothing is not reported. Set up what it needs, or take it out. What needs a port is reported by port-missing, what a mode needs by mode-needs.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nsensors\n  accelerometer no\n\nosd\n  grid 53 x 20\n  horizon-line at centre, middle\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nsensors\n  accelerometer yes\n\nosd\n  grid 53 x 20\n  horizon-line at centre, middle\n',
    },
  },
  looksAt: {
    settings: [settingsInNeed("every setting that needs something, or that something needs", isLookedAt), PORTS],
    modes: [modesNeeded("every mode that a setting needs", isLookedAt)],
    elements: [elementsInNeed("every element that needs something", isLookedAt)],
  },
  check: (craft, workspace) =>
    unmet(craft, workspace).map(
      ({ what, source, need }): Report => ({
        at: headLocation(workspace, source),
        message: unmetInWords(what, need, craft),
        severity: severityOfNeed(need),
        ...restingOn(settingsBehind(craft, need), workspace),
      }),
    ),
};
