import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { saysAlways } from "../lib/condition-nodes.ts";
import { WHEEL } from "../lib/example-files.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "condition-always",
  severity: "warning",
  scope: "craft",
  summary: "Every state of the controls makes a condition true.",
  prose:
    "A mode that is on whatever the hands do is not switched by anything, which is seldom what a condition was written for. If it is meant, write “always”, which says so to the next reader; else look for the “or” that should be an “and”.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when TL is up or TL is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when always\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [EVERY_MODE] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return board.names.flatMap((name) => {
      if (board.selected(name) !== board.sets.every || saysAlways(craft, name)) return [];
      return [
        {
          ...conditionLocation(craft, workspace, name),
          message: `Every state of the controls makes this true: ${name} can never be off. Write “always” if that is meant.`,
        },
      ];
    });
  },
};
