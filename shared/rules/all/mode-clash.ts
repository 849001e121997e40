import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";

/** Modes that exclude another. */
const EXCLUDING: NameGroup = {
  words: "every mode that excludes another",
  names: ({ modeRelations }) => modeRelations.clashes.flatMap(({ modes }) => modes),
};

export const rule: CraftRule = {
  code: "mode-clash",
  severity: "error",
  scope: "craft",
  summary: "Two modes that exclude each other can be on together, and nothing decides between them.",
  prose:
    "The craft is told to do two things at once, and which of them it does depends on chance or on the order of its code. The finding names one set of positions in which it happens. Add “and not” to one of the two, or put both on one control.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  video-low when TL is up\n  video-high when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  video-low when TR is up\n  video-high when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [EXCLUDING] },
  check(craft, workspace) {
    const { clashes } = workspace.catalogue.modeRelations;
    return boardOf(craft, workspace)
      .clashes(clashes.map(({ modes }) => modes))
      .map(({ modes: [a, b], witness }) => {
        const reason = clashes.find(({ modes }) => modes[0] === a && modes[1] === b)?.reason ?? "";
        return {
          ...conditionLocations(craft, workspace, b, a),
          message: `${a} and ${b} are on together with ${positionsInWords(witness.needed)}. ${reason}`,
          witness: witness.positions,
        };
      });
  },
};
