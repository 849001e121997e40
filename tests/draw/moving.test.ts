import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import {
  type CellBox,
  clashInWords,
  elementAt,
  elementClash,
  freePlace,
  movedBy,
  placedAfter,
  placeInWords,
} from "../../shared/draw/moving.ts";
import { layoutOf, onGrid } from "../../shared/osd/layout.ts";
import { craftOf } from "../model/effective.ts";
import { element, picture } from "./samples.ts";

const catalogue = makeCatalogue();
const grid = { columns: 30, rows: 16 };
const box = (column: number, row: number, width: number, height: number): CellBox => ({ column, row, width, height });

test("a moved element stops at the edges, whole", () => {
  expect(movedBy(box(2, 3, 5, 1), { column: 4, row: -1 }, grid)).toEqual({ column: 6, row: 2 });
  expect(movedBy(box(2, 3, 5, 1), { column: -9, row: 0 }, grid)).toEqual({ column: 0, row: 3 });
  expect(movedBy(box(2, 3, 5, 2), { column: 99, row: 99 }, grid)).toEqual({ column: 25, row: 14 });
});

test("an element outside the grid comes back by the first step, along the axis of that step only", () => {
  expect(movedBy(box(40, -3, 5, 1), { column: -1, row: 0 }, grid)).toEqual({ column: 25, row: -3 });
  expect(movedBy(box(40, -3, 5, 1), { column: 0, row: 1 }, grid)).toEqual({ column: 40, row: 0 });
});

test("an element wider than the grid keeps its beginning visible", () => {
  expect(movedBy(box(0, 3, 40, 1), { column: -4, row: 1 }, grid)).toEqual({ column: 0, row: 4 });
});

test("the clashing cells are those shared, and those outside the grid", () => {
  const volts = element("pack-volts", 27, 3, "22.2V");
  const amps = element("amps", 24, 3, "12.0A");
  const sight = element("sight", 28, 3, "", { width: 3, height: 1, drawn: "sight", overlapsNothing: true });
  expect(elementClash(volts, [volts, amps, sight], grid)).toEqual({
    cells: [
      [27, 3],
      [28, 3],
      [30, 3],
      [31, 3],
    ],
    sharers: ["amps"],
    leavesGrid: true,
  });
  expect(elementClash(sight, [volts, amps, sight], grid)).toEqual({ cells: [[30, 3]], sharers: [], leavesGrid: true });
  expect(elementClash({ ...volts, column: 2 }, [volts, amps], grid).cells).toEqual([]);
});

test("a press selects the smallest element there, or the one that is selected already", () => {
  const horizon = element("horizon", 8, 5, "", { width: 15, height: 5, drawn: "horizon" });
  const sight = element("sight", 14, 7, "", { width: 3, height: 1, drawn: "sight" });
  const at = { column: 15, row: 7 };
  expect(elementAt([sight, horizon], at, null)?.name).toBe("sight");
  expect(elementAt([sight, horizon], at, "horizon")?.name).toBe("horizon");
  expect(elementAt([sight, horizon], { column: 8, row: 5 }, "sight")?.name).toBe("horizon");
  expect(elementAt([sight, horizon], { column: 0, row: 0 }, "sight")).toBeNull();
});

test("a new element goes to the first free place from the middle of the left edge", () => {
  const size = { width: 5, height: 1 };
  const safe = { left: 2, top: 1, right: 27, bottom: 14 };
  expect(freePlace(picture([]), size)).toEqual({ column: 0, row: 7 });
  expect(freePlace(picture([], { safe }), size)).toEqual({ column: 2, row: 7 });
  const taken = element("amps", 0, 7, "12.0A");
  // One row down is 33.75 drawing units away, five columns across are 120.
  expect(freePlace(picture([taken]), size)).toEqual({ column: 0, row: 6 });
  // The layout keeps three cells from the edge: so does what is added to it.
  expect(freePlace(picture([element("amps", 3, 1, "12.0A")]), size)).toEqual({ column: 3, row: 7 });
  expect(freePlace(picture([element("amps", 24, 1, "12.0A")]), size)).toEqual({ column: 5, row: 7 });
  const full = element("horizon", 0, 0, "", { width: 30, height: 16 });
  // A slip of the keyboard in the grid is no reason to seek through a hundred million cells.
  expect(freePlace(picture([full], { columns: 9999, rows: 9999 }), size)).toEqual({ column: 0, row: 4999 });
  expect(freePlace(picture([full]), size)).toEqual({ column: 0, row: 7 });
  expect(freePlace(picture([{ ...full, overlapsNothing: true }]), size)).toEqual({ column: 0, row: 7 });
});

