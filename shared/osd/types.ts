/** Where the elements of a page come to stand on the grid. */

import type { Element } from "../catalogue/types.ts";
import type { Source } from "../model/craft.ts";
import type { Axis } from "../syntax/value.ts";

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
  /** As the script says it. */
  readonly place: Place;
  readonly source: Source;
}

/** A place as written: each axis from an anchor, or counted from 0. */
export interface Place {
  readonly column: Axis;
  readonly row: Axis;
}

export interface Layout {
  readonly grid: Grid;
  /** In the order in which the script says them. */
  readonly elements: readonly PlacedElement[];
}

export type Page = "osd" | "osd-second";

/** The moment of a flight whose readings are shown. */
export type Scenario = "fresh-pack" | "mid-flight" | "low-pack" | "link-fading" | "link-lost";
