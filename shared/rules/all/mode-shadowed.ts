import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { RANKED_MODES } from "../lib/name-groups.ts";
import { precedencePairs } from "../lib/precedence.ts";

export const rule: CraftRule = {
  code: "mode-shadowed",
  severity: "hint",
  scope: "craft",
  summary: "Every state in which a mode is on lies inside a mode that takes precedence over it: it never acts.",
  prose:
    "The mode can be selected and still never does anything, since the one that goes before it is on whenever it is. One of the two lines is not what was meant. Separate their positions, or drop the mode that never acts. Modes that are there to take over, such as the way home, may lie over whatever else their switch selects.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is mid or TR is down\n  level-blend when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is mid\n  level-blend when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [RANKED_MODES], settings: ["finder.sounder"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return precedencePairs(craft, workspace).flatMap(({ over, under, reason, kind }) => {
      if (kind === "takes-over") return [];
      const [above, below] = [board.selected(over), board.selected(under)];
      if (below === board.sets.none || board.sets.within(below, above) !== true) return [];
      return [
        {
          ...conditionLocations(craft, workspace, under, over),
          message: `Whenever ${under} is on, ${over} is on too, so ${under} never acts. ${reason}`,
        },
      ];
    });
  },
};
