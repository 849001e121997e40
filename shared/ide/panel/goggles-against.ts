/** One page of the OSD of two craft: the picture of the other, and which elements are not in the same place. */
import type { Craft } from "../../model/craft.ts";
import { pagesOf, placedOn } from "../../osd/layout.ts";
import type { ElementMark, GogglesAgainst, SideHas } from "../../protocol/against.ts";
import { type OsdPage, sameGrid } from "../../protocol/osd.ts";
import type { GogglesPicture, PanelElement } from "../../protocol/panel.ts";
import type { Difference } from "../compare/compare.ts";
import { type GogglesQuery, gogglesOf } from "./goggles.ts";
import type { OtherCraft } from "./other-craft.ts";

/**
 * The same page of the other craft at the same moment; null where it lays none out. Elements are in the same place if
 * they take the same cells of one grid; on two grids, if their places say the same.
 */
export function gogglesAgainst(
  here: GogglesPicture,
  craft: Craft,
  other: OtherCraft,
  differences: readonly Difference[],
  query: GogglesQuery,
): GogglesAgainst | null {
  const { page } = here;
  const there = gogglesOf(other.craft, other.workspace, { ...query, page, fit: undefined });
  if (there?.page !== page) return null;
  const differing = new Set(differences.map(({ what }) => what));
  const [ours, theirs] = [byName(here), byName(there)];
  const [saidHere, saidThere] = [placedOn(craft, page), placedOn(other.craft, page)];
  const hasMoved = (name: string) => {
    const [a, b] = [ours.get(name), theirs.get(name)];
    // A preview is on another grid than the lines that were compared.
    if (here.preview && a && b && sameGrid(here, there)) return a.column !== b.column || a.row !== b.row;
    return differing.has(`${page}.${name}`) || (a === undefined) !== (b === undefined);
  };
  const marks = [...new Set([...saidHere.keys(), ...saidThere.keys()])].filter(hasMoved).map(
    (name): ElementMark => ({
      name,
      here: has(ours.has(name), saidHere.has(name)),
      there: has(theirs.has(name), saidThere.has(name)),
    }),
  );
  return { picture: { ...there, addable: [] }, marks, notes: notesOf(here, there) };
}

/** Why the other craft has no picture of a page, in a sentence. */
export function whyNoneThere(other: Craft, page: OsdPage): string {
  if (placedOn(other, page).size === 0 || !pagesOf(other).includes(page))
    return page === "osd" ? "There nothing is placed on the OSD." : "There nothing is placed on the second page.";
  return "There the OSD has no grid that can be read, so nothing that is placed has its cell.";
}

function byName({ elements }: GogglesPicture): ReadonlyMap<string, PanelElement> {
  return new Map(elements.map((element) => [element.name, element]));
}

function has(isDrawn: boolean, isSaid: boolean): SideHas {
  return isDrawn ? "drawn" : isSaid ? "said" : "nothing";
}

function notesOf(here: GogglesPicture, there: GogglesPicture): string[] {
  const size = ({ columns, rows }: GogglesPicture) => `${columns} by ${rows} cells`;
  const shape = ({ aspect }: GogglesPicture) => (aspect > 1.5 ? "16:9" : "4:3");
  return [
    ...(sameGrid(here, there)
      ? []
      : [
          `There the grid is another one, ${size(there)}; here it is ${size(here)}. Its outlines are stretched to this picture, and places that are written alike count as the same.`,
        ]),
    ...(here.aspect === there.aspect ? [] : [`There the picture is ${shape(there)}, here ${shape(here)}.`]),
  ];
}
