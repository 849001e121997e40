import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import { ambiguousCells, CHEMISTRIES, MOST_PACK_CELLS } from "../../numbers/pack.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

const LIMIT = "board.input-limit";

/** The cell counts that the board may mistake for each other; `limitV` is the maximum of its input. */
function doubtOf(pack: CheckedPack, limitV: number | undefined): PackReport[] {
  if (!pack.cellsDetected) return [];
  const facts = pack.chemistry === null ? null : CHEMISTRIES[pack.chemistry];
  const fullV = pack.fullCellV ?? facts?.chargeLimitV;
  const emptyV = pack.landCellV ?? pack.warnCellV ?? facts?.usualV.land.from;
  if (fullV === undefined || emptyV === undefined) return [];
  // Rounding must not remove the last cell that the board can take.
  const most = limitV === undefined ? MOST_PACK_CELLS : Math.min(MOST_PACK_CELLS, Math.floor(limitV / fullV + 1e-9));
  const mistaken = ambiguousCells(emptyV, fullV, most);
  if (!mistaken) return [];
  const { fewer, more, fromV, toV } = mistaken;
  return [
    {
      of: [
        pack.setting("cells"),
        pack.setting("full-at"),
        pack.setting("land-at") ?? pack.setting("warn-at"),
        settingOf(pack.craft, LIMIT),
      ],
      message: `From ${decimalText(fromV, 2)} V to ${decimalText(toV, 2)} V a pack can be of ${fewer} nearly full cells or of ${more} nearly empty ones, and taken for ${fewer} it is flown until it falls: say how many cells it has.`,
    },
  ];
}

export const rule: CraftRule = {
  code: "cells-ambiguous",
  severity: "warning",
  scope: "craft",
  summary: "The board is left to count the cells, and one voltage fits two counts.",
  prose:
    "A board that counts cells divides the voltage at plug-in by what one cell may have. From some count on, a pack of one cell more that is nearly empty reads like a full one of one cell less: taken for full, it is flown until it falls, for every warning is then a cell too low. Say the number of cells; a craft that flies on several packs can name each of them.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  chemistry lipo\n  cells detect\n' },
    good: { "jug.fettle": 'craft "Jug"\n\npack\n  chemistry lipo\n  cells 6\n' },
  },
  looksAt: {
    settings: ["pack.cells", "pack.chemistry", "pack.full-at", "pack.warn-at", "pack.land-at", LIMIT],
  },
  check: (craft, workspace) => packReports(craft, workspace, doubtOf, amountIn(settingOf(craft, LIMIT), "V")),
};
