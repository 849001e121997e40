import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { RANKED_MODES } from "../lib/name-groups.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";
import { precedencePairs } from "../lib/precedence.ts";

const FINDER = "finder";

function motorsSound(craft: Craft): boolean {
  const motors = settingOf(craft, "finder.motors")?.value;
  return motors?.kind === "yes-no" && motors.yes;
}

export const rule: CraftRule = {
  code: "mode-overlap",
  severity: "hint",
  scope: "craft",
  summary: "Two modes can be on together, and one of them then does nothing.",
  prose:
    "Which of the two acts is settled, so nothing breaks; but in the overlap a switch is down and its mode does not act, which is confusing in flight. The finding names positions in which it happens. If it is meant, accept it with the reason; else add “and not” to the one that yields. Modes that are there to take over, such as the way home, are left out, and so is a finder with a sounder of its own, which calls while armed.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is mid\n  level-blend when PB is held\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is mid\n  level-blend when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [RANKED_MODES], settings: ["finder.motors", "finder.sounder"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return precedencePairs(craft, workspace).flatMap(({ over, under, reason, kind }) => {
      // Overriding is what some modes are for; and how the finder sounds is not known unless it is said.
      if (kind || (under === FINDER && !motorsSound(craft))) return [];
      const [above, below] = [board.selected(over), board.selected(under)];
      if (board.sets.within(below, above) !== false) return [];
      const witness = board.witness(board.sets.and(above, below));
      if (!witness) return [];
      return [
        {
          ...conditionLocations(craft, workspace, under, over),
          message: `With ${positionsInWords(witness.needed)} both ${over} and ${under} are on, and ${under} does nothing. ${reason}`,
          witness: witness.positions,
        },
      ];
    });
  },
};
