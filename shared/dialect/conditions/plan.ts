/** How a board says all modes and outputs of a craft, which share its numbers and limits of lines. */
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Dialect } from "../dialect.ts";
import type { Cover } from "./cover.ts";
import { type BoardShape, type Pool, shapesFor } from "./shapes.ts";
import { rangesFor } from "./to-ranges.ts";

/**
 * For each mode and output that the dialect has a line for, how the board says when it is on; in the craft's order,
 * in which they take the board's lines, but a mode that another one names comes before that. `taken`: lines that
 * are held by something else, by `Pool.key`.
 */
export function planConditions(
  board: Switchboard,
  dialect: Dialect,
  taken: ReadonlyMap<string, number> = new Map(),
): ReadonlyMap<string, Cover> {
  const used = new Map(taken);
  const covers = new Map<string, Cover | null>();
  const left = (pool: Pool) => pool.lines - (used.get(pool.key) ?? 0);
  const take = ({ pools }: BoardShape): void => {
    for (const { key } of pools) used.set(key, (used.get(key) ?? 0) + 1);
  };
  const coverOf = (name: string): Cover | null => {
    const known = covers.get(name);
    if (known !== undefined) return known;
    // Until it is known: names that lead back to themselves are no plan of each other.
    covers.set(name, null);
    const shapes = shapesFor(dialect, name);
    const isSaid = (mode: string) => {
      const kind = coverOf(mode)?.kind;
      return kind === "lines" || kind === "as-shape";
    };
    const cover = shapes.length === 0 ? null : rangesFor(board, name, shapes, { left, isSaid });
    if (cover?.kind === "as-shape") take(cover.shape);
    if (cover?.kind === "lines") for (const { shape } of cover.lines) take(shape);
    covers.set(name, cover);
    return cover;
  };
  const plan = new Map<string, Cover>();
  for (const name of board.names) {
    const cover = coverOf(name);
    if (cover) plan.set(name, cover);
  }
  return plan;
}
