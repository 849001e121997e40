import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { locationAt } from "../lib/locations.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "condition-unset",
  severity: "warning",
  scope: "craft",
  summary: "A condition names a mode that nobody set up.",
  prose:
    "A mode without a line of its own is off, so the test is never true, or with “not” always. Either the mode lost its line when a layer changed, or its name is not the one that was meant. Give it a line again, or correct the name.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  lights when finder or TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  finder when TR is mid\n  lights when finder or TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [EVERY_MODE] },
  check: (craft, workspace) =>
    boardOf(craft, workspace).unset.map((unset) => ({
      at: locationAt(unset.source, unset),
      message: `Nobody set up ${unset.mode}, so it is always off here.`,
    })),
};
