import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "turtle-with-arm",
  severity: "error",
  scope: "craft",
  summary: "Every state that arms the craft also selects turtle.",
  prose:
    "Turtle is looked at in the moment of arming, and here it is on in every such moment: instead of flying, the craft runs two motors backwards and throws itself over, at each start. Put turtle on a position of its own, so that the craft can be armed without it.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down and TR is down\n  turtle when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  turtle when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", "arm-permit", "turtle"] },
  check(craft, workspace) {
    const { armed, selected, sets } = boardOf(craft, workspace);
    if (armed === sets.none || sets.within(armed, selected("turtle")) !== true) return [];
    return [
      {
        ...conditionLocations(craft, workspace, "turtle", "arm"),
        message:
          "Turtle is selected in every state in which the craft is armed: each start is a somersault, and it never flies. Give turtle a position in which the craft need not be armed.",
      },
    ];
  },
};
