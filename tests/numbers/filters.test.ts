/** Filters at a loop's rate, held to published figures and, over a sweep, to two libraries. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  logSteps,
  lowFrequencyDelayMs,
  lowPass,
  lowPassDelayMs,
  notch,
  notchDelayMs,
  responseOf,
  type Stage,
} from "../../shared/numbers/filters.ts";
import { apart, askFili, askWebAudio, type FilterSpec, filiStage } from "./oracles.ts";

const RATES_HZ = [2000, 4000, 8000, 32_000];
const ORDERS = [1, 2] as const;
const BUTTERWORTH_Q = Math.SQRT1_2;

/** Every hundredth of the band up to a little below half the rate. */
const sweep = (rateHz: number) => Array.from({ length: 99 }, (_, i) => ((i + 1) * rateHz) / 200);
const sweepOf = (stages: readonly Stage[], rateHz: number) => sweep(rateHz).map((hz) => responseOf(stages, hz, rateHz));

describe("published figures", () => {
  // A signal library's own test of a Butterworth of order 2 at fc = fs/8 (read); three libraries agree.
  test("Butterworth of order 2 at an eighth of the rate", () => {
    const { b, a } = lowPass(2, 1000, 8000)!;
    [0.0976310729378, 0.195262145876, 0.0976310729378].forEach((each, i) => {
      expect(b[i]).toBeCloseTo(each, 12);
    });
    expect(a[0]).toBeCloseTo(-0.942809041582, 12);
    expect(a[1]).toBeCloseTo(1 / 3, 12);
  });

  // The same at a quarter of the rate (computed).
  test("Butterworth of order 2 at a quarter of the rate", () => {
    const { b, a } = lowPass(2, 1000, 4000)!;
    [0.292893, 0.585786, 0.292893].forEach((each, i) => {
      expect(b[i]).toBeCloseTo(each, 6);
    });
    expect(a[0]).toBeCloseTo(0, 12);
    expect(a[1]).toBeCloseTo(0.171573, 6);
  });

  // Audio EQ Cookbook (W3C Note, 8 June 2021) (read): notch b = [1, −2cos w0, 1], a = [1+alpha, −2cos w0, 1−alpha], over a0.
  test("the notch is the cookbook's, with its alpha from the width", () => {
    const { b, a } = notch(200, 40, 4000)!;
    const w0 = (2 * Math.PI * 200) / 4000;
    const alpha = Math.tan((Math.PI * 40) / 4000);
    const expected = [1, -2 * Math.cos(w0), 1, -2 * Math.cos(w0), 1 - alpha].map((each) => each / (1 + alpha));
    [...b, ...a].forEach((each, i) => {
      expect(each).toBeCloseTo(expected[i]!, 12);
    });
  });

  // Computed: 1/(2 pi fc) = 1.5915 ms at 100 Hz for order 1, sqrt(2)/(2 pi fc) = 2.2508 ms for order 2.
  test("delay of the analogue low-passes at 100 Hz", () => {
    expect(lowPassDelayMs(1, 100)).toBeCloseTo(1.5915, 4);
    expect(lowPassDelayMs(2, 100)).toBeCloseTo(2.2508, 4);
  });

  // Sampled at 4 kHz: 1.588 and 2.246 ms (computed).
  test("delay of the sampled low-passes at 100 Hz of 4 kHz", () => {
    expect(lowFrequencyDelayMs([lowPass(1, 100, 4000)!], 4000)).toBeCloseTo(1.588, 3);
    expect(lowFrequencyDelayMs([lowPass(2, 100, 4000)!], 4000)).toBeCloseTo(2.246, 3);
  });

  // RC: 1 kohm, 1 uF is 159.15 Hz (read): a time constant of 1 ms.
  test("a cut of 159.15 Hz is a delay of 1 ms", () => expect(lowPassDelayMs(1, 159.15)).toBeCloseTo(1, 4));

  // The Butterworth response 1 / sqrt(1 + (f / fc)^2n), f standing for tan(pi f / fs) in a sampled filter (memory).
  test("gain is the Butterworth response at every frequency, and half the power at the cut", () => {
    const bent = (hz: number) => Math.tan((Math.PI * hz) / 4000);
    for (const order of ORDERS) {
      const stages = [lowPass(order, 300, 4000)!];
      expect(responseOf(stages, 300, 4000).gainDb).toBeCloseTo(-3.0103, 4);
      for (const hz of sweep(4000))
        expect(responseOf(stages, hz, 4000).gain).toBeCloseTo((1 + (bent(hz) / bent(300)) ** (2 * order)) ** -0.5, 9);
    }
  });

  // SciPy, scipy/signal/tests/test_filter_design.py, TestIIRNotch.test_ba_output (read; its figures are another program's):
  // a notch at 0.06 of half the rate, a thirtieth of that wide.
  test("a notch of a signal library's own test", () => {
    const { b, a } = notch(0.06, 0.06 / 30, 2)!;
    [0.99686824, -1.9584219, 0.99686824].forEach((each, i) => {
      expect(b[i]! / each).toBeCloseTo(1, 7);
    });
    expect(a[0] / -1.9584219).toBeCloseTo(1, 7);
    expect(a[1] / 0.99373647).toBeCloseTo(1, 7);
  });

  // The same, test_frequency_response (read): at 0.3 and a hundredth wide, half the power at 0.295 and 0.305, all within 1 %.
  test("the edges of that library's notch", () => {
    const gains = [0.2, 0.295, 0.3, 0.305, 0.4].map((hz) => responseOf([notch(0.3, 0.01, 2)!], hz, 2).gain);
    [1, Math.SQRT1_2, 0, Math.SQRT1_2, 1].forEach((each, i) => {
      expect(Math.abs(gains[i]! - each)).toBeLessThan(0.01);
    });
  });

  // The same, TestGroupDelay.test_iir (read; its figures are another program's): a Butterworth of order 4 at a tenth of half
  // the rate, ten frequencies from zero. Its two stages have Q 1/(2 cos pi/8) and 1/(2 cos 3 pi/8).
  test("group delay of a chain of two stages", () => {
    const samples = [
      8.249313898506037, 11.958947880907104, 2.452325615326005, 1.048918665702008, 0.611382575635897, 0.418293269460578,
      0.317932917836572, 0.261371844762525, 0.229038045801298, 0.212185774208521,
    ];
    const chain = [1, 3].map((odd): Stage => {
      const q = 1 / (2 * Math.cos((odd * Math.PI) / 8));
      const { k, b, a } = filiStage({ kind: "low-pass", atHz: 0.1, rateHz: 2, q });
      return { b: [k * b[0], k * b[1], k * b[2]], a };
    });
    samples.forEach((each, i) => {
      expect((responseOf(chain, i / 10, 2).delayMs * 2) / 1000).toBeCloseTo(each, 6);
    });
  });
});

