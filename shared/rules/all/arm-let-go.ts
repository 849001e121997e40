import { boardOf } from "../../logic/from-craft.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { FLIGHT_MODES } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "arm-let-go",
  severity: "warning",
  scope: "craft",
  summary: "Arming depends on a second control that is moved in flight, so that another mode stops the motors.",
  prose:
    "A condition that asks for two controls lets go when either is moved. Where the second one also selects levelling, rates or a hold, it will be moved in the air, and the craft falls. Arm by the one switch alone; what should only be looked at in the moment of arming belongs into arm-permit, which most boards then leave alone.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down and TR is down\n  level when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  arm-permit when TR is down\n  level when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: ["arm", FLIGHT_MODES] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    const { sets } = board;
    const arm = board.selected("arm");
    if (arm === null || arm === sets.none) return [];
    const controls = sets.dependsOn(arm);
    if (controls.length < 2) return [];
    return controls.flatMap((control) => {
      const others = controls.filter((each) => each !== control);
      const moved = FLIGHT_MODES.names(workspace.catalogue).filter((name) => {
        const mode = craft.modes.has(name) ? board.selected(name) : null;
        // A mode that asks for arm asks for its controls through it alone.
        if (mode === null || sets.within(mode, arm) !== false) return false;
        const byItself = sets.some(mode, others);
        return byItself !== null && sets.dependsOn(byItself).includes(control);
      });
      if (moved.length === 0) return [];
      return [
        {
          ...conditionLocation(craft, workspace, "arm"),
          message: `Arming asks for ${control} as well, by which ${joinWithAnd(moved)} ${moved.length === 1 ? "is" : "are"} chosen in flight: moved in the air it stops the motors. Arm by one switch alone, and put the rest into arm-permit.`,
        },
      ];
    });
  },
};
