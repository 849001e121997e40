/** Hovering: momentum theory and propellers, held to a textbook's worked example and to measured propellers. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  AIR_KG_PER_M3,
  COEFFICIENT_SPREAD,
  discAreaM2,
  figureOfMerit,
  hoverCurrentA,
  hoverThrottle,
  idealPowerW,
  inducedMs,
  LOADED,
  MERIT,
  MOTOR_EFFICIENCY,
  OTHERS_W,
  thrustCoefficient,
  thrustN,
  turnsForThrustHz,
} from "../../shared/numbers/thrust.ts";

const POUND_N = 4.4482216;
const FOOT_M = 0.3048;
const HORSEPOWER_W = 745.69987;

describe("momentum theory", () => {
  // Leishman, Principles of Helicopter Aerodynamics, ch. 2, worked example: a tiltrotor of 60,500 lb with two rotors of
  // 38 ft at sea level, 1.225 kg/m³. From memory; the arithmetic of its data was done again by hand.
  const eachN = (60_500 / 2) * POUND_N;
  const areaM2 = discAreaM2(38 * FOOT_M);

  test("a tiltrotor in hover pushes the air through its rotors at 74.9 ft/s", () => {
    expect(areaM2 / FOOT_M ** 2).toBeCloseTo(1134.1, 0);
    expect(inducedMs(eachN, areaM2) / FOOT_M).toBeCloseTo(74.9, 0);
  });

  test("which takes some 4,119 hp for each rotor at least", () => {
    expect(idealPowerW(eachN, areaM2) / HORSEPOWER_W).toBeGreaterThan(4100);
    expect(idealPowerW(eachN, areaM2) / HORSEPOWER_W).toBeLessThan(4130);
  });

  test("the air is that of the standard atmosphere at sea level: 101,325 Pa at 288.15 K", () => {
    // The gas equation with 287.053 J/(kg K) for dry air (ISO 2533), from memory.
    expect(101_325 / (287.053 * 288.15)).toBeCloseTo(AIR_KG_PER_M3, 3);
  });
});

/**
 * A research propeller of 9 in with a pitch of 6.75 in and two blades, at a standstill: turns a minute, thrust and power
 * coefficient. Deters, Ananda and Selig, AIAA 2014-2151, and their published data; quoted.
 */
const MEASURED = [
  [1546.667, 0.125931, 0.088432],
  [2946.667, 0.132682, 0.086557],
  [4443.333, 0.135364, 0.078],
  [5943.333, 0.14045, 0.080081],
] as const;

describe("propellers", () => {
  test.each(MEASURED)("at %d turns a minute the measured thrust lies within the spread", (rpm, coefficient) => {
    const diameterM = 9 * 0.0254;
    const measuredN = thrustN(rpm / 60, diameterM, coefficient);
    const computedN = thrustN(rpm / 60, diameterM, thrustCoefficient(6.75 / 9, 2));
    expect(computedN / measuredN).toBeLessThan(COEFFICIENT_SPREAD);
    expect(computedN / measuredN).toBeGreaterThan(1 / COEFFICIENT_SPREAD);
  });

  test.each(MEASURED)("at %d turns a minute the measured figure of merit lies in the range", (_rpm, thrust, power) => {
    expect(figureOfMerit(thrust, power)).toBeGreaterThan(MERIT.from);
    expect(figureOfMerit(thrust, power)).toBeLessThan(MERIT.to);
  });

  test("the fits of thrust and power come to the upper end of it", () => {
    // Budinger and others, Aerospace Science and Technology 98 (2020) 105658: C_P = -0.00148 + 0.0972 β; quoted.
    for (const pitch of [0.4, 0.5, 0.6, 0.7])
      expect(figureOfMerit(thrustCoefficient(pitch, 2), -0.00148 + 0.0972 * pitch)).toBeCloseTo(MERIT.to, 1);
  });

  test("as many turns as a thrust takes give that thrust", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 200, noNaN: true }),
        fc.double({ min: 0.02, max: 0.8, noNaN: true }),
        fc.double({ min: 0.05, max: 0.4, noNaN: true }),
        (wantedN, diameterM, coefficient) => {
          const turnsHz = turnsForThrustHz(wantedN, diameterM, coefficient);
          expect(thrustN(turnsHz, diameterM, coefficient) / wantedN).toBeCloseTo(1, 9);
        },
      ),
      { seed: 13 },
    );
  });
});

describe("what the pilot sees", () => {
  test("a range of throttle with the middle where the turns put it, less what the load takes", () => {
    const { from, to } = hoverThrottle(100, 400);
    expect(from).toBeCloseTo(0.25 / Math.sqrt(COEFFICIENT_SPREAD) / LOADED.to, 9);
    expect(to).toBeCloseTo((0.25 * Math.sqrt(COEFFICIENT_SPREAD)) / LOADED.from, 9);
  });

  test("a range of current, and what else draws on top", () => {
    const { from, to } = hoverCurrentA({ idealW: 40, diameterM: 0.13, volts: 20, othersA: 0.5 });
    expect(from).toBeCloseTo(2 / (MERIT.to * MOTOR_EFFICIENCY.to) + 0.5, 9);
    expect(to).toBeCloseTo(2 / (MERIT.from * MOTOR_EFFICIENCY.from) + 0.5, 9);
  });

  test("where nobody read what else draws, it may be nothing or as much as a digital camera takes", () => {
    const { from, to } = hoverCurrentA({ idealW: 40, diameterM: 0.13, volts: 20, othersA: null });
    expect(from).toBeCloseTo(2 / (MERIT.to * MOTOR_EFFICIENCY.to), 9);
    expect(to).toBeCloseTo(2 / (MERIT.from * MOTOR_EFFICIENCY.from) + OTHERS_W / 20, 9);
  });

  test("tiny propellers waste more", () => {
    const ofSize = (diameterM: number) => hoverCurrentA({ idealW: 1, diameterM, volts: 3.8, othersA: 0 });
    expect(ofSize(0.031).to).toBeGreaterThan(1.5 * ofSize(0.13).to);
    expect(ofSize(0.031).from).toBe(ofSize(0.13).from);
  });
});
