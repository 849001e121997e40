/** Lines shared out among the numbers and limits that a board has for them. */
import type { LineOption } from "./cover.ts";
import type { Pool } from "./shapes.ts";

/** As many attempts; more would be needed only by a board on which many shapes of lines share scarce numbers. */
const MOST_ATTEMPTS = 10_000;

/** For each line one of the shapes that can say it, the first that leaves enough for the others; null where none does. */
export function shareOut(
  lines: readonly (readonly LineOption[])[],
  left: (pool: Pool) => number,
): readonly LineOption[] | null {
  const used = new Map<string, number>();
  const chosen: LineOption[] = [];
  let attempts = 0;
  const hasRoom = ({ shape }: LineOption) => shape.pools.every((pool) => (used.get(pool.key) ?? 0) < left(pool));
  const count = ({ shape }: LineOption, by: 1 | -1): void => {
    for (const { key } of shape.pools) used.set(key, (used.get(key) ?? 0) + by);
  };
  const from = (i: number): boolean => {
    if (i === lines.length) return true;
    for (const option of lines[i]!) {
      if (++attempts > MOST_ATTEMPTS) return false;
      if (!hasRoom(option)) continue;
      count(option, 1);
      chosen.push(option);
      if (from(i + 1)) return true;
      chosen.pop();
      count(option, -1);
    }
    return false;
  };
  return from(0) ? chosen : null;
}
