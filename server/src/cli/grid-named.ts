/** A grid as an argument names it. */
import { NAMED_GRIDS } from "../../../shared/osd/layout.ts";
import type { Grid } from "../../../shared/osd/types.ts";
import { CannotRun } from "./io.ts";

/** The largest grid that the language knows. */
const MOST: Grid = { columns: 64, rows: 32 };

/** A size such as `53x20`, or one of the names that scripts have for grids. */
export function gridNamed(text: string): Grid {
  const named = Object.hasOwn(NAMED_GRIDS, text) ? NAMED_GRIDS[text] : undefined;
  if (named) return named;
  const [, columns = 0, rows = 0] = (/^(\d{1,4})\s*x\s*(\d{1,4})$/.exec(text) ?? []).map(Number);
  if (columns >= 1 && rows >= 1 && columns <= MOST.columns && rows <= MOST.rows) return { columns, rows };
  const names = Object.keys(NAMED_GRIDS).join(", ");
  throw new CannotRun(
    `--grid is ${names} or a size from 1x1 to ${MOST.columns}x${MOST.rows} such as 53x20, not “${text}”`,
  );
}
