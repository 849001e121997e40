/** The elements that are not in the same place on both sides of a comparison, with their cells in one picture. */
import type { ElementMark, GogglesAgainst } from "../protocol/against.ts";
import type { GogglesPicture, PanelElement } from "../protocol/panel.ts";

/** Cells of a picture, in its own counting and in parts of a cell. */
export interface Cells {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** What differs, with both sides' cells; those of there stretched to the grid of here. */
export interface Differing {
  readonly mark: ElementMark;
  readonly here: PanelElement | undefined;
  readonly there: PanelElement | undefined;
  readonly cellsThere: Cells | undefined;
}

/** Every mark with the elements that it is about. */
export function differingElements(here: GogglesPicture, { picture: there, marks }: GogglesAgainst): Differing[] {
  const [across, down] = [here.columns / there.columns, here.rows / there.rows];
  const [ours, theirs] = [here, there].map(({ elements }) => new Map(elements.map((each) => [each.name, each])));
  return marks.map((mark) => {
    const element = theirs!.get(mark.name);
    return {
      mark,
      here: ours!.get(mark.name),
      there: element,
      cellsThere: element && {
        column: element.column * across,
        row: element.row * down,
        width: element.width * across,
        height: element.height * down,
      },
    };
  });
}
