import { elementArea, layoutOf, onGrid, sharedArea } from "../../osd/layout.ts";
import { centralCells } from "../../osd/safe-area.ts";
import { OSD_PAGES } from "../../protocol/osd.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";
import { SHOWN_TEXTS } from "../lib/name-groups.ts";
import { areaInWords } from "../lib/osd-places.ts";

const KEPT_OUT: NameGroup = {
  words: "every element that is text and not made for the middle",
  names: ({ elements }) => elements.filter(({ drawn, centre }) => drawn === "text" && !centre).map(({ name }) => name),
};

export const rule: CraftRule = {
  code: "osd-centre-clutter",
  severity: "hint",
  scope: "craft",
  summary: "Text stands in the middle third of the picture.",
  prose:
    "The middle is where the gap in the hedge comes towards you: text there covers the one branch that ends the flight, and draws the eye from it. Sight, horizon line, alerts and messages may stand there, since that is what they are for. Put figures along the edges. That the middle third is to be clear is this project's own figure: no published one was found.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid 53 x 20\n  pack-volts at centre, middle\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid 53 x 20\n  pack-volts at centre, bottom-2\n' },
  },
  looksAt: { settings: ["osd.grid", SHOWN_TEXTS], elements: [KEPT_OUT] },
  check: (craft, workspace) =>
    OSD_PAGES.flatMap((page) => {
      const layout = layoutOf(craft, workspace.catalogue, page);
      if (!layout) return [];
      const centre = centralCells(layout.grid);
      return layout.elements
        .filter(({ element }) => element.drawn === "text" && !element.centre)
        .filter((placed) => onGrid(placed, layout.grid) && sharedArea(elementArea(placed), centre) !== null)
        .map((placed) => ({
          at: valueLocation(workspace, placed.source),
          message: `${placed.name} reaches into the middle of the picture, ${areaInWords(centre)}, where the pilot looks to fly: move it towards an edge.`,
        }));
    }),
};
