/** Stick to turn rate, stick to throttle, pulse to stick. The formulas are the language's own; figures follow by arithmetic. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  halfRateStick,
  highestRate,
  type RateAxis,
  rateAt,
  rateCurve,
  stickAtHighestRate,
  stickAtRate,
  stickAtThrottle,
  type Throttle,
  throttleAt,
  turnS,
} from "../../shared/numbers/rates.ts";
import { ratesOf, secondRatesOf, stickTravelsOf } from "../../shared/numbers/rates-of.ts";
import { throttlePulse, throttleShare } from "../../shared/numbers/sticks.ts";
import { craftWith } from "./read.ts";

const USUAL: RateAxis = { slopeDegS: 100, endDegS: 600, bend: 3 };
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const axes = fc.record({ slopeDegS: between(0, 2000), endDegS: between(10, 4000), bend: between(1, 10) });

describe("turn rates", () => {
  // Computed: 100 · 0.5 + 500 · 0.125 = 112.5; the cubic is that of common radio-control practice.
  test("the usual cubic at the middle, half-way and at the end", () => {
    expect([0, 0.5, 1].map((stick) => rateAt(USUAL, stick))).toEqual([0, 112.5, 600]);
  });

  // Computed: 720 deg/s is two turns a second.
  test("at 720 deg/s a flip takes half a second", () => expect(turnS(720)).toBe(0.5));

  // Computed: 100 x + 500 x³ = 300 has the root x = 0.76479 (Cardano).
  test("the stick at which half the end's rate is reached", () => {
    const p = 100 / 500;
    const q = -300 / 500;
    const root = Math.sqrt((q / 2) ** 2 + (p / 3) ** 3);
    expect(halfRateStick(USUAL)).toBeCloseTo(Math.cbrt(-q / 2 + root) + Math.cbrt(-q / 2 - root), 12);
    expect(halfRateStick({ slopeDegS: 600, endDegS: 600, bend: 3 })).toBeCloseTo(0.5, 12);
  });

  test("the curve is odd, ends at its end, and starts with its slope", () => {
    fc.assert(
      fc.property(axes, between(-1, 1), (axis, stick) => {
        expect(rateAt(axis, -stick)).toBeCloseTo(-rateAt(axis, stick), 9);
        expect(rateAt(axis, 1)).toBeCloseTo(axis.endDegS, 9);
        expect(rateAt(axis, 2)).toBe(rateAt(axis, 1));
      }),
    );
  });

  test("a rate gives its stick back, and no place is higher than the highest", () => {
    fc.assert(
      fc.property(axes, between(0, 1), (axis, at) => {
        const top = stickAtHighestRate(axis);
        const degS = rateAt(axis, top * at);
        expect(rateAt(axis, stickAtRate(axis, degS)!)).toBeCloseTo(degS, 6);
        for (const [, rate] of rateCurve(axis, 41)) expect(rate).toBeLessThanOrEqual(highestRate(axis) + 1e-9);
      }),
    );
  });

  test("a neighbour of the highest place, which rounding lifts above it, has its stick too", () => {
    const axis = { slopeDegS: 408.6769986111916, endDegS: 10, bend: 3.804030408220344 };
    const beside = rateAt(axis, stickAtHighestRate(axis) * 0.9999999952548801);
    expect(beside).toBeGreaterThan(highestRate(axis));
    expect(rateAt(axis, stickAtRate(axis, beside)!)).toBeCloseTo(beside, 9);
  });

  // Computed: 900 x − 600 x³ is highest where 900 = 1800 x², at 0.7071, and is 424.26 there.
  test("a slope far above the end makes a curve that comes back down", () => {
    const axis = { slopeDegS: 900, endDegS: 300, bend: 3 };
    expect(stickAtHighestRate(axis)).toBeCloseTo(Math.SQRT1_2, 12);
    expect(highestRate(axis)).toBeCloseTo(424.264, 3);
    expect(stickAtRate(axis, 425)).toBeNull();
    expect(stickAtHighestRate(USUAL)).toBe(1);
  });

  test("a cap flattens the curve's end", () => {
    expect(rateCurve(USUAL, 3, 400)).toEqual([
      [0, 0],
      [0.5, 112.5],
      [1, 400],
    ]);
  });
});

describe("throttle", () => {
  const plain: Throttle = { curve: null, soft: null, limit: 1, limitBy: "stretched" };

  test("points are joined by straight lines", () => {
    const throttle = { ...plain, curve: [0, 0.25, 1] };
    expect([0, 0.25, 0.5, 0.75, 1].map((stick) => throttleAt(throttle, stick))).toEqual([0, 0.125, 0.25, 0.625, 1]);
  });

  test("a limit scales the whole travel, or cuts off its top", () => {
    expect([0.5, 0.9, 1].map((stick) => throttleAt({ ...plain, limit: 0.8 }, stick))).toEqual([0.4, 0.9 * 0.8, 0.8]);
    const clipped: Throttle = { ...plain, limit: 0.8, limitBy: "cut-off" };
    expect([0.5, 0.9, 1].map((stick) => throttleAt(clipped, stick))).toEqual([0.5, 0.8, 0.8]);
    expect(stickAtThrottle(clipped, 0.8)).toBeCloseTo(0.8, 9);
    expect(stickAtThrottle(clipped, 0.81)).toBeNull();
  });

  test("softness leaves the hover and both ends where they are, and is flatter there by its share", () => {
    fc.assert(
      fc.property(between(0, 0.95), between(0.1, 0.9), (share, about) => {
        const throttle = { ...plain, soft: { share, about } };
        for (const stick of [0, about, 1]) expect(throttleAt(throttle, stick)).toBeCloseTo(stick, 9);
        const h = 1e-5;
        const slope = (throttleAt(throttle, about + h) - throttleAt(throttle, about - h)) / (2 * h);
        expect(slope).toBeCloseTo(1 - share, 4);
      }),
    );
  });

  test("a throttle gives its stick back", () => {
    const throttles = fc.record({
      curve: fc.constant(null),
      soft: fc.record({ share: between(0, 0.9), about: between(0.1, 0.9) }),
      limit: between(0.2, 1),
      limitBy: fc.constantFrom("stretched" as const, "cut-off" as const),
    });
    fc.assert(
      fc.property(throttles, between(0, 1), (throttle, stick) => {
        const expected = throttleAt(throttle, stick);
        expect(throttleAt(throttle, stickAtThrottle(throttle, expected)!)).toBeCloseTo(expected, 9);
      }),
    );
  });
});

describe("pulses", () => {
  // 1000 to 2000 us, centre 1500: common practice, no source; servo neutral about 1.5 ms: encyclopaedia, "Servo control" (read).
  test("1000, 1500 and 2000 us are the ends and the middle", () => {
    expect([1000, 1500, 2000].map((us) => throttleShare(us, 1000, 2000))).toEqual([0, 0.5, 1]);
  });

  // Many handsets give about 988 to 2012 us at full travel: a little beyond is harmless (common practice, no source).
  test("a little beyond an end is that end", () => {
    expect([988, 2012].map((us) => throttleShare(us, 1000, 2000))).toEqual([0, 1]);
  });

  test("a share gives its pulse, and the pulse gives the share", () => {
    fc.assert(
      fc.property(between(900, 1200), between(1800, 2200), between(0, 1), (fromUs, toUs, share) => {
        expect(throttleShare(throttlePulse(share, fromUs, toUs), fromUs, toUs)).toBeCloseTo(share, 9);
      }),
    );
  });
});

describe("what a craft says", () => {
  const RATES = `rates
  roll   slope 100 deg/s  end 600 deg/s
  pitch  slope 100 deg/s
  throttle-limit 90 %
  top-rate 1500 deg/s

rates-second
  roll  end 300 deg/s  bend 4`;

  test("an axis needs slope and end; the bend is 3 by default", () => {
    const rates = ratesOf(...craftWith(RATES));
    expect(rates).toMatchObject({ roll: USUAL, pitch: null, yaw: null, topDegS: 1500 });
    expect(rates.throttle).toEqual({ curve: null, soft: null, limit: 0.9, limitBy: "stretched" });
  });

  test("the second set lies over the first, field by field", () => {
    expect(secondRatesOf(...craftWith(RATES))).toMatchObject({
      roll: { slopeDegS: 100, endDegS: 300, bend: 4 },
      throttle: { limit: 0.9 },
    });
    expect(secondRatesOf(...craftWith("rates\n  roll slope 10 deg/s end 20 deg/s"))).toBeNull();
  });

  test("softness needs its place; a curve needs none", () => {
    expect(ratesOf(...craftWith("rates\n  throttle-soft 30 %")).throttle).toBeNull();
    const soft = ratesOf(...craftWith("rates\n  throttle-soft 30 %\n  throttle-hover 25 %")).throttle;
    expect(soft).toMatchObject({ soft: { share: 0.3, about: 0.25 } });
    expect(ratesOf(...craftWith("rates\n  throttle-curve 0, 30, 100 %")).throttle?.curve).toEqual([0, 0.3, 1]);
  });

  test("the sticks' pulses, with the catalogue's ends and middle", () => {
    expect(stickTravelsOf(...craftWith("link\n  deadband 4 us"))).toEqual({
      rollAndPitch: { fromUs: 1000, centreUs: 1500, toUs: 2000, deadbandUs: 4 },
      yaw: { fromUs: 1000, centreUs: 1500, toUs: 2000, deadbandUs: 0 },
      throttle: { fromUs: 1000, toUs: 2000 },
    });
  });
});
