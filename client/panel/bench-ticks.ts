/** Which ticks of the bench list still hold: a day is written on their account, so none may be of another craft than this one is now. */
import type { BenchList, BenchStep, BenchTicks } from "../../shared/protocol/bench.ts";

/** A tick of the evening before is none of today: whoever goes on the next day begins anew. */
const HOLDS_MS = 12 * 60 * 60 * 1000;

/** The steps whose ticks hold: what they say is what was ticked, and not too long ago. */
export function tickedIn({ phases }: BenchList, ticks: BenchTicks, nowMs: number): ReadonlySet<string> {
  const steps = phases.flatMap((phase) => phase.steps);
  const holds = (step: BenchStep) => {
    const tick = ticks[step.id];
    return tick !== undefined && tick.said === saidBy(step) && nowMs - tick.atMs < HOLDS_MS;
  };
  return new Set(steps.filter(holds).map(({ id }) => id));
}

/** The ticks once a step is ticked, or its tick is taken back. */
export function toggled(list: BenchList, ticks: BenchTicks, id: string, nowMs: number): BenchTicks {
  const { [id]: _, ...others } = ticks;
  const step = list.phases.flatMap(({ steps }) => steps).find((each) => each.id === id);
  if (!step || tickedIn(list, ticks, nowMs).has(id)) return others;
  return { ...others, [id]: { said: saidBy(step), atMs: nowMs } };
}

/** The ticks without those of a check: what no longer holds is to be done again. */
export function withoutCheck({ phases }: BenchList, ticks: BenchTicks, check: string): BenchTicks {
  const gone = new Set(phases.flatMap(({ steps }) => steps.filter((step) => step.check === check).map(({ id }) => id)));
  return Object.fromEntries(Object.entries(ticks).filter(([id]) => !gone.has(id)));
}

/** What a step says, in few letters. */
function saidBy({ what, expect }: BenchStep): string {
  let hash = 5381;
  for (const letter of `${what}\n${expect}`) hash = (hash * 33 + letter.codePointAt(0)!) >>> 0;
  return hash.toString(36);
}
