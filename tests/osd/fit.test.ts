/** A layout on another grid: what keeps its place, what makes way, and what is promised of the result. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { fitLayout } from "../../shared/osd/fit.ts";
import { layoutOf, onGrid, overlapsOf, resolveAxis } from "../../shared/osd/layout.ts";
import type { Grid, Layout, PlacedElement } from "../../shared/osd/placed.ts";
import { readingKey } from "../../shared/osd/reading-order.ts";
import { printAxis } from "../../shared/syntax/print-value.ts";
import type { Anchor, Axis } from "../../shared/syntax/value.ts";
import { craftOf } from "../model/effective.ts";

const catalogue = makeCatalogue();

function layout(entries: string, grid: string): Layout {
  const lines = entries.split("; ").map((entry) => `  ${entry}\n`);
  const text = `craft "Jug"\nosd\n  grid ${grid}\n${lines.join("")}`;
  return layoutOf(craftOf({ "a.fettle": text }), catalogue, "osd")!;
}

const placeText = ({ place }: PlacedElement) => `${printAxis(place.column)}, ${printAxis(place.row)}`;

/** Each element with its new place as it would be written, and what found none. */
function fitted(entries: string, from: string, to: Grid): string[] {
  const { layout: result, unplaced } = fitLayout(layout(entries, from), to);
  return [
    ...result.elements.map((each) => `${each.name} at ${placeText(each)}`),
    ...unplaced.map((name) => `no ${name}`),
  ];
}

const PAL = { columns: 30, rows: 16 };
const WIDE = { columns: 53, rows: 20 };

describe("where nothing is in the way", () => {
  test.each([
    // Anchored: the line stays, the place moves by itself.
    ["pack-volts at left+2, bottom-1", "30 x 16", WIDE, "left+2, bottom-1"],
    ["pack-volts at centre-4, middle", "53 x 20", PAL, "centre-4, middle"],
    ["pack-volts at right-3, 4", "53 x 20", PAL, "right-3, 4"],
    // Counted from 0: two cells from the left stay two cells from the left …
    ["pack-volts at 2, 1", "53 x 20", PAL, "2, 1"],
    ["pack-volts at 10, 1", "53 x 20", PAL, "10, 1"],
    // … two from the right (53 - 5 - 2 = 46) become 30 - 5 - 2 = 23, and one from the bottom 16 - 1 - 1 = 14 …
    ["pack-volts at 46, 18", "53 x 20", PAL, "23, 14"],
    ["pack-volts at 23, 14", "30 x 16", WIDE, "46, 18"],
    // … and what stood in the centre, floor((53 - 5) / 2) = 24, three rows under it, still does: 12.
    ["pack-volts at 24, 12", "53 x 20", PAL, "12, 10"],
    ["pack-volts at 22, 12", "53 x 20", PAL, "10, 10"],
    // One axis anchored, the other counted.
    ["pack-volts at 46, bottom-1", "53 x 20", PAL, "23, bottom-1"],
  ])("%s on %s", (entry, from, to, place) => {
    expect(fitted(entry, from, to)).toEqual([`pack-volts at ${place}`]);
  });

  test("the same grid changes nothing that had its place", () => {
    const entries = "cell-volts at 3, 16; mode at right-3, bottom-3; sight at centre, middle; lap at 20, 9";
    expect(fitted(entries, "53 x 20", WIDE)).toEqual(entries.split("; "));
  });
});

