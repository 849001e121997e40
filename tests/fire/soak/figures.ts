/** What is printed of a soak while it goes on. */
import { percentile } from "../../bench/figures.ts";
import { medianOf } from "./memory.ts";

export interface Stretch {
  readonly keys: number;
  readonly requests: number;
  /** From each key to its findings, in ms. */
  readonly delaysMs: readonly number[];
  /** Memory at moments of the stretch, in MB. */
  readonly residentMb: readonly number[];
}

/** A line of figures of a stretch of time. */
export function figuresOf({ keys, requests, delaysMs, residentMb }: Stretch): string {
  const sorted = [...delaysMs].sort((a, b) => a - b);
  const delay = (share: number) => (sorted.length === 0 ? "–" : percentile(sorted, share).toFixed(1));
  return [
    `memory ${medianOf(residentMb).toFixed(0)} MB (at most ${Math.max(...residentMb).toFixed(0)})`,
    `${keys} keys, ${requests} requests`,
    `edit → findings p50 ${delay(0.5)} ms, p95 ${delay(0.95)} ms, slowest ${delay(1)} ms`,
  ].join("; ");
}
