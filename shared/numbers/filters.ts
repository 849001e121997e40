/**
 * Digital filters as the board runs them, once per loop. Pure arithmetic; `filters-of.ts` reads a
 * craft's filters.
 *
 * - `lowPass`, `notch`: one filter at a loop rate
 * - `responseOf`: gain, phase and delay of a chain at one frequency; `logSteps`: frequencies for a sweep
 * - `lowPassDelayMs`, `notchDelayMs`: delay at low frequency of the analogue models, without a loop rate
 *
 * Sources: Audio EQ Cookbook (W3C Note, 8 June 2021) for the low-pass of order 2 and the notch; the low-pass
 * of order 1 is 1 / (s + 1) through the same bilinear transform, prewarped to keep its cutoff.
 */

/** One filter: y0 = b0·x0 + b1·x1 + b2·x2 − a1·y1 − a2·y2, the newest sample first. */
export interface Stage {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
}

/** Q of a Butterworth low-pass of order 2: maximally flat, with half the power at the cutoff. */
const BUTTERWORTH_Q = Math.SQRT1_2;

/** A low-pass that passes half the power at its cutoff; null for a cutoff at or beyond half the loop rate. */
export function lowPass(order: 1 | 2, cutHz: number, rateHz: number): Stage | null {
  if (cutHz <= 0 || cutHz >= rateHz / 2) return null;
  if (order === 1) {
    const k = Math.tan((Math.PI * cutHz) / rateHz);
    return { b: [k / (1 + k), k / (1 + k), 0], a: [(k - 1) / (1 + k), 0] };
  }
  const w0 = (2 * Math.PI * cutHz) / rateHz;
  const alpha = Math.sin(w0) / (2 * BUTTERWORTH_Q);
  const cos = Math.cos(w0);
  const b0 = (1 - cos) / 2 / (1 + alpha);
  return { b: [b0, 2 * b0, b0], a: [(-2 * cos) / (1 + alpha), (1 - alpha) / (1 + alpha)] };
}

/**
 * A notch of exactly this width between the frequencies at which half the power passes. The cookbook's
 * Q gives that width only approximately. Its width is (rate / pi) · atan(alpha), which is solved here for
 * alpha = tan(pi · width / rate). `depth` from 0 to 1 mixes the notch with the unfiltered signal. Null if
 * centre or width is not positive and below half the loop rate.
 */
export function notch(atHz: number, widthHz: number, rateHz: number, depth = 1): Stage | null {
  if (atHz <= 0 || atHz >= rateHz / 2 || widthHz <= 0 || widthHz >= rateHz / 2) return null;
  const alpha = Math.tan((Math.PI * widthHz) / rateHz);
  const cos = Math.cos((2 * Math.PI * atHz) / rateHz);
  const [a1, a2] = [(-2 * cos) / (1 + alpha), (1 - alpha) / (1 + alpha)];
  const end = depth / (1 + alpha);
  const kept = 1 - depth;
  return { b: [kept + end, kept * a1 + depth * a1, kept * a2 + end], a: [a1, a2] };
}

export interface Response {
  readonly hz: number;
  /** Amplitude over that of the input: 1 passes everything. */
  readonly gain: number;
  readonly gainDb: number;
  /** Sum of the phases of all stages, so that it continues below −pi without a jump. */
  readonly phaseRad: number;
  /** Group delay: the negative derivative of the phase. */
  readonly delayMs: number;
}

/** The response of a chain at one frequency, up to half the loop rate. An empty chain changes nothing. */
export function responseOf(stages: readonly Stage[], hz: number, rateHz: number): Response {
  const w = (2 * Math.PI * hz) / rateHz;
  const circle = { cos1: Math.cos(w), sin1: Math.sin(w), cos2: Math.cos(2 * w), sin2: Math.sin(2 * w) };
  let [gain, phaseRad, samples] = [1, 0, 0];
  for (const { b, a } of stages) {
    const numerator = polynomialAt(b[0], b[1], b[2], circle);
    const denominator = polynomialAt(1, a[0], a[1], circle);
    gain *= numerator.size / denominator.size;
    phaseRad += numerator.phaseRad - denominator.phaseRad;
    samples += numerator.delay - denominator.delay;
  }
  return { hz, gain, gainDb: 20 * Math.log10(gain), phaseRad, delayMs: (samples / rateHz) * 1000 };
}

/** Delay of a chain at low frequency in milliseconds: that of every slow movement. */
export function lowFrequencyDelayMs(stages: readonly Stage[], rateHz: number): number {
  return responseOf(stages, 0, rateHz).delayMs;
}

/** `points` logarithmically spaced frequencies, both ends included. */
export function logSteps(fromHz: number, toHz: number, points: number): number[] {
  const step = Math.log(toHz / fromHz) / (points - 1);
  return Array.from({ length: points }, (_, i) => (i === points - 1 ? toHz : fromHz * Math.exp(i * step)));
}

/**
 * Delay at low frequency of an analogue low-pass: 1 / (2 pi f) for order 1, sqrt(2) / (2 pi f) for a
 * Butterworth of order 2.
 */
export function lowPassDelayMs(order: 1 | 2, cutHz: number): number {
  return ((order === 1 ? 1 : Math.SQRT2) * 1000) / (2 * Math.PI * cutHz);
}

/** Delay at low frequency of an analogue notch: width / (2 pi f²), the derivative of its phase at zero. */
export function notchDelayMs(atHz: number, widthHz: number): number {
  return (widthHz * 1000) / (2 * Math.PI * atHz ** 2);
}

/** Cosine and sine of an angular frequency and of its double. */
interface Circle {
  readonly cos1: number;
  readonly sin1: number;
  readonly cos2: number;
  readonly sin2: number;
}

/**
 * Magnitude, phase and delay in samples of c0 + c1·z⁻¹ + c2·z⁻² at a frequency; the delay is
 * Re(Σ k·ck·z⁻ᵏ / Σ ck·z⁻ᵏ). A polynomial with symmetric coefficients delays by half its order at every
 * frequency, also at its zeros, where that quotient is undefined.
 */
function polynomialAt(c0: number, c1: number, c2: number, { cos1, sin1, cos2, sin2 }: Circle) {
  const re = c0 + c1 * cos1 + c2 * cos2;
  const im = -c1 * sin1 - c2 * sin2;
  const delay = c0 === c2 ? 1 : c2 === 0 && c0 === c1 ? 0.5 : null;
  const slopeRe = c1 * cos1 + 2 * c2 * cos2;
  const slopeIm = -c1 * sin1 - 2 * c2 * sin2;
  return {
    size: Math.hypot(re, im),
    phaseRad: Math.atan2(im, re),
    delay: delay ?? (slopeRe * re + slopeIm * im) / (re * re + im * im),
  };
}
