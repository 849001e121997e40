/** Whatever values a script says, out of range or not, its numbers can be sent and drawn. */
import { assert, constantFrom, double, oneof, property, record } from "fast-check";
import { expect, test } from "vitest";
import { chartTable, readingInWords, stopsOf } from "../../../shared/draw/chart-reading.ts";
import { drawDelays, drawFilters, responseChart } from "../../../shared/draw/filters.ts";
import { drawLoop } from "../../../shared/draw/loop.ts";
import { drawPack, packTableRows } from "../../../shared/draw/pack.ts";
import { drawRates, ratesCharts } from "../../../shared/draw/rates.ts";
import type { SceneNode } from "../../../shared/draw/scene.ts";
import { toSvg } from "../../../shared/draw/svg.ts";
import { numbersOf } from "../../../shared/ide/panel/numbers.ts";
import { workspaceOf } from "../../rules/check.ts";

const value = oneof(
  constantFrom("0", "-1", "1", "0.001", "7", "100", "4000", "99999", "1000000000"),
  double({ min: -10, max: 5000, noNaN: true }).map((number) => number.toFixed(3)),
);
const values = record({
  loop: value,
  gyro: value,
  esc: value,
  pause: value,
  cells: constantFrom("0", "1", "6", "14", "99", "detect"),
  capacity: value,
  cellV: value,
  land: value,
  hover: value,
  current: value,
  kv: value,
  cut: value,
  order: constantFrom("0", "1", "2", "3"),
  at: value,
  width: value,
  floor: value,
  slope: value,
  end: value,
  bend: value,
  limit: value,
  top: value,
});
type Values = Readonly<Record<string, string>>;

const scriptOf = (v: Values) => `craft "Kiln"

frame
  motors          4
  hover-throttle  ${v.hover} %

pack
  chemistry      lihv
  cells          ${v.cells}
  capacity       ${v.capacity} mAh
  full-at        ${v.cellV} V/cell
  land-at        ${v.land} V/cell
  hover-current  ${v.current} A

sensors
  gyro-rate  ${v.gyro} kHz
  loop-rate  ${v.loop} kHz

motors
  kv          ${v.kv} rpm/V
  esc-signal  digital
  esc-rate    ${v.esc} kbit/s
  esc-pause   ${v.pause} us

filters
  smooth-gyro    cut ${v.cut} Hz  order ${v.order}
  smooth-d       cut ${v.at} Hz
  notch          at ${v.at} Hz  width ${v.width} Hz
  motor-notches  count 3  floor ${v.floor} Hz  width ${v.width} Hz

rates
  roll            slope ${v.slope} deg/s  end ${v.end} deg/s  bend ${v.bend}
  pitch           slope ${v.end} deg/s  end ${v.slope} deg/s
  throttle-limit  ${v.limit} %
  top-rate        ${v.top} deg/s

rates-second
  roll  end ${v.top} deg/s
`;

test("any values can be sent, drawn and read", () => {
  let pictures = 0;
  assert(
    property(values, (some) => {
      const workspace = workspaceOf({ "kiln.fettle": scriptOf(some) });
      const picture = numbersOf(workspace.craft("kiln.fettle")!, workspace);
      const unsendable: string[] = [];
      JSON.stringify(picture, (name, each) => {
        if (typeof each === "number" && !Number.isFinite(each)) unsendable.push(name);
        return each;
      });
      expect(unsendable).toEqual([]);
      if (!picture) return;
      pictures++;
      const { rates, secondRates, packs, filters, loop } = picture;
      const scenes: SceneNode[] = [
        ...(rates ? [drawRates(rates, { second: secondRates, width: 220 })] : []),
        ...packs.flatMap((pack) => [drawPack(pack, { width: 220 }), drawPack(pack)]),
        ...(filters ? [drawFilters(filters), drawDelays(filters, { width: 220 })] : []),
        ...(loop ? [drawLoop(loop, { width: 220 })] : []),
      ];
      for (const scene of scenes) expect(toSvg(scene, "light", { title: "x" })).not.toMatch(/NaN|Infinity|undefined/);
      const charts = [
        ...(rates ? ratesCharts(rates, secondRates).map(({ chart }) => chart) : []),
        ...(filters ? [responseChart(filters)] : []),
      ];
      for (const chart of charts) {
        const words = stopsOf(chart).map((x) => readingInWords(chart, x));
        expect([...words, ...chartTable(chart).rows.flat()].join(" ")).not.toMatch(/NaN|Infinity|undefined/);
      }
      expect(packs.flatMap(packTableRows).flat().join(" ")).not.toMatch(/NaN|Infinity|undefined/);
    }),
    { numRuns: 150 },
  );
  expect(pictures).toBeGreaterThan(75);
});
