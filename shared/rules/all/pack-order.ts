import type { Setting } from "../../model/craft.ts";
import { CHEMISTRIES } from "../../numbers/pack.ts";
import type { CraftRule } from "../engine/rule.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

interface Step {
  readonly setting: Setting | null;
  readonly name: string;
  readonly volts: number;
  /** What happens to a pack if this does not lie above the next. */
  readonly otherwise: string;
}

/** The thresholds that the craft sets, from full to empty. */
function stepsOf(pack: CheckedPack): Step[] {
  const step = (name: string, volts: number | null, otherwise: string) =>
    volts === null ? [] : [{ setting: pack.setting(name), name, volts, otherwise }];
  const floor = pack.chemistry === null ? null : CHEMISTRIES[pack.chemistry].cutOffV;
  return [
    ...step("full-at", pack.fullCellV, "a full pack counts as low"),
    ...step("warn-at", pack.warnCellV, "the warning comes when it is time to be down already"),
    ...step("land-at", pack.landCellV, "the pack is drawn to where its cells are damaged"),
    ...step(`the cut-off of ${pack.chemistry}`, floor, ""),
  ];
}

/** A report for each step that does not lie above the next. */
function disorderOf(pack: CheckedPack): PackReport[] {
  const steps = stepsOf(pack);
  return steps.slice(1).flatMap((lower, i) => {
    const upper = steps[i]!;
    // To land just at the cut-off is to spare the cells: a single one that sags is flown so.
    const isLastStep = lower.setting === null;
    if (isLastStep ? upper.volts >= lower.volts : upper.volts > lower.volts) return [];
    return [
      {
        of: lower.setting ? [lower.setting, upper.setting] : [upper.setting, pack.setting("chemistry")],
        message: `${upper.name} is ${upper.volts} V/cell, which is ${isLastStep ? "below" : "not above"} ${lower.name} (${lower.volts} V/cell): ${upper.otherwise}. The order is full, warn, land, cut-off.`,
      },
    ];
  });
}

export const rule: CraftRule = {
  code: "pack-order",
  severity: "error",
  scope: "craft",
  summary: "Full, warn, land and the chemistry's cut-off do not fall in this order.",
  prose:
    "A pack goes from full to the warning, from there to landing, and must be down before its cells reach the cut-off below which they are damaged. With two of these the wrong way round or equal, the warning comes too late to be one, or comes on a fresh pack and is soon ignored. Put the volts of one cell in this order, with room between them to fly home.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  warn-at 3.3 V/cell\n  land-at 3.5 V/cell\n' },
    good: {
      "jug.fettle":
        'craft "Jug"\n\npack\n  chemistry lipo\n  full-at 4.2 V/cell\n  warn-at 3.5 V/cell\n  land-at 3.3 V/cell\n',
    },
  },
  looksAt: { settings: ["pack.full-at", "pack.warn-at", "pack.land-at", "pack.chemistry"] },
  check: (craft, workspace) => packReports(craft, workspace, disorderOf, null),
};
