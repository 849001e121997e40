import { boardOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "arm-in-middle",
  severity: "warning",
  scope: "craft",
  summary: "The craft is armed only in a middle position of a control.",
  prose:
    "A middle position is passed on the way from one end to the other, so a hand that wants the far end arms the craft in passing. Arm at an end of the switch, where the lever stops.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TR is mid\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", "arm-permit"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    const { armed, sets } = board;
    if (armed === null || armed === sets.none) return [];
    const names = new Set(sets.dependsOn(armed));
    return board.variables.flatMap(({ name, control }) => {
      if (!names.has(name) || !control || control.positions.length < 3) return [];
      const arming = control.positions.filter(
        (position) => sets.meet(armed, sets.where({ [name]: position.name })) !== false,
      );
      // The lever passes the positions in the order of their pulses, however the handset lists them.
      const pulses = control.positions.map(({ pulseUs }) => pulseUs);
      const ends = [Math.min(...pulses), Math.max(...pulses)];
      if (arming.length === 0 || arming.some(({ pulseUs }) => ends.includes(pulseUs))) return [];
      const where = arming.map((position) => `“${position.name}”`).join(", ");
      return [
        {
          ...conditionLocation(craft, workspace, "arm"),
          message: `Armed only with ${name} at ${where}, which the lever passes on its way to the end.`,
        },
      ];
    });
  },
};
