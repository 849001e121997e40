/** A craft's filters as a chain at its loop's rate. */
import { describe, expect, test } from "vitest";
import { lowFrequencyDelayMs, lowPass, notch, responseOf } from "../../shared/numbers/filters.ts";
import { filtersOf, motorStages, stagesOf } from "../../shared/numbers/filters-of.ts";
import { craftWith } from "./read.ts";

const CRAFT = `frame
  hover-throttle  24 %

pack
  chemistry  lipo
  cells      6

motors
  kv  1750 rpm/V

sensors
  loop-rate  8 kHz

filters
  smooth-gyro    cut 400 Hz
  smooth-gyro    cut 0.5 kHz  order 2
  notch          at 180 Hz  width 20 Hz
  smooth-d       cut 150 Hz
  motor-notches  count 3  floor 120 Hz  width 30 Hz`;

describe("the chain", () => {
  test("every filter in its place, with the delay of each and their sums", () => {
    const figures = filtersOf(...craftWith(CRAFT))!;
    expect(figures.rateHz).toBe(8000);
    expect(figures.gyro.map(({ name, atHz, order, widthHz }) => [name, atHz, order, widthHz])).toEqual([
      ["smooth-gyro", 400, 1, null],
      ["smooth-gyro", 500, 2, null],
      ["notch", 180, null, 20],
    ]);
    expect(figures.leftOut).toEqual([]);
    const gyro = [lowPass(1, 400, 8000)!, lowPass(2, 500, 8000)!, notch(180, 20, 8000)!];
    expect(figures.gyroDelayMs).toBeCloseTo(lowFrequencyDelayMs(gyro, 8000), 9);
    expect(figures.dampingDelayMs).toBeCloseTo(lowFrequencyDelayMs([...gyro, lowPass(1, 150, 8000)!], 8000), 9);
    expect(figures.gyro.map(({ source }) => source.line)).toEqual([16, 17, 18]);
  });

  test("the motors' notches stand once for each motor and harmonic, and go with the speed", () => {
    const figures = filtersOf(...craftWith(CRAFT))!;
    expect(stagesOf(figures, "gyro", null)).toHaveLength(3);
    expect(stagesOf(figures, "damping", 200)).toHaveLength(4 + 4 * 3);
    for (const hz of [200, 400, 600])
      expect(responseOf(stagesOf(figures, "gyro", 200), hz, 8000).gain).toBeLessThan(1e-9);
    // Below the floor the turning itself is not cut, but its multiples are.
    expect(stagesOf(figures, "gyro", 100)).toHaveLength(3 + 4 * 2);
    const hoverHz = (1750 * 22.2 * 0.24) / 60;
    const notches = motorStages(figures.motorNotches!, 4, hoverHz, 8000);
    expect(figures.hoverNotchesDelayMs).toBeCloseTo(lowFrequencyDelayMs(notches, 8000), 9);
  });

  test("a harmonic beyond half the loop's rate is not there", () => {
    const notches = { count: 3, floorHz: 50, widthHz: 30, easesInHz: 0, depths: [] };
    expect(motorStages(notches, 1, 400, 1000)).toHaveLength(1);
  });

  test("a moving cut is taken where it delays most", () => {
    const moving = filtersOf(
      ...craftWith("sensors\n  loop-rate 4 kHz\n\nfilters\n  moving-cut idle 150 Hz full 450 Hz"),
    )!;
    expect(moving.gyro).toMatchObject([{ name: "moving-cut", atHz: 150, order: 1 }]);
  });

  test("what cannot be placed is named", () => {
    const text =
      "sensors\n  loop-rate 1 kHz\n\nfilters\n  smooth-gyro cut 500 Hz\n  notch at 100 Hz width 10 m\n  tracking-notches count 2";
    const figures = filtersOf(...craftWith(text))!;
    expect(figures.leftOut).toEqual(["smooth-gyro", "notch", "tracking-notches"]);
    expect(figures).toMatchObject({ gyro: [], gyroDelayMs: 0, hoverNotchesDelayMs: null });
  });

  test("without a loop's rate there is no chain", () => {
    expect(filtersOf(...craftWith("filters\n  smooth-gyro cut 400 Hz"))).toBeNull();
  });
});
