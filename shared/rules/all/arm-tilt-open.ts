import { convert } from "../../catalogue/units.ts";
import { sizeOfCraft } from "../../model/craft-traits.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

/** From this tilt on a limit allows every attitude that matters. */
const OPEN_DEG = 90;
/** Smaller propellers do little harm, and such craft start from a slope, a rock or a shelf. The project's own figure. */
const SMALL_IN = 2;
/** Propellers of this diameter and more cut deeply. The project's own figure. */
const LARGE_IN = 7;

export const rule: CraftRule = {
  code: "arm-tilt-open",
  severity: "hint",
  scope: "craft",
  summary: "The tilt limit is open on a craft of some size: it arms in any attitude, also in the hand.",
  prose:
    "On a small craft this is common, since it may have to start from a slope or a rock; below 2 in nothing is said. The larger the propellers, the more a start in the hand hurts, and from 7 in on a second switch has to permit arming (both sizes are the project's own figures). Set a limit, or set up arm-permit on a control of its own.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nframe\n  propeller-diameter 5 in\n\nsafety\n  arm-tilt-limit any\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nframe\n  propeller-diameter 5 in\n\nsafety\n  arm-tilt-limit 60 deg\n' },
  },
  looksAt: { settings: ["safety.arm-tilt-limit", "frame.propeller-diameter"], modes: ["arm-permit"] },
  check(craft, workspace) {
    const limit = settingOf(craft, "safety.arm-tilt-limit");
    const value = limit?.value;
    if (!limit || !value) return [];
    const open =
      value.kind === "choice"
        ? value.word === "any"
        : value.kind === "quantity" && (convert(value.number, value.unit, "deg") ?? 0) >= OPEN_DEG;
    if (!open) return [];
    const { propellerIn } = sizeOfCraft(craft);
    if (propellerIn === undefined || propellerIn < SMALL_IN) return [];
    const large = propellerIn >= LARGE_IN && !craft.modes.has("arm-permit");
    const advice = large ? ` With propellers of ${propellerIn} in set a limit, or a second switch as arm-permit.` : "";
    return [
      {
        at: valueLocation(workspace, limit.source),
        message: `The craft arms in any attitude, also in the hand.${advice}`,
        severity: large ? ("warning" as const) : ("hint" as const),
      },
    ];
  },
};