describe("against two libraries, over a sweep", () => {
  const expected = (kind: FilterSpec["kind"], atHz: number, rateHz: number, q: number): FilterSpec => ({
    kind,
    atHz,
    rateHz,
    q,
  });

  // A low-pass of Q 1/2 is two of order 1, one after the other: (s + 1)² = s² + 2s + 1.
  const made = (order: 1 | 2, cutHz: number, rateHz: number): Stage[] => {
    const one = lowPass(order, cutHz, rateHz)!;
    return order === 1 ? [one, one] : [one];
  };
  const qOf = (order: 1 | 2) => (order === 1 ? 0.5 : BUTTERWORTH_Q);
  const cases = RATES_HZ.flatMap((rateHz) =>
    [0.01, 0.05, 0.125, 0.25, 0.4].flatMap((part) => ORDERS.map((order) => [order, part * rateHz, rateHz] as const)),
  );

  test.each(cases)("low-pass of order %i at %f Hz of %i Hz", (order, cutHz, rateHz) => {
    const spec = expected("low-pass", cutHz, rateHz, qOf(order));
    const ours = sweepOf(made(order, cutHz, rateHz), rateHz);
    const exact = askFili(spec, sweep(rateHz));
    const single = askWebAudio(spec, sweep(rateHz));
    ours.forEach((one, i) => {
      expect(apart(one, exact[i]!)).toBeLessThan(1e-9);
      expect(apart(one, single[i]!)).toBeLessThan(1e-4);
    });
  });

  test.each(
    RATES_HZ.flatMap((rateHz) =>
      [0.02, 0.1, 0.25, 0.4].flatMap((part) =>
        [0.005, 0.03, 0.1].map((wide) => [part * rateHz, wide * rateHz, rateHz] as const),
      ),
    ),
  )("notch at %f Hz, %f Hz wide, of %i Hz", (atHz, widthHz, rateHz) => {
    // The cookbook's Q = sin w0 / (2 alpha), linear in both libraries.
    const q = Math.sin((2 * Math.PI * atHz) / rateHz) / (2 * Math.tan((Math.PI * widthHz) / rateHz));
    const spec = expected("notch", atHz, rateHz, q);
    const ours = sweepOf([notch(atHz, widthHz, rateHz)!], rateHz);
    const exact = askFili(spec, sweep(rateHz));
    const single = askWebAudio(spec, sweep(rateHz));
    ours.forEach((one, i) => {
      expect(apart(one, exact[i]!)).toBeLessThan(1e-9);
      expect(apart(one, single[i]!)).toBeLessThan(1e-3);
    });
  });

  test("coefficients of order 2, any cut and rate, are those of the library that works in doubles", () => {
    fc.assert(
      fc.property(fc.constantFrom(...RATES_HZ), fc.double({ min: 0.001, max: 0.49, noNaN: true }), (rateHz, part) => {
        const ours = lowPass(2, part * rateHz, rateHz)!;
        const theirs = filiStage(expected("low-pass", part * rateHz, rateHz, BUTTERWORTH_Q));
        ours.b.forEach((each, i) => {
          expect(each).toBeCloseTo(theirs.k * theirs.b[i]!, 12);
        });
        ours.a.forEach((each, i) => {
          expect(each).toBeCloseTo(theirs.a[i]!, 12);
        });
      }),
    );
  });
});

