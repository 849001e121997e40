/**
 * Two libraries that know filters, as the tests ask them: `fili` 2.0.3, which works in doubles, and
 * `node-web-audio-api` 1.0.9, whose answers are singles and whose low-pass takes its Q in decibels.
 */
import { createRequire } from "node:module";
import { OfflineAudioContext } from "node-web-audio-api";

interface FiliStage {
  readonly k: number;
  readonly a: readonly [number, number];
  readonly b: readonly [number, number, number];
}
type Make = (of: { readonly Fc: number; readonly Fs: number; readonly Q: number }) => FiliStage;
interface Fili {
  readonly IirCoeffs: new () => { readonly lowpass: Make; readonly bandstop: Make };
  readonly IirFilter: new (
    stages: readonly FiliStage[],
  ) => { responsePoint(at: { Fs: number; Fr: number }): { readonly magnitude: number; readonly phase: number } };
}
const fili = createRequire(import.meta.url)("fili") as Fili;

export interface FilterSpec {
  readonly kind: "low-pass" | "notch";
  readonly atHz: number;
  readonly rateHz: number;
  readonly q: number;
}

/** Coefficients of one filter, in the order of `Stage`. */
export function filiStage({ kind, atHz, rateHz, q }: FilterSpec): FiliStage {
  const of = { Fc: atHz, Fs: rateHz, Q: q };
  return kind === "low-pass" ? new fili.IirCoeffs().lowpass(of) : new fili.IirCoeffs().bandstop(of);
}

export interface Answer {
  readonly gain: number;
  readonly phaseRad: number;
}

/** Gain and phase of one filter at each frequency, by the library that works in doubles. */
export function askFili(expected: FilterSpec, frequenciesHz: readonly number[]): Answer[] {
  const filter = new fili.IirFilter([filiStage(expected)]);
  return frequenciesHz.map((hz) => {
    const { magnitude, phase } = filter.responsePoint({ Fs: expected.rateHz, Fr: hz });
    return { gain: magnitude, phaseRad: phase };
  });
}

/** Gain and phase by the other one. It takes rates from 2000 Hz. */
export function askWebAudio({ kind, atHz, rateHz, q }: FilterSpec, frequenciesHz: readonly number[]): Answer[] {
  const filter = new OfflineAudioContext(1, 1, rateHz).createBiquadFilter();
  filter.type = kind === "low-pass" ? "lowpass" : "notch";
  filter.frequency.value = atHz;
  filter.Q.value = kind === "low-pass" ? 20 * Math.log10(q) : q;
  const gain = new Float32Array(frequenciesHz.length);
  const phase = new Float32Array(frequenciesHz.length);
  filter.getFrequencyResponse(Float32Array.from(frequenciesHz), gain, phase);
  return [...gain].map((each, i) => ({ gain: each, phaseRad: phase[i]! }));
}

/** How far two answers lie apart, as points of the complex plane: a phase that wraps, or one of nothing, makes no difference. */
export function apart(a: Answer, b: Answer): number {
  const re = a.gain * Math.cos(a.phaseRad) - b.gain * Math.cos(b.phaseRad);
  const im = a.gain * Math.sin(a.phaseRad) - b.gain * Math.sin(b.phaseRad);
  return Math.hypot(re, im);
}
