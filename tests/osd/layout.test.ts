/** Places of the OSD in whole cells, held to the sources named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { clashingCells, gridOf, layoutOf, onGrid, overlapsOf, resolveAxis } from "../../shared/osd/layout.ts";
import type { Layout, PlacedElement } from "../../shared/osd/placed.ts";
import { centralCells, SAFE_SHARE, safeCells } from "../../shared/osd/safe-area.ts";
import { LARGEST_GRID } from "../../shared/protocol/osd.ts";
import { craftOf } from "../model/effective.ts";
import { check } from "../rules/check.ts";

const catalogue = makeCatalogue();
const PAL = { columns: 30, rows: 16 };
const NTSC = { columns: 30, rows: 13 };

function layout(entries: string, grid = "53 x 20", name = "Jug"): Layout {
  const text = `craft "${name}"\nosd\n  grid ${grid}\n${entries
    .split("; ")
    .map((entry) => `  ${entry}\n`)
    .join("")}`;
  return layoutOf(craftOf({ "a.fettle": text }), catalogue, "osd")!;
}

/** Column, row, width and height of one element. */
function placed(entry: string, grid?: string, name?: string): number[] {
  const { column, row, width, height } = layout(entry, grid, name).elements[0]!;
  return [column, row, width, height];
}

describe("grids", () => {
  // MAX7456 datasheet, 19-0576 Rev 0, 8/07, p. 10: 30 columns; 13 rows NTSC, 16 rows PAL (read).
  test("pal and ntsc are those of the overlay chip", () => {
    expect(layout("sight at 0, 0", "pal").grid).toEqual(PAL);
    expect(layout("sight at 0, 0", "ntsc").grid).toEqual(NTSC);
  });

  test("the effective grid counts, whichever file said it; without one there is no layout", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "b.fettle"\nosd\n  sight at right, bottom\nosd-second\n  amps at right, 0\n',
      "b.fettle": 'layer "B"\nosd\n  grid 50 x 18\n',
    };
    const craft = craftOf(files);
    expect(gridOf(craft)).toEqual({ columns: 50, rows: 18 });
    expect(layoutOf(craft, catalogue, "osd-second")!.elements[0]!.column).toBe(50 - 6);
    const without = craftOf({ "a.fettle": 'craft "A"\nosd\n  sight at right, bottom\n' });
    expect(layoutOf(without, catalogue, "osd")).toBeNull();
  });

  test("a grid without a cell is none", () => {
    for (const grid of ["0 x 0", "0 x 16", "30 x 0"]) {
      const of = craftOf({ "a.fettle": `craft "A"\nosd\n  grid ${grid}\n  sight at right, bottom\n` });
      expect(layoutOf(of, catalogue, "osd"), grid).toBeNull();
    }
  });

  test("the largest is the largest that a script may say", () => {
    const size = catalogue.setting("osd", "grid")!.types.find((type) => type.is === "size");
    expect(LARGEST_GRID).toEqual({ columns: size?.mostColumns, rows: size?.mostRows });
  });
});

describe("anchors", () => {
  // pack-volts is at its widest 33.6V, five cells.
  test.each([
    ["pack-volts at 3, 18", [3, 18, 5, 1]],
    ["pack-volts at left+2, top+1", [2, 1, 5, 1]],
    ["pack-volts at right-2, bottom-2", [53 - 5 - 2, 17, 5, 1]],
    ["pack-volts at right, bottom", [48, 19, 5, 1]],
    ["pack-volts at centre, middle", [24, 9, 5, 1]],
    ["pack-volts at centre-4, middle+2", [20, 11, 5, 1]],
    ["pack-volts at right+1, bottom+1", [49, 20, 5, 1]],
  ])("%s", (entry, expected) => expect(placed(entry)).toEqual(expected));

  test("right-2 keeps the right edge two cells in from the last column, whatever the grid", () => {
    for (const grid of ["pal", "50 x 18", "60 x 22"]) {
      const {
        elements,
        grid: { columns },
      } = layout("pack-volts at right-2, 0", grid);
      expect(elements[0]!.column + elements[0]!.width - 1).toBe(columns - 1 - 2);
    }
  });

  test("the centre is the floor of half of what is left", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 64 }), fc.integer({ min: 1, max: 80 }), (cells, size) => {
        const start = resolveAxis({ anchor: "centre", offset: 0, start: 0, end: 0 }, cells, size);
        const [before, after] = [start, cells - size - start];
        expect(after - before === 0 || after - before === 1).toBe(true);
      }),
    );
  });

  test("a name is as long as its own text", () => {
    expect(placed("craft at right, 0", "pal", "Tankard")).toEqual([23, 0, 7, 1]);
    expect(placed("craft at right, 0", "pal", "\u00c9touffe\u{1F3FA}")).toEqual([22, 0, 8, 1]);
    const named = layout('pilot at right, 0; pilot-name "Ada"', "pal").elements[0]!;
    expect([named.column, named.width]).toEqual([27, 3]);
  });
});

