import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { headLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "control-idle",
  severity: "info",
  scope: "craft",
  summary: "Two neighbouring positions of a control do the same in every state.",
  prose:
    "A position that changes nothing is a position to get wrong: the hand feels a click and the craft does not answer. It may be kept free on purpose, and then this is no more than a reminder; else give the position something to do.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is down\n  turtle when TR is mid\n',
      ...WHEEL,
    },
  },
  looksAt: {},
  check(craft, workspace) {
    const seen = new Set<string>();
    return boardOf(craft, workspace)
      .idlePositions()
      .flatMap(({ control, positions: [a, b] }) => {
        const source = craft.controls.get(control.name)?.source;
        if (!source || seen.has(control.name)) return [];
        seen.add(control.name);
        return [
          {
            at: headLocation(workspace, source),
            message: `${control.name} does the same at “${a}” and at “${b}”, whatever else is set.`,
          },
        ];
      });
  },
};
