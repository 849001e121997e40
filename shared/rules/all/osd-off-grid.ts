import { gridArea, layoutOf, onGrid } from "../../osd/layout.ts";
import { OSD_PAGES } from "../../protocol/osd.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";
import { EVERY_ELEMENT, SHOWN_TEXTS } from "../lib/name-groups.ts";
import { moveInto } from "../lib/osd-places.ts";

export const rule: CraftRule = {
  code: "osd-off-grid",
  severity: "error",
  scope: "craft",
  summary: "An element's widest text leaves the grid.",
  prose:
    "What stands outside the grid is not drawn, or wraps to the other side of the picture, often only when the number grows a digit in flight. Move the element in, or anchor it to the edge: right-2 keeps its end two cells from the last column whatever the grid.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  pack-volts at 28, 3\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  pack-volts at right-2, 3\n' },
  },
  looksAt: { settings: ["osd.grid", SHOWN_TEXTS], elements: [EVERY_ELEMENT] },
  check: (craft, workspace) =>
    OSD_PAGES.flatMap((page) => {
      const layout = layoutOf(craft, workspace.catalogue, page);
      if (!layout) return [];
      const { columns, rows } = layout.grid;
      return layout.elements
        .filter((placed) => !onGrid(placed, layout.grid))
        .map((placed) => {
          const { name, width, height, column, row } = placed;
          const tooLarge = width > columns || height > rows;
          return {
            at: valueLocation(workspace, placed.source),
            message: tooLarge
              ? `${name} is up to ${width} x ${height} cells: on a grid of ${columns} x ${rows} it has no place at all.`
              : `${name} is up to ${width} x ${height} cells and begins at ${column}, ${row}: it leaves the grid of ${columns} x ${rows}.`,
            fixes: moveInto(gridArea(layout.grid), placed, layout, craft),
          };
        });
    }),
};
