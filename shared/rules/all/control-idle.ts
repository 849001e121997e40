import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { headLocation } from "../lib/locations.ts";
import { tellingApart } from "../lib/told-apart.ts";

export const rule: CraftRule = {
  code: "control-idle",
  severity: "info",
  scope: "craft",
  summary: "Two neighbouring positions of a control that conditions tell apart do the same in every state.",
  prose:
    "The conditions name these positions, and yet it makes no difference which of them is chosen: the hand feels a click and the craft does not answer. Mostly one of the lines says less than was meant; look what the position was for. Where it is meant, say it as one, such as “is not up”. Positions that no condition names are spare, and nothing is said of them.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TR is mid or TR is down\n',
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
    const isToldApart = tellingApart(craft);
    return boardOf(craft, workspace)
      .idlePositions()
      .flatMap(({ control, positions: [a, b] }) => {
        const source = craft.controls.get(control.name)?.source;
        if (!source || seen.has(control.name) || !isToldApart(control, a, b)) return [];
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
