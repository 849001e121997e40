/** The page about speed: figures as they were kept, in tables and in curves, with words for who does not see them. */
import { expect, test } from "vitest";
import type { KeptGrowth, KeptPeer } from "../../../shared/ide/reference/speed/figures.ts";
import { GROWTH } from "../../../shared/ide/reference/speed/kept-growth.ts";
import { PEER } from "../../../shared/ide/reference/speed/kept-peer.ts";
import { speedHtml, speedMarkdown } from "../../../shared/ide/reference/speed/page.ts";

const conditions = { day: "2026-02-03", cores: 2, node: "v20.1.0", system: "linux x64", rounds: 3 };
const peer: KeptPeer = {
  ...conditions,
  sizes: [
    {
      lines: 100,
      settings: 85,
      rows: [
        { figure: "memory", unit: "MB", ours: [90, 88, 91], theirs: [60, 59, 62], ratio: [1.5, 1.4, 1.6], aim: 1 },
        { figure: "first answer", unit: "ms", ours: [4, 3, 5], theirs: [8, 7, 9], ratio: [0.5, 0.4, 0.6], aim: 1 },
        {
          figure: "symbols, p95",
          unit: "ms",
          ours: [21, 20, 22],
          theirs: [42, 40, 44],
          ratio: [0.5, 0.5, 0.5],
          aim: null,
          mostMs: 20,
        },
        { figure: "hover, p95", unit: "ms", ours: [1, 1, 2], theirs: [2, 1, 3], ratio: [0.5, 0.4, 1], aim: null },
      ],
    },
  ],
};
const growth: KeptGrowth = {
  ...conditions,
  subjects: [
    {
      name: "layers",
      what: "layers one under the other",
      sizes: [1, 10, 100],
      curves: [
        {
          figure: "first findings",
          unit: "ms",
          values: [
            [1, 1, 1],
            [10, 9, 11],
            [100, 99, 101],
          ],
          exponent: 1,
        },
        {
          figure: "memory",
          unit: "MB",
          values: [
            [1, 1, 1],
            [30, 29, 31],
            [900, 890, 910],
          ],
          exponent: 1.48,
        },
      ],
    },
  ],
};

test("a table has every figure with its range, and says which aim is missed", () => {
  const page = speedMarkdown(peer, growth);
  expect(page).toContain("### 100 lines, 85 of them settings");
  expect(page).toContain("| memory, MB | 90 (88–91) | 60 (59–62) | 1.5 (1.4–1.6) | ≤ 1.0, missed |");
  expect(page).toContain("| first answer, ms | 4 (3–5) | 8 (7–9) | 0.5 (0.4–0.6) | ≤ 1.0 |");
  expect(page).toContain("| symbols, p95, ms | 21 (20–22) | 42 (40–44) | 0.5 (0.5–0.5) | ≤ 20 ms, missed |");
  expect(page).toContain("| hover, p95, ms | 1 (1–2) | 2 (1–3) | 0.5 (0.4–1) | – |");
  expect(page).toContain("Measured on 2026-02-03 with 2 cores, Node 20.1.0, linux x64.");
});

test("a curve is told in words and in a table too", () => {
  const page = speedMarkdown(peer, growth);
  expect(page).toContain(
    "First findings: 1 to 100 ms from 1 to 100 layers, no faster than a straight line (exponent 1.00). Memory: 1 to 900 MB from 1 to 100 layers, faster than a straight line (exponent 1.48).",
  );
  expect(page).toContain("| layers | first findings, ms | memory, MB |");
  expect(page).toContain("| 10 | 10 | 30 |");
  expect(page).toContain("| exponent | 1.00 | 1.48 |");
});

test("a straight line is drawn as one: equal steps across for equal steps up", () => {
  const [, d = ""] = /class="chart-line series-0" d="([^"]+)"/.exec(speedHtml(peer, growth)) ?? [];
  const points = d
    .slice(1)
    .split("L")
    .map((point) => point.split(" ").map(Number) as [number, number]);
  expect(points).toHaveLength(3);
  const [[x0, y0], [x1, y1], [x2, y2]] = points as [[number, number], [number, number], [number, number]];
  expect(x1 - x0).toBeCloseTo(x2 - x1, 1);
  expect(y1 - y0).toBeCloseTo(y2 - y1, 1);
  expect(y1).toBeLessThan(y0);
});

test("what is kept was measured: every size and subject, at least seven points a curve, as many figures as sizes", () => {
  expect(PEER.sizes.map(({ lines }) => lines)).toEqual([100, 500, 1000, 10_000]);
  for (const { rows } of PEER.sizes) expect(rows).toHaveLength(PEER.sizes[0]!.rows.length);
  expect(GROWTH.subjects.map(({ name }) => name)).toEqual(["lines", "layers", "craft", "controls", "conditions"]);
  for (const { sizes, curves } of GROWTH.subjects) {
    expect(sizes.length).toBeGreaterThanOrEqual(7);
    for (const { values } of curves) expect(values).toHaveLength(sizes.length);
  }
  const spreads = [
    ...PEER.sizes.flatMap(({ rows }) => rows.flatMap(({ ours, theirs, ratio }) => [ours, theirs, ratio])),
    ...GROWTH.subjects.flatMap(({ curves }) => curves.flatMap(({ values }) => values)),
  ];
  for (const [median, least, most] of spreads) expect(least <= median && median <= most && least > 0).toBe(true);
});
