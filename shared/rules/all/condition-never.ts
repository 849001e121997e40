import { boardOf, linkOf } from "../../logic/from-craft.ts";
import { type Craft, modeNamed } from "../../model/craft.ts";
import { walkCondition } from "../../syntax/condition.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { lostPositions } from "../lib/indistinct-controls.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "condition-never",
  severity: "error",
  scope: "craft",
  summary: "No state of the controls makes a condition true.",
  prose:
    "The mode can never be on, so a switch that was meant to do something does nothing: the finder stays silent, turtle never rights the craft. Mostly one “and” should be an “or”, or a range lies outside what the channel can carry: correct the one or the other. Every combination of positions and pulses was considered, not a sample.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  finder when TR is up and TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  finder when TR is up\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["link.two-level"], modes: [EVERY_MODE] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return board.names.flatMap((name) => {
      if (board.selected(name) !== board.sets.none) return [];
      return [
        {
          ...conditionLocation(craft, workspace, name),
          message: `No state of the controls makes this true: ${name} can never be on.${lostIn(craft, name)}`,
        },
      ];
    });
  },
};

/** A reason that is easily overlooked: positions in the condition that a channel of two levels loses. */
function lostIn(craft: Craft, name: string): string {
  const { twoLevelChannels } = linkOf(craft);
  if (twoLevelChannels.length === 0) return "";
  for (const { condition } of modeNamed(craft, name)?.lines ?? []) {
    for (const node of condition ? walkCondition(condition) : []) {
      if (node.kind !== "is" || node.negated) continue;
      const control = craft.controls.get(node.control)?.value;
      if (!control || !twoLevelChannels.includes(control.channel)) continue;
      if (!lostPositions(control).includes(node.position)) continue;
      return ` ${node.control} at “${node.position}” is lost on ch${control.channel}, which carries two levels only.`;
    }
  }
  return "";
}
