/** What stands beside a step of the bench list, in words. */
import type { BenchCheckState, BenchDue, BenchList, BenchReading, BenchStep } from "../protocol/bench.ts";

/** What is to be expected of a reading, and what the script has of it; empty where nothing is known. */
export function readingInWords({ expected, text }: BenchReading): string {
  return [
    ...(expected === null ? [] : [`expected ${expected}`]),
    ...(text === null ? [] : [`the script has ${text}`]),
  ].join("; ");
}

/** Gives what is to be said of each step in turn: that it is done, or why it is due again; each once, and nothing of a check that was never made. */
export function duesInWords({ checks }: Pick<BenchList, "checks">): (step: Pick<BenchStep, "due" | "check">) => string {
  const told = new Set<string>();
  return ({ due, check }) => {
    const words = dueInWords(due);
    const wasMade = checks.some(({ name, at }) => name === check && at !== null);
    if (!wasMade || told.has(words)) return "";
    told.add(words);
    return words;
  };
}

/** Of a check: since when it is done, or why it is due. */
export function dueInWords(due: BenchDue): string {
  switch (due.state) {
    case "due":
      return due.why;
    case "done":
      return `Done on ${due.day}, and nothing that it covers has changed since.`;
    case "each-time":
      return "";
  }
}

/** What a list is, as its title. */
export function kindInWords({ putBack }: Pick<BenchList, "putBack">): string {
  return putBack ? "Put it back after a wipe" : "Bench list";
}

/** How a check's line begins in its section, such as “order-checked”. */
export function nameOfCheck({ name }: Pick<BenchCheckState, "name">): string {
  return name.slice(name.indexOf(".") + 1);
}

/** How much there is to do: “41 steps, 3 of them done and still good”. */
export function countInWords({ phases }: BenchList): string {
  const steps = phases.flatMap((phase) => phase.steps);
  const done = steps.filter(({ due }) => due.state === "done").length;
  if (steps.length === 0) return "Nothing is due.";
  const all = `${steps.length} ${steps.length === 1 ? "step" : "steps"}`;
  return done === 0 ? `${all}.` : `${all}, ${done} of them done and still good.`;
}
