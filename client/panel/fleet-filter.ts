/** Which of the fleet's tables there are, and which of their rows and columns are shown. */
import {
  cellDiffers,
  cellsIn,
  craftOfRow,
  type PackedFleet,
  type PackedTable,
} from "../../shared/protocol/fleet-messages.ts";

export interface ListedTable {
  readonly id: string;
  readonly title: string;
  readonly table: PackedTable;
}

/** The tables to choose from; those of the controls, one for each handset, come first. */
export function tablesOf({ controls, settings, layers, checks, video }: PackedFleet): readonly ListedTable[] {
  const others = { settings, layers, checks, video: video.table };
  return [
    ...controls.map((table, index) => ({ id: `controls ${index}`, table })),
    ...Object.entries(others).map(([id, table]) => ({ id, table })),
  ].map(({ id, table }) => ({ id, title: table.title, table }));
}

/** The rows of those craft that have all the words of the search in their names. */
export function rowsShown(
  fleet: PackedFleet,
  { rows }: PackedTable,
  search: string,
  onlyDiffering: boolean,
): PackedTable["rows"] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  return rows.filter((row) => {
    if (onlyDiffering && !differsSomewhere(row)) return false;
    const name = fleet.craft[craftOfRow(row)]!.name.toLowerCase();
    return words.every((word) => name.includes(word));
  });
}

/** The indices of the columns in which something differs, or of all. */
export function columnsShown({ columns, rows }: PackedTable, onlyDiffering: boolean): readonly number[] {
  const all = columns.map((_, index) => index);
  return onlyDiffering ? all.filter((column) => rows.some((row) => cellDiffers(row, column))) : all;
}

function differsSomewhere(row: readonly number[]): boolean {
  for (let cell = 0; cell < cellsIn(row); cell++) if (cellDiffers(row, cell)) return true;
  return false;
}
