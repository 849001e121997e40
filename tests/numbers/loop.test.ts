/** The loop's time. Its formulas are 1 / f and bits / rate; the figures follow by arithmetic. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  answerUs,
  budgetOf,
  fastestLoopKhz,
  frameUs,
  gyroMultiple,
  periodUs,
  pulsePeriodUs,
  pulsesFit,
  slowestEscKbit,
} from "../../shared/numbers/loop.ts";
import { loopOf } from "../../shared/numbers/loop-of.ts";
import { craftWith } from "./read.ts";

describe("the command and the round", () => {
  // SI brochure, 9th edition, 2.3.4 (memory): 1 Hz = 1/s, so 8 kHz is 125 us.
  test("8 kHz is 125 us", () => expect(periodUs(8)).toBe(125));

  const plain = (escRateKbit: number, pauseUs = 2) => ({ escRateKbit, pauseUs, answers: "none" }) as const;
  const answered = (escRateKbit: number, pauseUs = 2) => ({ escRateKbit, pauseUs, answers: "same-wire" }) as const;

  // Computed: 16 bits at 300, 600 and 1200 kbit/s are 53.33, 26.67 and 13.33 us, and 2 us of silence after each.
  test.each([
    [300, 55.33],
    [600, 28.67],
    [1200, 15.33],
  ])("a command at %i kbit/s with 2 us of silence", (rate, us) => expect(frameUs(plain(rate))).toBeCloseTo(us, 2));

  // Computed from common practice, no source: 25 us to turn the wire round, then 20 bits at the same rate.
  test.each([
    [300, 91.67, 147],
    [600, 58.33, 87],
    [1200, 41.67, 57],
  ])("an answer at %i kbit/s, and the command with it", (rate, answer, all) => {
    expect(answerUs(answered(rate))).toBeCloseTo(answer, 2);
    expect(frameUs(answered(rate))).toBeCloseTo(all, 2);
    expect(answerUs(plain(rate))).toBe(0);
  });

  // Computed: 147 us at 300 kbit/s are more than the 125 us of 8 kHz and less than the 250 us of 4 kHz; 87 us fit.
  test("answers at 300 kbit/s fit 4 kHz and not 8, those at 600 fit 8", () => {
    expect(budgetOf(answered(300), 8).fits).toBe(false);
    expect(budgetOf(answered(300), 4).fits).toBe(true);
    expect(budgetOf(answered(600), 8).fits).toBe(true);
  });

  // Computed: 150 kbit/s take 108.67 us, which 8 kHz (125 us) has and 16 kHz (62.5 us) has not.
  test("what fits and what does not", () => {
    expect(budgetOf(plain(150), 8)).toMatchObject({ fits: true, roundUs: 125, answerUs: 0 });
    expect(budgetOf(plain(150), 8).spareUs).toBeCloseTo(16.33, 2);
    expect(budgetOf(plain(150), 16).fits).toBe(false);
    expect(budgetOf(plain(150), 16).spareUs).toBeLessThan(0);
  });

  test("the fastest loop and the slowest rate just fit, and a little more does not", () => {
    const rates = fc.double({ min: 50, max: 2000, noNaN: true });
    fc.assert(
      fc.property(rates, fc.integer({ min: 0, max: 60 }), fc.constantFrom(plain, answered), (rate, pause, talk) => {
        const wire = talk(rate, pause);
        const loop = fastestLoopKhz(wire);
        expect(budgetOf(wire, loop).fits).toBe(true);
        expect(budgetOf(wire, loop * 1.001).fits).toBe(false);
        expect(slowestEscKbit(loop, wire)).toBeCloseTo(rate, 6);
      }),
    );
    expect(slowestEscKbit(8, plain(0, 125))).toBeNull();
    expect(slowestEscKbit(8, answered(0, 100))).toBeNull();
  });
});

describe("gyro and pulses", () => {
  test("an 8 kHz gyro serves 8, 4 and 2 kHz evenly, and 3 kHz not", () => {
    expect([8, 4, 2, 3].map((loop) => gyroMultiple(8, loop).even)).toEqual([true, true, true, false]);
    expect(gyroMultiple(4, 8)).toEqual({ ratio: 0.5, even: false });
  });

  // Computed: 400 pulses a second are 2500 us apart; 2000 us fit, and at 500 a second they meet.
  test("classic pulses have room for some 400 a second", () => {
    expect(pulsePeriodUs(400)).toBe(2500);
    expect(pulsesFit(2000, 400)).toBe(true);
    expect(pulsesFit(2000, 500)).toBe(false);
  });
});

describe("what a craft says", () => {
  test("a digital signal, with the catalogue's pause", () => {
    const figures = loopOf(
      ...craftWith(
        "motors\n  esc-signal digital\n  esc-rate 300 kbit/s\n\nsensors\n  gyro-rate 8 kHz\n  loop-rate 4000 Hz",
      ),
    );
    expect(figures).toMatchObject({ signal: "digital", loopRateKhz: 4, pauseUs: 2, gyro: { ratio: 2, even: true } });
    expect(figures.budget).toMatchObject({ fits: true, roundUs: 250 });
  });

  test("answers count where the controllers report on the signal wire", () => {
    const text = "motors\n  esc-signal digital\n  esc-rate 300 kbit/s\n  rpm-feedback";
    const loopWith = (word: string) => loopOf(...craftWith(`${text} ${word}\n\nsensors\n  loop-rate 8 kHz`)).budget;
    expect(loopWith("yes")).toMatchObject({ fits: false });
    expect(loopWith("no")).toMatchObject({ fits: true, answerUs: 0 });
  });

  test("pulses have no bits to budget", () => {
    const text =
      "motors\n  esc-signal pulse\n  esc-rate 300 kbit/s\n  pulse-rate 480 Hz\n  pulse-range 1000 us to 2000 us";
    expect(loopOf(...craftWith(`${text}\n\nsensors\n  loop-rate 4 kHz`))).toMatchObject({
      budget: null,
      pulsesFit: true,
    });
  });

  test("without a loop rate nothing is budgeted", () => {
    expect(loopOf(...craftWith("motors\n  esc-signal digital\n  esc-rate 300 kbit/s")).budget).toBeNull();
  });
});