describe("where something is in the way", () => {
  test("a line that no longer fits beside another goes under it, and keeps its anchors", () => {
    expect(fitted("used-capacity at left+10, 5; mode at right-3, 5", "53 x 20", PAL)).toEqual([
      "used-capacity at left+10, 5",
      "mode at right-3, 6",
    ]);
  });

  test("what leaves the grid comes in", () => {
    expect(fitted("amps at 29, 3; watts at 3, 99", "30 x 16", PAL)).toEqual(["amps at 24, 3", "watts at 3, 15"]);
  });

  test("elements that lay over each other come apart, the first one staying", () => {
    expect(fitted("amps at 2, 2; watts at 4, 2", "30 x 16", PAL)).toEqual(["amps at 2, 2", "watts at 4, 3"]);
  });

  test("two figures do not end up side by side if there is room for a gap", () => {
    // Up or down a row the mode would be read before or after both others.
    expect(fitted("amps at 2, 0; mode at 4, 0; watts at 2, 1", "30 x 16", { columns: 30, rows: 2 })).toEqual([
      "amps at 2, 0",
      "mode at 9, 0",
      "watts at 2, 1",
    ]);
  });

  test("elements made to lie over others share cells, yet stay on the grid", () => {
    const entries = "horizon-line at 40, 15; sight at centre, middle; alerts at 33, 19; craft at centre, middle";
    expect(fitted(entries, "53 x 20", PAL)).toEqual([
      "horizon-line at 16, 9",
      "sight at centre, middle",
      "alerts at 10, 15",
      "craft at centre, middle",
    ]);
  });

  test("what has no room is named, and what cannot fit at all leaves the room to the others", () => {
    expect(
      fitted("stick-trace-left at 2, 2; amps at 2, 10; horizon-line at 1, 1", "30 x 16", { columns: 8, rows: 2 }),
    ).toEqual(["amps at 2, 1", "no stick-trace-left", "no horizon-line"]);
  });

  test("a full grid is packed anew before anything is left out", () => {
    // Two tapes of 5 x 7 side by side leave three whole rows of 12: 9, 12, and 6 + 5 cells.
    const tall = ["height-tape at 0, 0", "speed-tape at 6, 0"];
    const lines = ["latitude at 0, 8", "mode at 12, 3", "amps at 12, 5", "cell-volts at 20, 6"];
    const { layout: result, unplaced } = fitLayout(layout([...lines, ...tall].join("; "), "30 x 16"), {
      columns: 12,
      rows: 10,
    });
    expect(unplaced).toEqual([]);
    expect(overlapsOf(result)).toEqual([]);
  });
});

// --- What is promised of any layout ------------------------------------------------------------

const solid = catalogue.elements.filter((element) => !element.overlapsNothing && element.textOf === undefined);
const oneRow = solid.filter(({ widest }) => widest.length === 1);
const grid = fc.record({ columns: fc.integer({ min: 24, max: 64 }), rows: fc.integer({ min: 13, max: 32 }) });
const anchorsOf = { column: ["left", "centre", "right"], row: ["top", "middle", "bottom"] } as const;

const counted = (offset: number): Axis => ({ anchor: null, offset, start: 0, end: 0 });

interface Drawn {
  readonly grid: Grid;
  readonly layout: Layout;
}

/** Layouts of different elements, each axis counted or (where wished) anchored, none over another. */
function layouts(elements: typeof solid, most: number, anchored: "counted" | "mixed"): fc.Arbitrary<Drawn> {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const one = fc.record({
    element: fc.constantFrom(...elements),
    at: fc.tuple(share, share),
    anchors: fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 })),
  });
  const many = fc.uniqueArray(one, { selector: ({ element }) => element.name, maxLength: most });
  return fc.tuple(grid, many).map(([on, drawn]) => {
    const placed = drawn.map(({ element, at, anchors }, line): PlacedElement => {
      const width = Math.max(...element.widest.map((row) => row.length));
      const height = element.widest.length;
      const column = Math.floor(at[0] * (on.columns - width + 1));
      const row = Math.floor(at[1] * (on.rows - height + 1));
      const axis = (which: "column" | "row", from: number, cells: number, size: number, pick: number): Axis => {
        const anchor: Anchor | null = anchored === "mixed" ? (anchorsOf[which][pick] ?? null) : null;
        if (anchor === null) return counted(from);
        const base = pick === 0 ? 0 : pick === 1 ? Math.floor((cells - size) / 2) : cells - size;
        return { anchor, offset: from - base, start: 0, end: 0 };
      };
      const place = {
        column: axis("column", Math.min(column, on.columns - width), on.columns, width, anchors[0]),
        row: axis("row", Math.min(row, on.rows - height), on.rows, height, anchors[1]),
      };
      const source = { file: "a.fettle", line };
      return {
        name: element.name,
        element,
        column: Math.min(column, on.columns - width),
        row: Math.min(row, on.rows - height),
        width,
        height,
        place,
        source,
      };
    });
    const apart: PlacedElement[] = [];
    for (const each of placed) {
      if (overlapsOf({ grid: on, elements: [...apart, each] }).length === 0) apart.push(each);
    }
    return { grid: on, layout: { grid: on, elements: apart } };
  });
}

const order = ({ elements }: Layout) =>
  [...elements].sort((a, b) => readingKey(a, a) - readingKey(b, b)).map(({ name }) => name);
const anchors = ({ elements }: Layout) =>
  elements.map(({ name, place }) => [name, place.column.anchor, place.row.anchor]);

