import { settingOf } from "../../model/setting-lookup.ts";
import { gridOf } from "../../osd/layout.ts";
import { isAnalogue } from "../../osd/safe-area.ts";
import { type Grid, NAMED_GRIDS, sameGrid } from "../../protocol/osd.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "grid-mismatch",
  severity: "warning",
  scope: "craft",
  summary:
    "The viewer draws another grid than the craft lays out, or an analogue picture is laid out on a grid that it cannot have.",
  prose:
    "Craft and viewer must count the same columns and rows. If the viewer has fewer, what stands at the right and at the bottom is never seen; if it has more, everything stands in one corner. An analogue picture has the overlay chip's grid: 30 columns, and 16 rows in a picture of 625 lines or 13 in one of 525 (character-overlay chip datasheet MAX7456, p. 10). Write the grid that the viewer really has, then fit the layout to it.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nvideo\n  viewer-grid 53 x 20\n\nosd\n  grid 50 x 18\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nvideo\n  viewer-grid 53 x 20\n\nosd\n  grid 53 x 20\n' },
  },
  looksAt: { settings: ["osd.grid", "video.viewer-grid", "video.signal"] },
  check: (craft, workspace) => {
    const grid = gridOf(craft);
    const gridSetting = settingOf(craft, "osd.grid");
    if (!grid || !gridSetting) return [];
    const reports: Report[] = [];
    const viewer = settingOf(craft, "video.viewer-grid");
    if (viewer?.value?.kind === "size" && !sameGrid(viewer.value, grid)) {
      reports.push({
        at: valueLocation(workspace, viewer.source),
        message: `The viewer draws ${sizeInWords(viewer.value)}, the craft lays out ${sizeInWords(grid)}: they have to be the same.`,
        related: [{ message: "The craft's grid", at: valueLocation(workspace, gridSetting.source) }],
        alsoOf: [gridSetting.source],
      });
    }
    if (isAnalogue(craft) && !Object.values(NAMED_GRIDS).some((each) => sameGrid(each, grid))) {
      reports.push({
        at: valueLocation(workspace, gridSetting.source),
        message: `An analogue picture has 30 x 16 cells (pal) or 30 x 13 (ntsc), not ${sizeInWords(grid)}.`,
      });
    }
    return reports;
  },
};

function sizeInWords({ columns, rows }: Grid): string {
  return `${columns} x ${rows}`;
}
