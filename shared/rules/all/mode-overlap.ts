import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { RANKED_MODES } from "../lib/name-groups.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";
import { precedencePairs } from "../lib/precedence.ts";

export const rule: CraftRule = {
  code: "mode-overlap",
  severity: "hint",
  scope: "craft",
  summary: "Two modes can be on together, and one of them then does nothing.",
  prose:
    "Which of the two acts is settled, so nothing breaks; but in the overlap a switch is down and its mode does not act, which is confusing in flight. The finding names positions in which it happens. If it is meant, accept it with the reason; else add “and not” to the one that yields.",
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
  looksAt: { modes: [RANKED_MODES] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return precedencePairs(craft, workspace).flatMap(({ over, under, reason }) => {
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
