/** What work costs, and how that grows with its size, on a machine that does other things as well. */
import { expect } from "vitest";

const RUNS = 3;
/** A collection of garbage, or another test that fills the caches, can spoil all runs of one try. */
const TRIES = 5;
/** A time so short that it is all noise. */
const NOISE_MS = 15;

/** Milliseconds of the processor's time that the work takes, the least of three runs. */
export function processorMs(work: () => unknown): number {
  const times = Array.from({ length: RUNS }, () => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

/** Fails where the work takes more of the processor's time than that, however often it is tried. */
export function expectWithin(mostMs: number, work: () => unknown, about?: string): void {
  let leastMs = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TRIES && leastMs > mostMs; i++) leastMs = Math.min(leastMs, processorMs(work));
  expect(leastMs, about).toBeLessThanOrEqual(mostMs);
}

/** Fails where the large work takes more than so many times as long as the small one, however often it is tried. */
export function expectGrowth(
  mostTimes: number,
  { small, large }: { readonly small: () => unknown; readonly large: () => unknown },
  about?: string,
): void {
  let times = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TRIES && times > mostTimes; i++) {
    const once = Math.max(NOISE_MS, processorMs(small));
    times = Math.min(times, processorMs(large) / once);
  }
  expect(times, about).toBeLessThanOrEqual(mostTimes);
}
