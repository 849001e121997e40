import { CHEMISTRIES } from "../../numbers/pack.ts";
import { numberOf } from "../../numbers/values.ts";
import type { CraftRule } from "../engine/rule.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

const THRESHOLDS = [
  { name: "full-at", of: "full" },
  { name: "warn-at", of: "warn" },
  { name: "land-at", of: "land" },
  { name: "storage-at", of: null },
] as const;

/** What comes of a threshold above what is usual, or below. The others are errors before they are unusual. */
const CONSEQUENCES = {
  "full low":
    "A cell charged only so far holds four fifths of its charge or less, and whatever is counted from full counts wrong.",
  "warn high":
    "Under the load of a take-off a fresh pack sags that far: the warning rings just after take-off, and soon nobody listens to it.",
  "warn low": "When it rings, next to nothing is left for the way home.",
  "land high": "One would land with about half of the charge unused.",
} as const;

/** The thresholds that the chemistry does not allow, or that are not usual for it. */
function strainOf(pack: CheckedPack): PackReport[] {
  if (pack.chemistry === null) return [];
  const { chargeLimitV, cutOffV, usualV } = CHEMISTRIES[pack.chemistry];
  return THRESHOLDS.flatMap(({ name, of: kind }) => {
    const setting = pack.setting(name);
    const volts = numberOf(setting?.value, "V/cell");
    if (volts === null) return [];
    const of = [setting, pack.setting("chemistry")];
    if (volts > chargeLimitV) {
      const message = `${name} is ${volts} V/cell, above the ${chargeLimitV} V at which a ${pack.chemistry} cell is full: charged so far it can burn. Take at most ${chargeLimitV} V/cell, or correct the chemistry.`;
      return [{ of, message }];
    }
    if (volts < cutOffV) {
      const message = `${name} is ${volts} V/cell, below the ${cutOffV} V under which a ${pack.chemistry} cell is damaged: take a higher one, or correct the chemistry.`;
      return [{ of, message }];
    }
    const usual = kind && usualV[kind];
    if (!usual || (volts >= usual.from && volts <= usual.to)) return [];
    const end = `${kind} ${volts > usual.to ? "high" : "low"}` as keyof typeof CONSEQUENCES;
    const message = `${name} is ${volts} V/cell, where ${usual.from} to ${usual.to} V/cell is usual for ${pack.chemistry} (common practice, no source). ${CONSEQUENCES[end]} Correct it, or the chemistry if the pack is of another kind.`;
    return [{ of, message, severity: "warning" as const }];
  });
}

export const rule: CraftRule = {
  code: "pack-chemistry",
  severity: "error",
  scope: "craft",
  summary:
    "A voltage of the pack is one that its chemistry does not allow, or (a warning) one that is not usual for it.",
  prose:
    "Each kind of cell has a charge limit, above which it can burn, and a cut-off, below which it is damaged: 4.20 V and, under load, 3.0 V for a lipo; 4.35 V for the high-voltage kind; down to 2.5 V for cylindrical cells that are made for strong currents (cell makers' summaries; ACT2804 datasheet; common practice). Between them lies what pilots commonly set, in volts under load (common practice, no source). Beyond a limit this is an error, beyond what is usual a warning. Correct the volts, or the chemistry if the pack is of another kind.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  chemistry lipo\n  full-at 4.35 V/cell\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  chemistry lihv\n  full-at 4.35 V/cell\n' },
  },
  looksAt: { settings: ["pack.chemistry", ...THRESHOLDS.map(({ name }) => `pack.${name}` as const)] },
  check: (craft, workspace) => packReports(craft, workspace, strainOf, null),
};
