import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { locationAt } from "../lib/locations.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "condition-cycle",
  severity: "error",
  scope: "craft",
  summary: "Conditions name one another in a circle.",
  prose:
    "Whether each mode of the circle is on depends on itself, so no state has an answer, and rules stay silent about all of them. Say one of them by controls instead of by the other mode.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when finder\n  finder when level\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when finder\n  finder when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [EVERY_MODE] },
  check: (craft, workspace) =>
    boardOf(craft, workspace).cycles.map((cycle) => {
      // A circle has no beginning: it is reported at a line of the craft's own file if it has one.
      const own = Math.max(
        0,
        cycle.links.findIndex(({ source }) => source.file === craft.file),
      );
      const links = [...cycle.links.slice(own), ...cycle.links.slice(0, own)];
      const [first, ...others] = links;
      const path = links.map(({ from }) => from).join(" → ");
      return {
        at: locationAt(first!.source, first!),
        message:
          links.length === 1
            ? `${first!.from} names itself.`
            : `These conditions run in a circle: ${path} → ${first!.from}.`,
        related: others.map((link) => ({
          message: `${link.from} names ${link.to} here`,
          at: locationAt(link.source, link),
        })),
        alsoOf: others.map((link) => link.source),
      };
    }),
};
