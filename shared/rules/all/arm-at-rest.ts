import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";

export const rule: CraftRule = {
  code: "arm-at-rest",
  severity: "error",
  scope: "craft",
  summary: "The craft is armed with every control at rest.",
  prose:
    "Controls rest like this when the handset is switched on, so the motors may start the moment the pack goes in, with a hand on the frame. Propellers off until this is corrected. Put arm on a position that a switch is not in at rest, or say with “rests” where the switch really lies.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is up\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", "arm-permit"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    if (board.armed === null || !craft.modes.has("arm")) return [];
    // A channel that no control drives may have any value: only what is armed for every value counts.
    const undriven = board.variables.filter(({ control }) => control === null).map(({ name }) => name);
    const armed = board.sets.all(board.sets.given(board.armed, board.rest), undriven);
    const witness = board.witness(board.sets.and(armed, board.atRest));
    if (!witness) return [];
    const dials = Object.entries(witness.needed).filter(([name]) => !(name in board.rest));
    const where =
      dials.length === 0
        ? "with every control at rest"
        : `with every switch at rest and ${positionsInWords(Object.fromEntries(dials))}`;
    return [
      {
        ...conditionLocation(craft, workspace, "arm"),
        message: `Armed ${where}: the motors may start when the pack goes in.`,
        witness: witness.positions,
      },
    ];
  },
};
