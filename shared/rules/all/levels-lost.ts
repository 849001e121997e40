import { linkOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionNodes, usedControls } from "../lib/condition-nodes.ts";
import { WHEEL } from "../lib/example-files.ts";
import { lostPositions } from "../lib/indistinct-controls.ts";
import { locationAt } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "levels-lost",
  severity: "warning",
  scope: "craft",
  summary: "A control has middle positions on a channel that carries two levels only.",
  prose:
    "Some links carry a few channels as on or off and nothing between. A middle position then arrives as one of the two ends, and what it was to do happens at the wrong place or never. Move the control to a channel that carries its full range.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  two-level 6, 7\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  two-level 5, 7\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["link.two-level"] },
  check(craft) {
    const { twoLevelChannels } = linkOf(craft);
    if (twoLevelChannels.length === 0) return [];
    const used = usedControls(craft, conditionNodes(craft));
    // A handset serves many craft: a control that this one does not use loses nothing.
    return [...craft.controls.values()].flatMap(({ name, value, source, fromHandset }) => {
      if (!value || !twoLevelChannels.includes(value.channel) || (fromHandset && !used.has(name))) return [];
      if (value.control === "dial")
        return [
          {
            at: locationAt(source, value.channelAt),
            message: `${name} is a dial on ch${value.channel}, which carries two levels only: all between its ends is lost.`,
          },
        ];
      const middles = lostPositions(value).map((name) => `“${name}”`);
      if (middles.length === 0) return [];
      return [
        {
          at: locationAt(source, value.channelAt),
          message: `ch${value.channel} carries two levels only: ${middles.join(", ")} of ${name} cannot arrive.`,
        },
      ];
    });
  },
};
