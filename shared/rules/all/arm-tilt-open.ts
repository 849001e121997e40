import { convert } from "../../catalogue/units.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { sizeOfCraft } from "../../model/unusual-values.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

/** From this tilt on a limit allows every attitude that matters. */
const OPEN_DEG = 90;
/** Propellers of this diameter and more hurt enough to warn. The project's own figure. */
const LARGE_IN = 3;

export const rule: CraftRule = {
  code: "arm-tilt-open",
  severity: "hint",
  scope: "craft",
  summary: "The tilt limit is open: the craft arms in any attitude, also in the hand.",
  prose:
    "On a small craft this is common, since it may have to start from a slope or a rock. The larger the propellers, the more a start in the hand hurts: from 3 in on it is worth a second switch that permits arming. Set a limit, or set up arm-permit on a control of its own.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-tilt-limit any\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-tilt-limit 60 deg\n' },
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
    const large = propellerIn !== undefined && propellerIn >= LARGE_IN && !craft.modes.has("arm-permit");
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
