import fc from "fast-check";
import { expect, test } from "vitest";
import { filledRows } from "../../shared/osd/fit-rows.ts";
import { freeCells } from "../../shared/osd/free-cells.ts";

const widths = fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 9 });
const lines = (of: readonly number[]) => of.map((width) => ({ width }));

/** Row by row what stands there, as widths from the left. */
function rows(of: readonly number[], columns: number, count: number): number[][] {
  const grid = { columns, rows: count };
  const places = [...filledRows(lines(of), freeCells(grid), grid)];
  return Array.from({ length: count }, (_, row) =>
    places
      .filter(([, cell]) => cell.row === row)
      .sort(([, a], [, b]) => a.column - b.column)
      .map(([{ width }]) => width),
  );
}

test("rows that can be filled to the last cell are", () => {
  // Each at the first place where it fits, the widest first, would leave the last one out: 10 + 10, 10 + 8, 8 + 6 + 4.
  expect(rows([10, 10, 10, 8, 8, 6, 4, 4], 20, 3)).toEqual([
    [10, 10],
    [10, 6, 4],
    [8, 8, 4],
  ]);
});

test("one row holds the widest line and the fullest sum of others, as trying all of them finds it", () => {
  fc.assert(
    fc.property(widths, fc.integer({ min: 20, max: 64 }), (of, columns) => {
      const widest = Math.max(...of);
      const others = of.filter((_, i) => i !== of.indexOf(widest));
      let fullest = 0;
      for (let set = 0; set < 2 ** others.length; set++) {
        const sum = others.reduce((total, width, i) => total + (set & (1 << i) ? width : 0), widest);
        if (sum <= columns) fullest = Math.max(fullest, sum);
      }
      const [row] = rows(of, columns, 1);
      expect(row!.reduce((total, width) => total + width, 0)).toBe(fullest);
      expect(row).toContain(widest);
    }),
  );
});

test("lines stand in free cells only, none over another", () => {
  const taken = fc.array(
    fc.record({
      column: fc.integer({ min: -4, max: 28 }),
      row: fc.integer({ min: 0, max: 5 }),
      width: fc.integer({ min: 1, max: 12 }),
    }),
    { maxLength: 8 },
  );
  fc.assert(
    fc.property(widths, taken, (of, blocks) => {
      const grid = { columns: 30, rows: 6 };
      const free = freeCells(grid);
      for (const block of blocks) free.take(block, { width: block.width, height: 1 });
      const all = lines(of);
      const places = filledRows(all, free, grid);
      for (const [line, cell] of places) {
        expect(free.fits(cell, { width: line.width, height: 1 })).toBe(true);
        free.take(cell, { width: line.width, height: 1 });
      }
    }),
  );
});

test("those of a row stand in the order given", () => {
  expect(rows([3, 9, 5], 20, 1)).toEqual([[3, 9, 5]]);
  expect(rows([5, 3, 9], 20, 1)).toEqual([[5, 3, 9]]);
});
