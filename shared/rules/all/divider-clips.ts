import { CHEMISTRIES } from "../../numbers/pack.ts";
import { voltsMeterOf } from "../../numbers/sensing-of.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

/** Settings of the pack on which the finding rests, the one to point at first. */
const RESTS_ON = ["divider-top", "divider-bottom", "cells", "adc-reference", "full-at"] as const;

function clippedVolts(pack: CheckedPack): PackReport[] {
  const meter = voltsMeterOf(pack.craft, pack.catalogue, pack.section);
  const fullCellV = pack.fullCellV ?? (pack.chemistry && CHEMISTRIES[pack.chemistry].chargeLimitV);
  if (!meter || pack.cells === null || fullCellV === null) return [];
  const fullV = pack.cells * fullCellV;
  const { clipV, divider, converter } = meter;
  if (clipV * (1 + 1e-9) >= fullV) return [];
  const neededKohm = Math.ceil(divider.bottomKohm * (fullV / converter.referenceV - 1) * 100) / 100;
  return [
    {
      of: RESTS_ON.map((name) => pack.setting(name)),
      message: `The meter reads up to ${decimalText(clipV, 2)} V (${converter.referenceV} V at the pin, behind ${divider.topKohm} over ${divider.bottomKohm} kohm), and the full pack has ${decimalText(fullV, 2)} V: above that its reading no longer changes. With this divider-bottom the top has to be ${neededKohm} kohm or more; look at the board's own parts.`,
    },
  ];
}

export const rule: CraftRule = {
  code: "divider-clips",
  severity: "warning",
  scope: "craft",
  summary: "The converter that measures the pack reaches its maximum before the pack is full.",
  prose:
    "Two resistors scale the pack down to what the converter can read: its reference times (top + bottom) / bottom. A pack above that reads as exactly that, so a fresh one and a half-used one look alike, and a count of the cells goes wrong. Either a resistor or the reference is written down wrongly, or the board is not made for so many cells, and then its pin may not be either. Check all three figures against the board before such a pack is plugged in.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\npack\n  chemistry lipo\n  cells 6\n  divider-top 10 kohm\n  divider-bottom 2 kohm\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\npack\n  chemistry lipo\n  cells 6\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n',
    },
  },
  looksAt: {
    settings: [...RESTS_ON.map((name) => `pack.${name}` as const), "pack.chemistry", "pack.volts-from"],
  },
  check: (craft, workspace) => packReports(craft, workspace, clippedVolts, null),
};