describe("the safe area, where the grid fills the picture", () => {
  // BKSTS Illustrated Dictionary, 4th ed., App. B: 4:3 90 % action, 16:9 93 % action (read).
  test("shares", () => expect(SAFE_SHARE).toEqual({ "4:3": 0.9, "16:9": 0.93 }));

  // Computed from these: columns 2-27, rows 1-14 of 16 and 1-11 of 13 at 90 and at 93 %.
  test.each([0.9, 0.93])("whole cells inside %f", (share) => {
    expect(safeCells(PAL, share)).toEqual({ left: 2, right: 27, top: 1, bottom: 14 });
    expect(safeCells(NTSC, share)).toEqual({ left: 2, right: 27, top: 1, bottom: 11 });
  });

  // The same source's title area at 4:3, 80 %: columns 3-26, rows 2-13 of 16 and 2-10 of 13 (computed).
  test("whole cells inside 0.8", () => {
    expect(safeCells(PAL, 0.8)).toEqual({ left: 3, right: 26, top: 2, bottom: 13 });
    expect(safeCells(NTSC, 0.8)).toEqual({ left: 3, right: 26, top: 2, bottom: 10 });
  });

  test("every cell lies wholly inside, and the next one would not", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 8, max: 64 }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (columns, share) => {
          const { left, right } = safeCells({ columns, rows: 20 }, share);
          const margin = (columns * (1 - share)) / 2;
          expect(left).toBeGreaterThanOrEqual(margin - 1e-6);
          expect(right + 1).toBeLessThanOrEqual(columns - margin + 1e-6);
          expect(left - 1).toBeLessThan(margin);
        },
      ),
    );
  });
});

test("the middle third takes every cell that reaches into it", () => {
  // The third is the project's own figure; 30 columns: 10 to 19. 16 rows: 5.33 to 10.67, so 5 to 10.
  expect(centralCells(PAL)).toEqual({ left: 10, right: 19, top: 5, bottom: 10 });
  expect(centralCells({ columns: 53, rows: 20 })).toEqual({ left: 17, right: 35, top: 6, bottom: 13 });
});

describe("overlaps and edges", () => {
  const pairs = (entries: string) =>
    overlapsOf(layout(entries)).map(({ first, second, shared }) => [second.name, first.name, shared.left, shared.top]);

  test("two elements that share a cell, the later one second", () => {
    expect(pairs("pack-volts at 2, 3; amps at 6, 3")).toEqual([["amps", "pack-volts", 6, 3]]);
    expect(pairs("pack-volts at 2, 3; amps at 7, 3")).toEqual([]);
    expect(pairs("pack-volts at 2, 3; amps at 2, 4")).toEqual([]);
  });

  test("sight, horizon-line and alerts overlap nothing", () => {
    expect(
      pairs(
        "horizon-line at centre, middle; sight at centre, middle; alerts at centre, middle; amps at centre, middle",
      ),
    ).toEqual([]);
  });

  test("each page by itself", () => {
    const text = 'craft "A"\nosd\n  grid pal\n  amps at 2, 3\nosd-second\n  watts at 2, 3\n';
    const craft = craftOf({ "a.fettle": text });
    expect([layoutOf(craft, catalogue, "osd")!, layoutOf(craft, catalogue, "osd-second")!].flatMap(overlapsOf)).toEqual(
      [],
    );
  });

  test("overlap and shared cells agree, cell by cell", () => {
    const element = catalogue.element("amps")!;
    const box = fc.record({
      column: fc.integer({ min: -3, max: 32 }),
      row: fc.integer({ min: -2, max: 17 }),
      width: fc.integer({ min: 1, max: 6 }),
      height: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(box, box, (a, b) => {
        const source = { file: "a", line: 0 };
        const axis = { anchor: null, offset: 0, start: 0, end: 0 };
        const place = { column: axis, row: axis };
        const [first, second] = [a, b].map(
          (each, i): PlacedElement => ({ ...each, name: `e${i}`, element, place, source }),
        ) as [PlacedElement, PlacedElement];
        const cells = ({ column, row, width, height }: PlacedElement) =>
          Array.from({ length: width * height }, (_, i) => `${column + (i % width)},${row + Math.floor(i / width)}`);
        const shared = cells(first).filter((cell) => cells(second).includes(cell));
        const page = { grid: PAL, elements: [first, second] };
        const inside = (cell: string) => {
          const [column, row] = cell.split(",").map(Number) as [number, number];
          return column >= 0 && row >= 0 && column < 30 && row < 16;
        };
        // What two share outside the grid nobody sees; that they are outside is another finding.
        expect(overlapsOf(page).length).toBe(shared.some(inside) ? 1 : 0);
        expect(onGrid(first, PAL)).toBe(cells(first).every(inside));
        const expected = cells(first).filter((cell) => !inside(cell) || shared.includes(cell));
        expect(
          clashingCells(first, page)
            .map(([column, row]) => `${column},${row}`)
            .sort(),
        ).toEqual(expected.sort());
      }),
    );
  });

  test("the findings stand on the later line, and name a cell", () => {
    const findings = check(`
      craft "Jug"
      osd
        grid pal
        pack-volts at right+1, 3
                   ^^^^^^^^^^^^^ osd-off-grid
        amps at 2, 16
             ^^^^^^^^ osd-off-grid
        cell-volts at 2, 5
        flight-time at 4, 5
                    ^^^^^^^ osd-overlap
        sight at centre, middle
        horizon-line at centre, middle
    `);
    expect(findings[2]!.message).toContain("share 3 cells, from 4, 5 to 6, 5");
    expect(findings[2]!.related.map(({ range }) => range.start.line)).toEqual([5]);
  });

  test("without a grid no rule on places runs, and a faulty place is left out", () => {
    check(`
      craft "Jug"
      osd
        pack-volts at 99, 3
        amps at 99, 3
    `);
    expect(layout("pack-volts at 2; amps at 2, 2").elements.map(({ name }) => name)).toEqual(["amps"]);
  });
});
