/** The magnifier's geometry, at points all over pictures of every usual grid and width. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { isReadable, lensAt, type Magnified, readableWidthPx } from "../../shared/draw/magnifier.ts";
import { USUAL_GRIDS } from "../../shared/protocol/osd.ts";

/** A picture that fills the width of its frame, and a point in it. */
const magnified = fc
  .record({
    widthPx: fc.integer({ min: 180, max: 1400 }),
    grid: fc.constantFrom(...USUAL_GRIDS),
    aspect: fc.constantFrom(4 / 3, 16 / 9),
    across: fc.double({ min: 0, max: 1, noNaN: true }),
    down: fc.double({ min: 0, max: 1, noNaN: true }),
    keeps: fc.constantFrom("point" as const, "middle" as const),
  })
  .map(({ widthPx, grid, aspect, across, down, keeps }): Magnified => {
    const heightPx = widthPx / aspect;
    return {
      frame: { widthPx, heightPx },
      picture: { x: 0, y: 0, width: widthPx, height: heightPx },
      drawing: { x: 0, y: 0, width: 540 * aspect, height: 540 },
      columns: grid.columns,
      point: { x: across * widthPx, y: down * heightPx },
      keeps,
    };
  });

const near = (a: number, b: number) => Math.abs(a - b) < 0.01;

test("the lens stays in its frame, enlarges at least twice, and does not distort", () => {
  fc.assert(
    fc.property(magnified, (given) => {
      const { box, shows } = lensAt(given);
      expect(box.x >= 0 && box.y >= 0).toBe(true);
      expect(box.x + box.width <= given.frame.widthPx + 0.01).toBe(true);
      expect(box.y + box.height <= given.frame.heightPx + 0.01).toBe(true);
      const unitPx = given.picture.width / given.drawing.width;
      expect(box.width / shows.width / unitPx).toBeGreaterThanOrEqual(1.999);
      expect(near(box.width / shows.width, box.height / shows.height)).toBe(true);
      // Letters are as wide as can be read.
      expect((box.width / shows.width) * (given.drawing.width / given.columns)).toBeGreaterThanOrEqual(12.9);
    }),
  );
});

test("what is under the pointer stays under the pointer", () => {
  fc.assert(
    fc.property(magnified, (given) => {
      const { box, shows } = lensAt({ ...given, keeps: "point" });
      const unitPx = given.picture.width / given.drawing.width;
      const [seenX, seenY] = [
        shows.x + ((given.point.x - box.x) / box.width) * shows.width,
        shows.y + ((given.point.y - box.y) / box.height) * shows.height,
      ];
      expect(near(seenX, given.point.x / unitPx) && near(seenY, given.point.y / unitPx)).toBe(true);
    }),
  );
});

test("for the keyboard it shows nothing beyond the drawing, and what has the focus in full", () => {
  fc.assert(
    fc.property(magnified, (given) => {
      const { shows } = lensAt({ ...given, keeps: "middle" });
      const { drawing, point, picture } = given;
      expect(shows.x >= -0.01 && shows.x + shows.width <= drawing.width + 0.01).toBe(true);
      expect(shows.y >= -0.01 && shows.y + shows.height <= drawing.height + 0.01).toBe(true);
      const at = (point.x * drawing.width) / picture.width;
      expect(at >= shows.x - 0.01 && at <= shows.x + shows.width + 0.01).toBe(true);
    }),
  );
});

test("letters can be read from a width on that goes with the grid", () => {
  const at = (columns: number, rows: number, widthPx: number, aspect = 16 / 9) =>
    isReadable({ columns, rows, widthPx, aspect });
  expect(at(30, 16, 214, 4 / 3)).toBe(true);
  expect(at(53, 20, 214)).toBe(false);
  expect(at(53, 20, 384)).toBe(true);
  for (const grid of USUAL_GRIDS) {
    for (const aspect of [4 / 3, 16 / 9]) {
      const widthPx = readableWidthPx({ ...grid, aspect });
      expect(isReadable({ ...grid, aspect, widthPx })).toBe(true);
      expect(isReadable({ ...grid, aspect, widthPx: widthPx - 2 })).toBe(false);
    }
  }
});
