/** The types of a layout: elements with their cells on the grid. */
import type { ElementSpec } from "../catalogue/specs.ts";
import type { Source } from "../model/craft.ts";
import type { Grid } from "../protocol/osd.ts";
import type { Axis } from "../syntax/value.ts";

export type { Grid, OsdPage as Page, Scenario } from "../protocol/osd.ts";

/** A rectangle of whole cells, ends included. */
export interface CellArea {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PlacedElement {
  readonly name: string;
  readonly element: ElementSpec;
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
  /** As written in the script. */
  readonly place: WrittenPlace;
  readonly source: Source;
}

/** A place as written: each axis relative to an anchor, or counted from 0. */
export interface WrittenPlace {
  readonly column: Axis;
  readonly row: Axis;
}

export interface Layout {
  readonly grid: Grid;
  /** In the script's order. */
  readonly elements: readonly PlacedElement[];
}
