/** Figures of a measurement, as they are printed. */
import { existsSync, readFileSync } from "node:fs";

export const percentile = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
export const ms = (number: number) => number.toFixed(1).padStart(6);

/** Memory held by a process in MB (2^20 bytes), from Linux's /proc; NaN elsewhere, where it is not measured. */
export function memoryMBOf(pid: number): number {
  const status = `/proc/${pid}/status`;
  if (!existsSync(status)) return Number.NaN;
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(status, "utf8"))?.[1] ?? 0) / 1024;
}

/** Memory held by a process, in words. */
export function memoryOf(pid: number): string {
  const megabytes = memoryMBOf(pid);
  return Number.isNaN(megabytes) ? "not measured" : `${megabytes.toFixed(0)} MB`;
}

/** What `--NAME=VALUE` says among the arguments of `npm run bench`; undefined where it is not there. */
export function flagOf(name: string): string | undefined {
  const start = `--${name}=`;
  return process.argv.find((argument) => argument.startsWith(start))?.slice(start.length);
}
