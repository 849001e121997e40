import { elementArea, layoutOf, onGrid } from "../../osd/layout.ts";
import { contains, isAnalogue, pictureOf, SAFE_SHARE, safeCellsOf } from "../../osd/safe-area.ts";
import { OSD_PAGES } from "../../protocol/osd.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";
import { EVERY_ELEMENT, SHOWN_TEXTS } from "../lib/name-groups.ts";
import { areaInWords, moveInto } from "../lib/osd-places.ts";

export const rule: CraftRule = {
  code: "osd-unsafe-area",
  severity: "hint",
  scope: "craft",
  summary: "An element of an analogue picture stands where a screen may not show it.",
  prose:
    "Screens and goggles for analogue pictures cut off the edge, each a different amount: only the middle 90 % of a 4:3 picture, and 93 % of a wide one, is sure to be seen (BKSTS Illustrated Dictionary, App. B). A voltage half hidden by the edge is read wrongly when it matters. Move the element in by a cell or two; if your own goggles show all of it, say so with a note that allows this finding.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nvideo\n  signal analogue\n\nosd\n  grid pal\n  pack-volts at left, bottom-1\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nvideo\n  signal analogue\n\nosd\n  grid pal\n  pack-volts at left+2, bottom-1\n',
    },
  },
  looksAt: {
    settings: ["osd.grid", "osd.picture", "video.camera-picture", "video.signal", SHOWN_TEXTS],
    elements: [EVERY_ELEMENT],
  },
  check: (craft, workspace) => {
    if (!isAnalogue(craft)) return [];
    const picture = pictureOf(craft);
    return OSD_PAGES.flatMap((page) => {
      const layout = layoutOf(craft, workspace.catalogue, page);
      if (!layout) return [];
      const safe = safeCellsOf(craft, layout.grid);
      return layout.elements
        .filter((placed) => onGrid(placed, layout.grid) && !contains(safe, elementArea(placed)))
        .map((placed) => ({
          at: valueLocation(workspace, placed.source),
          message: `${placed.name} leaves the safe area: of a ${picture} picture only the middle ${Math.round(SAFE_SHARE[picture] * 100)} % is sure to be seen, here ${areaInWords(safe)}.`,
          fixes: moveInto(safe, placed, layout, craft),
        }));
    });
  },
};
