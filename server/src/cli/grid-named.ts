/** A grid as an argument names it. */
import { type Grid, LARGEST_GRID, NAMED_GRIDS } from "../../../shared/protocol/osd.ts";
import { CannotRun } from "./io.ts";

/** A size such as `53x20`, or one of the names that scripts have for grids. */
export function gridNamed(text: string): Grid {
  const named = Object.hasOwn(NAMED_GRIDS, text) ? NAMED_GRIDS[text] : undefined;
  if (named) return named;
  const [, columns = 0, rows = 0] = (/^(\d{1,4})\s*x\s*(\d{1,4})$/.exec(text) ?? []).map(Number);
  if (columns >= 1 && rows >= 1 && columns <= LARGEST_GRID.columns && rows <= LARGEST_GRID.rows)
    return { columns, rows };
  const names = Object.keys(NAMED_GRIDS).join(", ");
  throw new CannotRun(
    `--grid is ${names} or a size from 1x1 to ${LARGEST_GRID.columns}x${LARGEST_GRID.rows} such as 53x20, not “${text}”`,
  );
}
