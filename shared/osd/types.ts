/** Where the elements of a page come to stand on the grid. */

import type { Element } from "../catalogue/types.ts";
import type { Source } from "../model/craft.ts";

export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Whole cells, ends included. */
export interface CellArea {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PlacedElement {
  readonly name: string;
  readonly element: Element;
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
  readonly source: Source;
}

export interface Layout {
  readonly grid: Grid;
  /** In the order in which the script says them. */
  readonly elements: readonly PlacedElement[];
}

export type Page = "osd" | "osd-second";