describe("of any layout, on any grid", () => {
  test("nothing overlaps, nothing leaves the grid, anchors stay, and every element is placed or named", () => {
    fc.assert(
      fc.property(layouts(solid, 40, "mixed"), grid, ({ layout: before }, to) => {
        const { layout: after, unplaced } = fitLayout(before, to);
        expect(overlapsOf(after)).toEqual([]);
        expect(after.elements.every((each) => onGrid(each, to))).toBe(true);
        expect([...after.elements.map(({ name }) => name), ...unplaced].sort()).toEqual(
          before.elements.map(({ name }) => name).sort(),
        );
        const left = { ...before, elements: before.elements.filter(({ name }) => !unplaced.includes(name)) };
        expect(anchors(after)).toEqual(anchors(left));
      }),
    );
  });

  test("what is written leads to where the element is drawn", () => {
    let written = 0;
    fc.assert(
      fc.property(layouts(solid, 20, "mixed"), grid, ({ layout: before }, to) => {
        const after = fitLayout(before, to).layout;
        const text = after.elements.map((each) => `${each.name} at ${placeText(each)}`).join("; ");
        if (text === "") return;
        written++;
        const read = layout(text, `${to.columns} x ${to.rows}`);
        expect(read.elements.map(({ name, column, row }) => [name, column, row])).toEqual(
          after.elements.map(({ name, column, row }) => [name, column, row]),
        );
      }),
    );
    expect(written).toBeGreaterThan(50);
  });

  test("as many lines of text as the grid has rows keep their order, there and back, and all have room", () => {
    fc.assert(
      fc.property(layouts(oneRow, 13, "counted"), grid, ({ grid: from, layout: before }, to) => {
        const there = fitLayout(before, to);
        const back = fitLayout(there.layout, from);
        expect([...there.unplaced, ...back.unplaced]).toEqual([]);
        expect(order(there.layout)).toEqual(order(before));
        expect(order(back.layout)).toEqual(order(before));
      }),
    );
  });

  test("an anchored element stays as it is written, where its place is on the grid and no other anchored one's", () => {
    fc.assert(
      fc.property(layouts(oneRow, 13, "mixed"), grid, ({ grid: from, layout: before }, to) => {
        const written = before.elements.map(({ place }) => [place.column.anchor, place.row.anchor]);
        // Of one axis anchored and one counted it is the region that decides: those are left out here.
        const elements = before.elements.filter((_, i) => (written[i]![0] === null) === (written[i]![1] === null));
        const anchored = elements
          .filter(({ place }) => place.column.anchor !== null)
          .map((each) => ({
            ...each,
            column: resolveAxis(each.place.column, to.columns, each.width),
            row: resolveAxis(each.place.row, to.rows, each.height),
          }));
        const clear = anchored.filter((each) => {
          const others = anchored.filter((other) => other !== each);
          const clashes = overlapsOf({ grid: to, elements: [...others, each] });
          return onGrid(each, to) && !clashes.some(({ first, second }) => first === each || second === each);
        });
        const after = new Map(fitLayout({ grid: from, elements }, to).layout.elements.map((each) => [each.name, each]));
        for (const each of clear) expect(placeText(after.get(each.name)!)).toBe(placeText(each));
      }),
    );
  });

  test("to a larger grid and back gives every place back", () => {
    // By an even number of cells: with an odd one the centre of a line of even length lies half a cell aside.
    const more = fc.record({ columns: fc.integer({ min: 0, max: 10 }), rows: fc.integer({ min: 0, max: 6 }) });
    fc.assert(
      fc.property(layouts(solid, 40, "counted"), more, ({ grid: from, layout: before }, by) => {
        const to = { columns: from.columns + 2 * by.columns, rows: from.rows + 2 * by.rows };
        const there = fitLayout(before, to);
        expect(fitLayout(there.layout, from)).toEqual({ layout: before, unplaced: [] });
      }),
    );
  });

  test("the same layout always fits in the same way", () => {
    fc.assert(
      fc.property(layouts(solid, 30, "mixed"), grid, ({ layout: before }, to) => {
        expect(fitLayout(before, to)).toEqual(fitLayout(structuredClone(before), to));
      }),
    );
  });
});

test("45 elements are fitted within 5 ms", () => {
  const entries = catalogue.elements.slice(0, 45).map(({ name }, i) => `${name} at ${(i * 7) % 50}, ${(i * 3) % 20}`);
  const before = layout(entries.join("; "), "60 x 22");
  for (const to of [{ columns: 60, rows: 22 }, WIDE, PAL]) {
    const times = Array.from({ length: 41 }, () => {
      const start = performance.now();
      fitLayout(before, to);
      return performance.now() - start;
    });
    // The best of them: other work on the machine must not fail the check.
    expect(Math.min(...times)).toBeLessThan(5);
  }
});