test("a free place is free and on the grid wherever there is one", () => {
  const boxes = fc.array(fc.record({ column: fc.nat(25), row: fc.nat(14), width: fc.integer({ min: 1, max: 9 }) }));
  fc.assert(
    fc.property(boxes, fc.integer({ min: 1, max: 9 }), (taken, width) => {
      const elements = taken.map(({ column, row, width }, index) =>
        element(`one-${index}`, column, row, "x".repeat(width)),
      );
      const free = freePlace(picture(elements), { width, height: 1 });
      const added = element("added", free.column, free.row, "x".repeat(width));
      const isFree = (column: number, row: number) =>
        elementClash({ ...added, column, row }, elements, grid).cells.length === 0;
      const anyFree = Array.from({ length: 30 * 16 }, (_, cell) => isFree(cell % 30, Math.floor(cell / 30)));
      expect(isFree(free.column, free.row)).toBe(anyFree.includes(true));
    }),
  );
});

test("a moved place keeps its anchors, and the spaces around its signs", () => {
  expect(placedAfter("left+2, bottom-1", { column: 3, row: -2 })).toBe("left+5, bottom-3");
  expect(placedAfter("right, top", { column: -3, row: 0 })).toBe("right-3, top");
  expect(placedAfter("right-3, middle", { column: 3, row: -1 })).toBe("right, middle-1");
  expect(placedAfter("right - 3,centre+4", { column: -1, row: 1 })).toBe("right - 4, centre+5");
  expect(placedAfter("3, 18", { column: 1, row: -18 })).toBe("4, 0");
  expect(placedAfter("somewhere", { column: 1, row: 1 })).toBeNull();
});

test("a moved place is read as the expected cell, with the same anchors", () => {
  const axis = (...anchors: string[]) =>
    fc
      .record({ anchor: fc.constantFrom(...anchors), offset: fc.integer({ min: -12, max: 12 }) })
      .map(({ anchor, offset }) => {
        if (anchor === "") return String(Math.abs(offset));
        return offset === 0 ? anchor : `${anchor}${offset < 0 ? "" : "+"}${offset}`;
      });
  const by = fc.integer({ min: -12, max: 12 });
  fc.assert(
    fc.property(
      axis("left", "centre", "right", ""),
      axis("top", "middle", "bottom", ""),
      by,
      by,
      (across, down, column, row) => {
        const before = read(`${across}, ${down}`);
        const to = movedBy(before, { column, row }, grid);
        const written = placedAfter(`${across}, ${down}`, {
          column: to.column - before.column,
          row: to.row - before.row,
        });
        const after = read(written!);
        expect([after.column, after.row, after.anchors]).toEqual([to.column, to.row, before.anchors]);
        if (column !== 0 && row !== 0) expect(onGrid(after, grid)).toBe(true);
      },
    ),
  );
});

/** Where the language puts an element that is placed so, on a grid of 30 by 16. */
function read(placed: string) {
  const craft = craftOf({ "a.fettle": `craft "Jug"\nosd\n  grid pal\n  amps at ${placed}\n` });
  const [amps] = layoutOf(craft, catalogue, "osd")!.elements;
  const value = craft.osd.get("amps")!.value;
  if (!amps || value?.kind !== "cell") throw new Error(`${placed} is no place.`);
  return { ...amps, anchors: [value.column.anchor, value.row.anchor] };
}

test("the place of a moving element and its clash, in words", () => {
  expect(placeInWords(box(3, 3, 5, 1), grid)).toBe("column 3, row 3");
  expect(placeInWords(box(12, 7, 5, 1), grid)).toBe("column 12 (centre), row 7 (middle)");
  const clash = (sharers: string[], leavesGrid: boolean) => clashInWords({ cells: [], sharers, leavesGrid });
  expect(clash([], false)).toBe("");
  expect(clash(["amps", "mode"], true)).toBe("shares cells with amps and mode; leaves the grid");
  expect(clash(["amps", "mode", "craft", "sight"], false)).toBe("shares cells with amps and 3 more");
});
