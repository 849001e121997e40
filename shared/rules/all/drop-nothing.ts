import type { CraftRule } from "../engine/rule.ts";
import { locationAt } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "drop-nothing",
  severity: "hint",
  scope: "craft",
  summary: "A “drop” removes what no earlier file has said.",
  prose:
    "A line that removes nothing is mostly a leftover: the layer it was written against no longer says the name, or is no longer used. It does no harm, but it tells the next reader something that is not true. Remove it, or look why the earlier file no longer says what it did.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  drop cells\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "base.fettle"\n\npack\n  drop cells\n',
      "base.fettle": 'layer "Base"\n\npack\n  cells 4\n',
    },
  },
  looksAt: {},
  check: (craft) =>
    craft.droppedNothing.map(({ section, name, source, start, end }) => ({
      at: locationAt(source, { start, end }),
      message:
        name === "all"
          ? `No earlier file says anything in “${section}”: there is nothing to remove.`
          : `No earlier file says ${name} in “${section}”: there is nothing to remove.`,
    })),
};