describe("properties", () => {
  const rates = fc.constantFrom(...RATES_HZ);
  const part = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const stages = (rateHz: number) =>
    fc.oneof(
      fc
        .tuple(fc.constantFrom(...ORDERS), part(0.005, 0.45))
        .map(([order, at]) => lowPass(order, at * rateHz, rateHz)!),
      fc
        .tuple(part(0.02, 0.45), part(0.002, 0.2), part(0, 1))
        .map(([at, wide, depth]) => notch(at * rateHz, wide * rateHz, rateHz, depth)!),
    );
  const chains = rates.chain((rateHz) => fc.tuple(fc.constant(rateHz), fc.array(stages(rateHz), { maxLength: 5 })));

  test("delay is the numeric derivative of the phase, with its sign turned", () => {
    fc.assert(
      fc.property(chains, part(0.01, 0.48), ([rateHz, chain], at) => {
        const hz = at * rateHz;
        const h = rateHz * 1e-6;
        const [low, high] = [responseOf(chain, hz - h, rateHz), responseOf(chain, hz + h, rateHz)];
        const turned = high.phaseRad - low.phaseRad;
        // In the middle of a notch the phase jumps by half a turn: there it has no derivative.
        fc.pre(Math.abs(turned) < 0.5 && responseOf(chain, hz, rateHz).gain > 1e-4);
        const numericMs = (-turned / (2 * Math.PI * 2 * h)) * 1000;
        const { delayMs } = responseOf(chain, hz, rateHz);
        expect(Math.abs(delayMs - numericMs)).toBeLessThan(1e-3 + 1e-3 * Math.abs(numericMs));
      }),
      { numRuns: 300 },
    );
  });

  // Each order of a low-pass turns the phase by a quarter of a circle and no more; a notch by a quarter either way (memory).
  test("the phase of a low-pass falls without a jump, that of a notch stays within a quarter turn", () => {
    fc.assert(
      fc.property(rates, fc.constantFrom(...ORDERS), part(0.005, 0.45), part(0.01, 0.2), (rateHz, order, at, wide) => {
        const low = sweepOf([lowPass(order, at * rateHz, rateHz)!], rateHz).map((each) => each.phaseRad);
        for (const [i, phase] of low.entries()) {
          expect(phase).toBeLessThan(low[i - 1] ?? 0);
          expect(phase).toBeGreaterThan((-order * Math.PI) / 2);
        }
        const one = [notch(at * rateHz, wide * rateHz, rateHz)!];
        for (const { gain, phaseRad, hz } of sweepOf(one, rateHz)) {
          if (gain < 1e-6) continue;
          expect(Math.abs(phaseRad)).toBeLessThanOrEqual(Math.PI / 2);
          expect(Math.sign(phaseRad)).toBe(hz < at * rateHz ? -1 : 1);
        }
      }),
    );
  });

  test("a chain's delays and decibels add up, its gains multiply", () => {
    fc.assert(
      fc.property(chains, part(0.001, 0.49), ([rateHz, chain], at) => {
        const hz = at * rateHz;
        const whole = responseOf(chain, hz, rateHz);
        const each = chain.map((stage) => responseOf([stage], hz, rateHz));
        expect(whole.delayMs).toBeCloseTo(
          each.reduce((sum, { delayMs }) => sum + delayMs, 0),
          6,
        );
        expect(whole.gain).toBeCloseTo(
          each.reduce((product, { gain }) => product * gain, 1),
          9,
        );
      }),
    );
  });

  test("nothing is made larger, and what does not change passes whole", () => {
    fc.assert(
      fc.property(chains, part(0, 0.5), ([rateHz, chain], at) => {
        expect(responseOf(chain, at * rateHz, rateHz).gain).toBeLessThan(1 + 1e-9);
        expect(responseOf(chain, 0, rateHz).gain).toBeCloseTo(1, 9);
      }),
    );
  });

  // By the notch's definition in the language: the width is from the lower to the upper frequency at which half the power passes.
  test("a notch passes nothing in its middle, and half the power at two frequencies its width apart", () => {
    fc.assert(
      fc.property(rates, part(0.05, 0.4), part(0.005, 0.05), (rateHz, at, wide) => {
        const [atHz, widthHz] = [at * rateHz, wide * rateHz];
        const one = [notch(atHz, widthHz, rateHz)!];
        expect(responseOf(one, atHz, rateHz).gain).toBeLessThan(1e-9);
        const edge = (fromHz: number, toHz: number) => {
          let [inside, outside] = [fromHz, toHz];
          for (let i = 0; i < 60; i++) {
            const middle = (inside + outside) / 2;
            if (responseOf(one, middle, rateHz).gain < Math.SQRT1_2) inside = middle;
            else outside = middle;
          }
          return inside;
        };
        expect((edge(atHz, rateHz / 2) - edge(atHz, 0)) / widthHz).toBeCloseTo(1, 6);
      }),
    );
  });

  // The trap in the cookbook: its Q = middle / width gives the width only nearly, truly (rate / pi) · atan(alpha).
  test("the cookbook's Q would miss the width", () => {
    const [atHz, widthHz, rateHz] = [1200, 600, 4000];
    const alpha = Math.sin((2 * Math.PI * atHz) / rateHz) / (2 * (atHz / widthHz));
    const missedHz = (rateHz / Math.PI) * Math.atan(alpha);
    expect(Math.abs(missedHz - widthHz)).toBeGreaterThan(200);
  });

  test("delay at low frequency nears the analogue one as the rate grows", () => {
    for (const order of ORDERS)
      expect(lowFrequencyDelayMs([lowPass(order, 100, 1e6)!], 1e6)).toBeCloseTo(lowPassDelayMs(order, 100), 6);
    expect(lowFrequencyDelayMs([notch(200, 40, 1e6)!], 1e6)).toBeCloseTo(notchDelayMs(200, 40), 4);
  });

  test("depth goes from zero to the whole notch", () => {
    expect(responseOf([notch(200, 40, 4000, 0)!], 200, 4000)).toMatchObject({ gain: 1, delayMs: 0 });
    expect(responseOf([notch(200, 40, 4000, 0.5)!], 200, 4000).gain).toBeCloseTo(0.5, 9);
  });
});

describe("edges", () => {
  test("no filter stands at or beyond half the loop's rate", () => {
    expect(lowPass(1, 2000, 4000)).toBeNull();
    expect(lowPass(2, 2500, 4000)).toBeNull();
    expect(notch(2000, 20, 4000)).toBeNull();
    expect(notch(500, 2000, 4000)).toBeNull();
    expect(lowPass(1, 0, 4000)).toBeNull();
  });

  test("no filter at all changes nothing", () => {
    expect(responseOf([], 123, 4000)).toEqual({ hz: 123, gain: 1, gainDb: 0, phaseRad: 0, delayMs: 0 });
  });

  test("a notch's delay has a value in its very middle", () => {
    expect(responseOf([notch(200, 40, 4000)!], 200, 4000).delayMs).toBeGreaterThan(0);
  });

  test("steps of a logarithm hold both ends and rise evenly", () => {
    const steps = logSteps(10, 1000, 5);
    [10, 31.6228, 100, 316.228, 1000].forEach((each, i) => {
      expect(steps[i]).toBeCloseTo(each, 2);
    });
    expect(steps[4]).toBe(1000);
  });
});
