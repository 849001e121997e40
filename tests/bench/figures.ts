/** Figures of a measurement, as they are printed. */
import { existsSync, readFileSync } from "node:fs";

export const percentile = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
export const ms = (number: number) => number.toFixed(1).padStart(6);

/** Memory held by a process, from Linux's /proc; elsewhere it is not measured. */
export function memoryOf(pid: number): string {
  const status = `/proc/${pid}/status`;
  if (!existsSync(status)) return "not measured";
  return `${(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(status, "utf8"))?.[1] ?? 0) / 1024).toFixed(0)} MB`;
}
