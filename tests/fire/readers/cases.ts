/**
 * Holds what is made at random to a law, case by case: a case that breaks it, or takes too long, is told with its seed
 * and number, by which `--seed` and `--only` make it again, and with its texts.
 */
import { Worker } from "node:worker_threads";
import { casesOr, ONLY, SEED } from "../amount.ts";
import { type Random, randomOf } from "../random.ts";

/** All readers together: each law has a part of them, in parts of a thousand. */
const ALL_CASES = 200_000;

/** A case that takes longer than this of the processor's time, twice, is a fault: the texts are of a few lines. */
const MOST_MS = 400;

/** So many faults are told at once, so that one run shows whether they are one. */
const MOST_FAULTS = 4;

export interface Trial<Case> {
  /** What a case is made of. */
  readonly make: (random: Random) => Case;
  /** What broke, in words; null where all holds. What it throws counts as broken. */
  readonly fault: (made: Case) => string | null | Promise<string | null>;
  /** The texts of a case, for whoever reads of its fault. */
  readonly shown?: (made: Case) => string;
}

/**
 * Tries so many thousandths of all cases. Gives how many were tried.
 * @throws where one of them broke the law, with its number and its texts
 */
export async function tryCases<Case>(thousandths: number, trial: Trial<Case>): Promise<number> {
  const count = Math.ceil((casesOr(ALL_CASES) * thousandths) / 1000);
  const faults: string[] = [];
  const numbers = ONLY === null ? { from: 0, to: count } : { from: ONLY, to: ONLY + 1 };
  const watch = startWatch();
  for (let i = numbers.from; i < numbers.to && faults.length < MOST_FAULTS; i++) {
    watch.begins(i);
    const found = await faultOf(trial, i);
    if (found !== null) faults.push(found);
  }
  await watch.end();
  if (faults.length > 0) throw new Error(`${faults.length} cases broke:\n\n${faults.join("\n\n")}`);
  return numbers.to - numbers.from;
}

/** A case that has not come to an end after so long never does, on whatever machine. */
const ENDLESS_MS = 90_000;

/** What stops the run at a case without an end: only another thread can, and it says which. */
function startWatch() {
  const number = new Int32Array(new SharedArrayBuffer(4));
  const watch = `
    const { workerData: { number, seed, mostMs } } = require("node:worker_threads");
    let [last, since] = [-1, Date.now()];
    setInterval(() => {
      const now = Atomics.load(number, 0);
      if (now !== last) [last, since] = [now, Date.now()];
      if (Date.now() - since < mostMs) return;
      require("node:fs").writeSync(2, "case " + now + " of seed " + seed + " does not come to an end\\n");
      process.kill(process.pid, "SIGKILL");
    }, 1000);`;
  const worker = new Worker(watch, { eval: true, workerData: { number, seed: SEED, mostMs: ENDLESS_MS } });
  return { begins: (index: number) => Atomics.store(number, 0, index), end: () => worker.terminate() };
}

async function faultOf<Case>({ make, fault, shown = inFull }: Trial<Case>, index: number): Promise<string | null> {
  const made = make(randomOf(SEED, index));
  const about = (why: string) => `case ${index} of seed ${SEED}: ${why}\n${shown(made)}`;
  try {
    const began = performance.now();
    const answer = fault(made);
    const why = answer instanceof Promise ? await answer : answer;
    if (why !== null) return about(why);
    return performance.now() - began > MOST_MS && (await takesLong(made, fault))
      ? about(`takes over ${MOST_MS} ms`)
      : null;
  } catch (error) {
    return about(error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

/** Whether a case takes too much of the processor's own time, again: the machine may be busy with other work. */
async function takesLong<Case>(made: Case, fault: Trial<Case>["fault"]): Promise<boolean> {
  const before = process.cpuUsage();
  await fault(made);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000 > MOST_MS;
}

function inFull(made: unknown): string {
  if (typeof made === "string") return `${JSON.stringify(made)}\n${made}`;
  return JSON.stringify(made, null, 1);
}
