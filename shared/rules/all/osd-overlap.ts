import { gridArea, layoutOf, overlapsOf } from "../../osd/layout.ts";
import type { CellArea, PlacedElement } from "../../osd/placed.ts";
import { OSD_PAGES } from "../../protocol/osd.ts";
import type { Fix } from "../../syntax/span.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";
import { SHOWN_TEXTS } from "../lib/name-groups.ts";
import { moveInto } from "../lib/osd-places.ts";

const SHARING_NO_CELL: NameGroup = {
  words: "every element that is not made to lie over others",
  names: ({ elements }) => elements.filter(({ overlapsNothing }) => !overlapsNothing).map(({ name }) => name),
};

export const rule: CraftRule = {
  code: "osd-overlap",
  severity: "warning",
  scope: "craft",
  summary: "Two elements of a page share a cell.",
  prose:
    "One is drawn over the other, and which one is on top changes with what they show; a voltage half covered by a timer reads as another voltage. The widest text of each is taken, since that is what stands there when it matters. Move one of them.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  pack-volts at 2, 3\n  flight-time at 4, 3\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  pack-volts at 2, 3\n  flight-time at 2, 4\n' },
  },
  looksAt: { settings: ["osd.grid", SHOWN_TEXTS], elements: [SHARING_NO_CELL] },
  check: (craft, workspace) =>
    OSD_PAGES.flatMap((page) => {
      const layout = layoutOf(craft, workspace.catalogue, page);
      if (!layout) return [];
      // One move frees an element of all that it overlaps, so it is computed once.
      const fixes = new Map<PlacedElement, Fix[]>();
      const fixesOf = (placed: PlacedElement) => {
        const known = fixes.get(placed) ?? moveInto(gridArea(layout.grid), placed, layout, craft);
        fixes.set(placed, known);
        return known;
      };
      return overlapsOf(layout).map(({ first, second, shared }) => ({
        at: valueLocation(workspace, second.source),
        message: `${second.name} and ${first.name} share ${cellsInWords(shared)}.`,
        related: [{ message: `${first.name} stands here`, at: valueLocation(workspace, first.source) }],
        alsoOf: [first.source],
        fixes: fixesOf(second),
      }));
    }),
};

function cellsInWords({ left, top, right, bottom }: CellArea): string {
  const count = (right - left + 1) * (bottom - top + 1);
  return count === 1 ? `the cell ${left}, ${top}` : `${count} cells, from ${left}, ${top} to ${right}, ${bottom}`;
}
