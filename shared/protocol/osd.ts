/** Terms of the OSD that every part of the program shares: pages, grids, and the moments of a flight. */

export type OsdPage = "osd" | "osd-second";
export const OSD_PAGES: readonly OsdPage[] = ["osd", "osd-second"];

export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** A cell of a grid, counted from 0 at the top left. */
export interface GridCell {
  readonly column: number;
  readonly row: number;
}

/**
 * Grids with a name: 30 columns, with 16 rows for PAL and 13 for NTSC.
 * Source: character-overlay chip datasheet MAX7456 (19-0576 Rev 0, 8/07, p. 10).
 */
export const NAMED_GRIDS: Readonly<Record<string, Grid>> = {
  pal: { columns: 30, rows: 16 },
  ntsc: { columns: 30, rows: 13 },
};

/** Sizes in use: those of overlay chips, and the wide ones of digital viewers (common practice, no source). */
export const USUAL_GRIDS: readonly Grid[] = [
  ...Object.values(NAMED_GRIDS),
  { columns: 50, rows: 18 },
  { columns: 53, rows: 20 },
  { columns: 60, rows: 22 },
];

export function sameGrid(a: Grid, b: Grid): boolean {
  return a.columns === b.columns && a.rows === b.rows;
}

/** The largest grid that a script may set. */
export const LARGEST_GRID: Grid = { columns: 64, rows: 32 };
export const MOST_CELLS = LARGEST_GRID.columns * LARGEST_GRID.rows;

/** The moment of a flight whose readings are shown. */
export type Scenario = "fresh-pack" | "mid-flight" | "low-pack" | "link-fading" | "signal-lost";
export const SCENARIOS: readonly { readonly name: Scenario; readonly label: string }[] = [
  { name: "fresh-pack", label: "Fresh pack" },
  { name: "mid-flight", label: "Mid flight" },
  { name: "low-pack", label: "Low pack" },
  { name: "link-fading", label: "Link fading" },
  { name: "signal-lost", label: "Signal lost" },
];
